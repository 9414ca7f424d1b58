import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { TURN_TOLERANCE } from '../../src/geometry/motion/moved-gap.js';
import { ROCK_TOLERANCE } from '../../src/geometry/motion/rocked-gap.js';
import { readScenario } from '../../src/model/read.js';
import { COORDINATES } from '../../src/model/scenario.js';
import type { Position, Scenario } from '../../src/model/scenario.js';
import { withTrims } from '../../src/model/trims.js';
import { Live } from '../../src/page/live.js';
import { startOf } from '../../src/page/state.js';
import { measureAt } from '../../src/solver/measuring/measure.js';
import { seeded } from '../geometry/random.js';

const WORST = 8;
const BRACKET = Math.max(ROCK_TOLERANCE, TURN_TOLERANCE);

function shipped(name: string): Scenario {
  const { scenario } = readScenario(readFileSync(`scenarios/${name}.yaml`, 'utf8'), 'auto');
  return scenario!;
}

/** A drag: small steps with a leap now and then, inside the ranges. */
function* drag(s: Scenario, steps: number, seed: number): Generator<Position> {
  const random = seeded(seed);
  let at = startOf(s).position;
  for (let n = 0; n < steps; n++) {
    const leap = n % 17 === 0 ? 0.5 : 0.01;
    const next = { ...at };
    for (const c of COORDINATES) {
      const { min, max } = s.position[c];
      next[c] = Math.min(max, Math.max(min, at[c] + (random() - 0.5) * leap * (max - min)));
    }
    at = next;
    yield at;
  }
}

describe('gaps while the engine is dragged', () => {
  for (const name of ['orchard-hauler', 'narrow-rails', 'tower-squeeze']) {
    it(`are those of the command line: ${name}`, () => {
      const s = shipped(name);
      const start = startOf(s);
      const live = new Live(s, start);
      let looked = 0;
      for (const at of drag(s, 60, 7)) {
        const exact = measureAt(s, start.options, at).readings.filter(({ fixed }) => !fixed);
        const worst = live.worst(at, WORST);
        expect(worst).toHaveLength(Math.min(WORST, exact.length));
        worst.forEach(({ margin }, i) => {
          // What was measured before may leave a bracketed motion elsewhere in its bracket.
          expect(Math.abs(margin - exact[i]!.margin)).toBeLessThanOrEqual(BRACKET);
        });
        looked += worst.length;
      }
      expect(looked).toBeGreaterThan(60);
    });
  }

  it('are at rest the command line to the last digit, whatever was measured before', () => {
    const s = shipped('orchard-hauler');
    const start = startOf(s);
    const live = new Live(s, start);
    for (const at of drag(s, 12, 3)) {
      live.worst(at, WORST);
      // As text: of a zero the sign alone may differ.
      expect(JSON.stringify(live.rest(at))).toBe(JSON.stringify(measureAt(s, start.options, at)));
    }
  });

  it('takes cuts in', () => {
    const s = shipped('orchard-hauler');
    const start = startOf(s);
    const depths = s.trims.map(({ upTo }) => upTo / 2);
    const cut = new Live(s, { ...start, depths });
    const exact = measureAt(
      withTrims(s, depths),
      [...start.options, ...depths.map(() => 1)],
      start.position,
    );
    expect(cut.rest(start.position).readings).toEqual(exact.readings);
    expect(exact.readings).not.toEqual(new Live(s, start).rest(start.position).readings);
  });

  it('measures few of the rules at each step', () => {
    const s = shipped('orchard-hauler');
    const live = new Live(s, startOf(s));
    const steps = [...drag(s, 1, 5)];
    live.worst(steps[0]!, WORST);
    const before = live.measured;
    let n = 0;
    let at = steps[0]!;
    for (; n < 100; n++) {
      at = { ...at, setback: at.setback + 0.5 };
      live.worst(at, WORST);
    }
    expect((live.measured - before) / n).toBeLessThan(live.count / 5);
  });
});

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { allDomains, firstOptions } from '../../src/model/options.js';
import { COORDINATES } from '../../src/model/scenario.js';
import { stanceOf } from '../../src/model/stance.js';
import { readScenario } from '../../src/model/read.js';
import type { PlaceAnswer } from '../../src/solver/answer.js';
import type { WhyAnswer } from '../../src/solver/explaining/why.js';
import { asBuilt } from '../../src/solver/fitup/as-built.js';
import type { AsBuilt } from '../../src/solver/fitup/as-built.js';
import type { ToTape } from '../../src/solver/fitup/to-tape.js';
import { place } from '../../src/solver/place.js';
import { solvingOf } from '../../src/page/solving.js';
import type { Solving } from '../../src/page/solving.js';

const { scenario } = readScenario(readFileSync('scenarios/narrow-rails.yaml', 'utf8'), 'auto');
const s = scenario!;

function run(solving: ReturnType<typeof solvingOf>): unknown {
  if ('message' in solving) throw new Error(solving.message);
  return driven(solving);
}

function driven<T>(steps: Solving | Generator<unknown, T, 'go'>): unknown {
  for (;;) {
    const step = (steps as Generator<unknown, T, 'go'>).next('go');
    if (step.done === true) return step.value;
  }
}

describe('what the worker solves', () => {
  it('is the answer of the command for the best place', () => {
    const allowed = allDomains(s);
    const answer = run(solvingOf(s, { kind: 'best', allowed })) as PlaceAnswer;
    const asked = { aim: 'margin', keep: 0, tolerance: 25.4 / 64, pins: {}, allowed } as const;
    expect(answer).toEqual(driven(place(s, asked)));
    expect(answer.main.best).toBe('proved');
  });

  it('says why a wish cannot be had, as plain data', () => {
    const answer = run(solvingOf(s, { kind: 'why', want: 'offset=0; margin>=5' })) as WhyAnswer;
    expect(answer.possible).toBe('no');
    expect(answer.reasons.length).toBeGreaterThan(0);
    expect(structuredClone(answer)).toEqual(answer);
  });

  it('says what to tape, and fits what was read, as the command does', () => {
    const position = { setback: 0, offset: 0, height: 0, pitch: 0 };
    for (const k of COORDINATES) position[k] = (s.position[k].min + s.position[k].max) / 2;
    const at = { position, options: firstOptions(s), depths: s.trims.map(() => 0) };
    const list = run(solvingOf(s, { kind: 'to tape', place: at })) as readonly ToTape[];
    expect(list.length).toBeGreaterThan(6);
    const readings = list.map(({ wanted, expected }) => {
      const error = wanted.of === 'angle' ? 0.002 : 1;
      return { ...wanted, value: expected + (wanted.of === 'gap' ? 0.5 : 0), error };
    });
    const question = { kind: 'as built', place: at, readings } as const;
    const answer = run(solvingOf(s, question)) as AsBuilt;
    expect(answer).toEqual(asBuilt(s, at.options, stanceOf(position), readings));
    expect(structuredClone(answer)).toEqual(answer);
    expect(solvingOf(s, { kind: 'mock-up', place: at })).toHaveProperty('message');
  });

  it('refuses what cannot be asked, and says why', () => {
    for (const want of ['', 'ofset=0', 'offset', 'setback=']) {
      expect(solvingOf(s, { kind: 'why', want })).toHaveProperty('message');
    }
    const pinned = { ...s, position: { ...s.position, offset: { min: 0, max: 0 } } };
    const question = { kind: 'slide', along: 'offset', allowed: allDomains(s), steps: 5 } as const;
    expect(solvingOf(pinned, question)).toHaveProperty('message');
  });
});

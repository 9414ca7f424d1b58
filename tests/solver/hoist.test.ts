/**
 * The way in, against bays worked out by hand and against dense sampling of the legs, which must
 * never find less than the margin told, nor may that be further off than its tolerance.
 */

import { describe, expect, it } from 'vitest';
import type { Position, Scenario } from '../../src/model/scenario.js';
import { compileBay } from '../../src/solver/measuring/compile.js';
import { HOIST_TOLERANCE, hoistTo } from '../../src/solver/measuring/hoist.js';
import { positionOf, standingAt, vectorOf } from '../../src/solver/measuring/measure.js';
import { Meter } from '../../src/solver/measuring/meter.js';
import { between, seeded, solid, SORTS } from '../geometry/random.js';
import type { Random } from '../geometry/random.js';
import { bay, part, rule } from '../model/sample-bay.js';
import { mirrored, scenarioOf } from '../support/doc.js';
import type { BayDoc } from '../support/doc.js';

interface Stop {
  readonly setback: number;
  readonly offset: number;
  readonly height: number;
  readonly pitch: number;
}

interface PathDoc {
  readonly off?: readonly string[];
  readonly without?: readonly string[];
  readonly gap?: number;
  readonly through: readonly Stop[];
}

const HIGH: Stop = { setback: 400, offset: 0, height: 420, pitch: 0 };
const PLACE: Position = { setback: 0, offset: 0, height: 20, pitch: 0 };

/** A block that comes down and forward past a bar across the frame. */
const LOWERED: BayDoc = {
  units: 'mm',
  position: { setback: [-50, 50], offset: 0, height: [0, 50], pitch: 0 },
  engine: { block: { kind: 'block', box: { x: [-400, 0], y: [-100, 100], z: [-100, 100] } } },
  chassis: { bar: { kind: 'firewall', box: { x: [150, 160], y: [-300, 300], z: [0, 50] } } },
  rules: [{ between: ['engine', 'chassis'], gap: 1 }],
};

function withPath(doc: BayDoc, path: PathDoc): Scenario {
  const whole: BayDoc & { readonly 'hoist path': PathDoc } = { ...doc, 'hoist path': path };
  return scenarioOf(whole);
}

function goesIn(doc: BayDoc, path: PathDoc, place = PLACE) {
  const scenario = withPath(doc, path);
  return hoistTo(
    scenario,
    scenario.choices.map(() => 0),
    place,
  )!;
}

describe('a way in worked out by hand', () => {
  it('passes the corner of a bar', () => {
    const hoist = goesIn(LOWERED, { through: [HIGH] });
    // The block's lower rear corner goes along z = x - 80, past the bar's corner at x 150, z 50.
    const distance = (150 - 50 - 80) / Math.SQRT2;
    expect(hoist.fits).toBe('yes');
    expect(hoist.margin).toBeLessThanOrEqual(distance + 1e-9);
    expect(hoist.margin).toBeGreaterThan(distance - HOIST_TOLERANCE);
    expect(hoist.worst).toMatchObject({ between: ['block', 'bar'], leg: [0, 1] });
    // Nearest where the corner is at the foot of the perpendicular: x 140, z 60.
    expect(Math.abs(hoist.worst!.position.setback - 140)).toBeLessThan(3);
    expect(Math.abs(hoist.worst!.position.height - 160)).toBeLessThan(3);
  });

  it('is caught by as much as it would have to be lifted over, and says so less the gap needed', () => {
    const lower = { ...HIGH, height: 380 };
    const hoist = goesIn(LOWERED, { through: [lower], gap: 5 }, { ...PLACE, height: -20 });
    // The corner's path, z = x - 120, goes under the bar's corner: level with its top at x 170, the
    // bar's rear face 10 short of it; at x 160 the corner stands 10 deep and 10 in.
    expect(hoist.fits).toBe('no');
    expect(hoist.margin).toBeGreaterThan(-10 - 5 - HOIST_TOLERANCE);
    expect(hoist.margin).toBeLessThanOrEqual(-10 - 5 + 1e-9);
    expect(hoist.needed).toBe(5);
  });

  it('swings a deep sump over the floor, lowest between two positions', () => {
    const sump: BayDoc = {
      ...LOWERED,
      engine: { sump: { ball: { center: [0, 0, -450], diameter: 100 } } },
      chassis: { floor: { box: { x: [-900, 900], y: [-900, 900], z: [-600, -520] } } },
    };
    const still = { setback: 0, offset: 0, height: 0 };
    const place = { ...still, pitch: (20 * Math.PI) / 180 };
    const hoist = goesIn(sump, { through: [{ ...still, pitch: -10 }] }, place);
    // Level, the sump hangs 500 below the crank; at either end of the leg less.
    expect(hoist.margin).toBeLessThanOrEqual(20 + 1e-9);
    expect(hoist.margin).toBeGreaterThan(20 - HOIST_TOLERANCE);
    expect(Math.abs(hoist.worst!.position.pitch)).toBeLessThan(0.03);
  });

  it('is exact at its positions, and says which it is', () => {
    const near = { setback: 300, offset: 0, height: 157, pitch: 0 };
    const hoist = goesIn(LOWERED, { through: [HIGH, near, HIGH] });
    // The bottom at 57, the bar's top at 50.
    expect(hoist.margin).toBeCloseTo(7, 9);
    expect(hoist.worst).toMatchObject({ leg: [1, 1] });
  });

  it('goes on to the place from the last position', () => {
    const through = (setback: number) => [HIGH, { ...HIGH, setback }];
    // Straight down ahead of the bar, whose front face is at 150: first 5 ahead of it, then 5 in.
    const beside = goesIn(LOWERED, { through: through(145) }, { ...PLACE, setback: 145 });
    expect(beside.margin).toBeCloseTo(5, 9);
    const into = goesIn(LOWERED, { through: through(155) }, { ...PLACE, setback: 155 });
    expect(into.fits).toBe('no');
    expect(into.margin).toBeCloseTo(-5, 9);
    expect(into.worst!.leg[1]).toBe(2);
  });
});

describe('what is not there on the way in', () => {
  const covered: BayDoc = {
    ...LOWERED,
    engine: {
      ...LOWERED.engine,
      fan: { kind: 'mechanical fan', box: { x: [-500, -480], y: [-200, 200], z: [-200, 200] } },
    },
    chassis: {
      ...LOWERED.chassis,
      hood: { kind: 'hood', box: { x: [-600, 600], y: [-500, 500], z: [300, 310] } },
      support: { kind: 'core support', box: { x: [-600, -590], y: [-400, 400], z: [-300, 250] } },
    },
    groups: { nose: ['hood', 'support'] },
  };
  const through = [HIGH];

  it('is caught by a hood that stays on, and not by one that is off', () => {
    const on = goesIn(covered, { through });
    expect(on).toMatchObject({ fits: 'no' });
    expect(on.worst!.between[1]).toBe('hood');
    const off = goesIn(covered, { through, off: ['hood'] });
    expect(off).toMatchObject({ fits: 'yes' });
    expect(off.worst!.between).not.toContain('hood');
  });

  it('takes parts off by part, group and kind', () => {
    const caught = goesIn(covered, { through });
    for (const off of ['hood', 'nose']) {
      expect(goesIn(covered, { through, off: [off] }).margin).toBeGreaterThan(caught.margin);
    }
    const { hood, ...rest } = covered.chassis;
    const byKind: BayDoc = { ...covered, chassis: { ...rest, lid: hood! }, groups: {} };
    expect(goesIn(byKind, { through, off: ['hood'] }).fits).toBe('yes');
    expect(goesIn(byKind, { through }).fits).toBe('no');
  });

  it('puts engine parts on afterwards', () => {
    const low = { ...HIGH, setback: -50, height: 120 };
    const path = { through: [HIGH, low], off: ['hood'] };
    const whole = goesIn(covered, path);
    expect(whole.worst!.between[0]).toBe('fan');
    const bare = goesIn(covered, { ...path, without: ['mechanical fan'] });
    expect(bare.margin).toBeGreaterThan(whole.margin);
    expect(bare.worst!.between[0]).toBe('block');
  });

  it('leaves nothing in the way', () => {
    const hoist = goesIn(LOWERED, { through, off: ['bar'] });
    expect(hoist).toEqual({ fits: 'yes', margin: Infinity, needed: 0 });
  });

  it('passes over a pair that is meant to touch, and over parts that options take away', () => {
    const ignored: BayDoc = {
      ...covered,
      rules: [...covered.rules, { between: ['engine', 'hood'], gap: 'ignore', why: 'a scoop' }],
    };
    expect(goesIn(ignored, { through }).fits).toBe('yes');
    const choices = { lid: { none: { remove: ['hood'] }, fitted: {} } };
    const scenario = withPath({ ...covered, choices }, { through });
    expect(hoistTo(scenario, [0], PLACE)!.fits).toBe('yes');
    expect(hoistTo(scenario, [1], PLACE)!.fits).toBe('no');
  });

  it('looks at pairs that no rule covers', () => {
    const doc: BayDoc = { ...covered, rules: [{ between: ['block', 'bar'], gap: 1 }] };
    expect(goesIn(doc, { through }).fits).toBe('no');
  });

  it('looks at rest: neither rock nor sweep', () => {
    const still = goesIn(LOWERED, { through });
    const moving: BayDoc = {
      ...LOWERED,
      rock: 5,
      chassis: { bar: { ...LOWERED.chassis['bar']!, sweep: { x: [-90, 0] } } },
    };
    expect(goesIn(moving, { through }).margin).toBe(still.margin);
  });

  it('is nothing without a path', () => {
    expect(hoistTo(scenarioOf(LOWERED), [], PLACE)).toBeUndefined();
  });
});

/** Two solids on either side, and a path that goes anywhere. */
function anyBay(random: Random): { scenario: Scenario; place: Position } {
  const sort = () => SORTS[Math.floor(SORTS.length * random())]!;
  const some = (side: 'engine' | 'chassis') =>
    [0, 1].map((n) =>
      part(`${side} ${n}`, side, { solids: [solid(random, sort(), side === 'engine' ? 250 : 90)] }),
    );
  const stop = (): Position => ({
    setback: between(random, -250, 250),
    offset: between(random, -250, 250),
    height: between(random, -250, 250),
    pitch: random() < 0.3 ? 0.1 : between(random, -0.4, 0.4),
  });
  const through = Array.from({ length: 1 + Math.floor(3 * random()) }, stop);
  const scenario = bay({
    parts: [...some('engine'), ...some('chassis')],
    rules: [rule('side:engine', 'side:chassis', 0)],
    hoistPath: { off: [], without: [], gap: 0, through },
  });
  return { scenario, place: stop() };
}

/** The least gap at rest at a position, by the routines that measure a place. */
function measured(scenario: Scenario) {
  const meter = new Meter(compileBay(scenario));
  return (position: Position): number => {
    const { readings } = standingAt(meter, [], vectorOf(position));
    return Math.min(...readings.map(({ atRest }) => atRest));
  };
}

describe('against dense sampling', () => {
  /** Two brackets of a gap of curved solids that overlap. */
  const BLUR = 2e-3;
  const SAMPLES = 150;

  it('is never less than told, and is told to within the tolerance', () => {
    const seen = { apart: 0, inside: 0, along: 0 };
    for (let seed = 1; seed <= 120; seed++) {
      const { scenario, place } = anyBay(seeded(seed));
      const hoist = hoistTo(scenario, [], place)!;
      const gapAt = measured(scenario);
      const stops = [...scenario.hoistPath!.through, place].map(vectorOf);
      stops.slice(1).forEach((to, leg) => {
        const from = stops[leg]!;
        for (let n = 0; n <= SAMPLES; n++) {
          const at = from.map((start, k) => start + ((to[k]! - start) * n) / SAMPLES);
          const found = gapAt(positionOf(at));
          expect(found, `seed ${seed}, leg ${leg}`).toBeGreaterThanOrEqual(hoist.margin - BLUR);
        }
      });
      const least = gapAt(hoist.worst!.position);
      expect(least - hoist.margin, `seed ${seed}`).toBeLessThanOrEqual(HOIST_TOLERANCE + BLUR);
      if (hoist.margin > 0) seen.apart++;
      else seen.inside++;
      if (hoist.worst!.leg[0] !== hoist.worst!.leg[1]) seen.along++;
    }
    expect(Math.min(seen.apart, seen.inside, seen.along)).toBeGreaterThan(10);
  });
});

describe('in a mirror', () => {
  it('is as tight, on the other side', () => {
    const doc: BayDoc = {
      ...LOWERED,
      chassis: { valve: { box: { x: [-300, -200], y: [130, 180], z: [-50, 60] } } },
      position: { ...LOWERED.position, offset: [-20, 20] },
    };
    const path = { through: [{ ...HIGH, offset: 70, height: 140, pitch: 6 }] };
    const turned = { through: path.through.map((stop) => ({ ...stop, offset: -stop.offset })) };
    const one = goesIn(doc, path, { ...PLACE, offset: 10 });
    const other = goesIn(mirrored(doc), turned, { ...PLACE, offset: -10 });
    expect(one.worst!.between).toEqual(['block', 'valve']);
    expect(other.worst!.between).toEqual(['block', 'valve']);
    expect(Math.abs(other.margin - one.margin)).toBeLessThan(HOIST_TOLERANCE);
    expect(other.worst!.position.offset).toBeCloseTo(-one.worst!.position.offset, 0);
  });
});

/**
 * What to tape next: of all that could be taped, the reading that takes the most from what is not known, then
 * the one that does so beside it, and so on. With P what is known so far (the covariance, motions not told
 * taken as known to HARDLY), a reading with slopes r and variance v takes P r (P r)' / (v + r'P r) from it.
 */

import { dot } from '../../geometry/singular.js';
import { ANGLE_ERROR, READING_NAME, TAPE_ERROR } from '../../model/fitup/measured.js';
import type { Scenario } from '../../model/scenario.js';
import { AXES } from '../../model/scenario.js';
import type { Stance } from '../../model/stance.js';
import * as trig from '../../model/trig.js';
import { deviationOf } from './estimate.js';
import { expectedOf } from './observed.js';
import type { PairBook, Wanted } from './observed.js';

/** Millimetres: what a motion that nothing tells is known to before. */
const HARDLY = 60;
/** Millimetres: gaps that a tape gets at. */
const TAPED = { least: 5, most: 350 };

export interface Candidate {
  readonly wanted: Wanted;
  /** Scaled slopes in standard deviations of the reading. */
  readonly row: readonly number[];
  /** Of the reading, mm or radians. */
  readonly deviation: number;
}

/** All that could be taped where the engine is taken to sit, what has been read left out. */
export function candidates(
  scenario: Scenario,
  book: PairBook,
  stance: Stance,
  done: ReadonlySet<string>,
): readonly Candidate[] {
  const gaps = book.pairs.map(({ between, measured }): Wanted => {
    return { of: 'gap', name: READING_NAME.gap(between, measured), between, measured };
  });
  const points = scenario.datums.engine.flatMap(({ name, x, y = 0, z = 0 }): Wanted[] => {
    if (x === undefined) return [];
    return AXES.filter((axis) =>
      scenario.datums.chassis.some((one) => one[axis] !== undefined),
    ).map((axis) => {
      return { of: 'point', name: READING_NAME.point(name, axis), point: [x, y, z], axis };
    });
  });
  const angles = (['pitch', 'roll'] as const).map((angle): Wanted => {
    return { of: 'angle', name: READING_NAME.angle(angle), angle };
  });
  const adjusters = (scenario.mockup?.adjusters ?? []).map(({ name }): Wanted => {
    return { of: 'adjuster', name, adjuster: name };
  });
  return [...points, ...angles, ...adjusters, ...gaps].flatMap((wanted): Candidate[] => {
    if (done.has(wanted.name)) return [];
    const expected = expectedOf(wanted, scenario, book)?.(stance);
    if (!expected) return [];
    const { value, slopes } = expected;
    if (wanted.of === 'gap' && !(value >= TAPED.least && value <= TAPED.most)) return [];
    const deviation = deviationOf(wanted.of === 'angle' ? ANGLE_ERROR : TAPE_ERROR);
    return [{ wanted, row: Array.from(slopes, (slope) => slope / deviation), deviation }];
  });
}

/**
 * The best of them in order, at most so many.
 * @param rows those of the readings so far, as of `Candidate`.
 * @param towards a scaled direction whose variance alone counts; all six unless given.
 */
export function bestNext(
  all: readonly Candidate[],
  rows: readonly (readonly number[])[],
  most: number,
  towards?: ArrayLike<number>,
): readonly Wanted[] {
  let known = [0, 1, 2, 3, 4, 5].map((i) =>
    [0, 1, 2, 3, 4, 5].map((j) => (i === j ? HARDLY * HARDLY : 0)),
  );
  for (const row of rows) known = told(known, row);
  const chosen: Candidate[] = [];
  while (chosen.length < most) {
    const rest = all.filter((one) => !chosen.includes(one));
    if (rest.length === 0) break;
    const worth = rest.map(({ row }) => {
      const moved = known.map((line) => dot(line, row));
      const taken = towards ? trig.squared(dot(moved, towards)) : dot(moved, moved);
      return taken / (1 + dot(moved, row));
    });
    const best = worth.reduce((a, value, k) => (value > worth[a]! * (1 + 1e-9) ? k : a), 0);
    const total = known.reduce((sum, line, k) => sum + line[k]!, 0);
    if (!(worth[best]! > NOTHING * (towards ? 1 : total))) break;
    chosen.push(rest[best]!);
    known = told(known, rest[best]!.row);
  }
  return chosen.map(({ wanted }) => wanted);
}

/** A reading that takes less than this share is not worth taking. */
const NOTHING = 1e-4;

function told(known: readonly (readonly number[])[], row: readonly number[]): number[][] {
  const moved = known.map((line) => dot(line, row));
  const size = 1 + dot(moved, row);
  return known.map((line, i) => line.map((value, j) => value - (moved[i]! * moved[j]!) / size));
}

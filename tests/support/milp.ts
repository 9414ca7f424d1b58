/**
 * The same question as a mixed-integer program, for `highs`: the best margin at one pitch when every
 * pair is parted along one of a few straight directions. A gap along any direction is at most the
 * nearest gap, so this never exceeds the true best margin, and equals it where the directions suffice.
 */

import { extent } from '../../src/geometry/reach.js';
import type { Shape } from '../../src/geometry/shape.js';
import type { OptionSet, Scenario } from '../../src/model/scenario.js';
import type { Bay } from '../../src/solver/measuring/bay.js';
import type { Contact } from '../../src/solver/measuring/contact.js';
import { Program } from './highs.js';
import type { Highs, Term } from './highs.js';

/** Gap along `d` at translation t: `d . t + constant`. */
export interface Straight {
  readonly d: readonly [number, number, number];
  readonly constant: number;
}

export interface StraightPair {
  readonly ways: readonly Straight[];
  readonly needed: number;
  /** Holds only when all of these options are chosen. */
  readonly when: readonly (readonly [choice: number, option: number])[];
}

export interface StraightBay {
  readonly pairs: readonly StraightPair[];
  /** Setback, offset and height. */
  readonly ranges: readonly (readonly [number, number])[];
  /** Open options of each choice, as indexes. */
  readonly domains: readonly (readonly number[])[];
  /** Options that cannot go together. */
  readonly clashes?: readonly (readonly [readonly [number, number], readonly [number, number]])[];
  /** The first of each needs the second. */
  readonly needs?: readonly (readonly [readonly [number, number], readonly [number, number]])[];
}

export interface StraightBest {
  readonly margin: number;
  /** What no solution of the program exceeds. */
  readonly bound: number;
  readonly position: readonly [number, number, number];
  readonly set: OptionSet;
  readonly rows: number;
  readonly integers: number;
}

/**
 * The program of a bay, ready to solve; `solve` is what a race should time.
 * @param plain leave every pair and direction in, for `highs` to reduce by itself: slower, but the
 *   program that one would write down.
 */
export function straightProgram(
  bay: StraightBay,
  plain = false,
): {
  readonly program: Program;
  solve(highs: Highs): StraightBest;
} {
  const program = new Program();
  const t = bay.ranges.map(([low, high]) => program.variable(0, low, high));
  const top = ceiling(bay);
  const m = program.variable(1, -Infinity, top);
  const chosen = bay.domains.map(
    (domain) => new Map(domain.map((option) => [option, program.variable(0, 0, 1, true)])),
  );
  for (const options of chosen) {
    program.row(
      [...options.values()].map((x): Term => [x, 1]),
      1,
      1,
    );
  }
  for (const [[c, o], [d, p]] of bay.clashes ?? []) {
    const [a, b] = [chosen[c]?.get(o), chosen[d]?.get(p)];
    if (a !== undefined && b !== undefined)
      program.row(
        [
          [a, 1],
          [b, 1],
        ],
        -Infinity,
        1,
      );
  }
  for (const [[c, o], [d, p]] of bay.needs ?? []) {
    const [a, b] = [chosen[c]?.get(o), chosen[d]?.get(p)];
    if (a === undefined) continue;
    program.row(
      b === undefined
        ? [[a, 1]]
        : [
            [a, 1],
            [b, -1],
          ],
      -Infinity,
      0,
    );
  }
  for (const pair of bay.pairs) {
    const open = pair.when.every(([c, o]) => chosen[c]!.has(o));
    const ways = pair.ways.map((way) => ({ way, low: reach(way, bay, -1) - pair.needed }));
    // A pair that one direction always clears costs nothing.
    if (!open || (!plain && ways.some(({ low }) => low >= top))) continue;
    const live = ways.filter(
      ({ way }) =>
        plain ||
        reach(way, bay, 1) - pair.needed >
          ways.reduce((a, w) => Math.max(a, w.low), -Infinity) - 1e-9,
    );
    const picks = live.length > 1 ? live.map(() => program.variable(0, 0, 1, true)) : [];
    if (picks.length > 0)
      program.row(
        picks.map((z): Term => [z, 1]),
        1,
        1,
      );
    live.forEach(({ way, low }, i) => {
      const big = Math.max(0, top - low);
      const terms: Term[] = [[m, 1], ...way.d.map((v, k): Term => [t[k]!, -v])];
      let limit = way.constant - pair.needed;
      if (picks.length > 0) {
        terms.push([picks[i]!, big]);
        limit += big;
      }
      for (const [c, o] of pair.when) {
        terms.push([chosen[c]!.get(o)!, big]);
        limit += big;
      }
      program.row(terms, -Infinity, limit);
    });
  }
  return {
    program,
    solve(highs) {
      const { status, value, bound, x } = program.solve(highs);
      if (status !== 'optimal') throw new Error(`the straight program is ${status}`);
      const set = chosen.map((options) => [...options].find(([, z]) => x[z]! > 0.5)![0]);
      const position = [x[t[0]!]!, x[t[1]!]!, x[t[2]!]!] as const;
      return {
        margin: value,
        bound,
        position,
        set,
        rows: program.rows,
        integers: program.integers,
      };
    },
  };
}

/** The tightest straight margin of one position and set: what the program maximises. */
export function straightMargin(
  bay: StraightBay,
  position: readonly number[],
  set: OptionSet,
): number {
  let least = Infinity;
  for (const { ways, needed, when } of bay.pairs) {
    if (!when.every(([c, o]) => set[c] === o)) continue;
    const gaps = ways.map(({ d, constant }) =>
      d.reduce((sum, v, k) => sum + v * position[k]!, constant),
    );
    least = Math.min(least, Math.max(...gaps) - needed);
  }
  return least;
}

/** Most (`sign` 1) or least (-1) that a straight gap can be over the ranges. */
function reach({ d, constant }: Straight, { ranges }: StraightBay, sign: 1 | -1): number {
  return ranges.reduce(
    (sum, [low, high], k) => sum + (d[k]! * sign > 0 ? d[k]! * high : d[k]! * low),
    constant,
  );
}

/** What the rules that always hold leave at the very most. */
function ceiling(bay: StraightBay): number {
  let top = 1e4;
  for (const { ways, needed, when } of bay.pairs) {
    if (when.length > 0) continue;
    top = Math.min(top, Math.max(...ways.map((way) => reach(way, bay, 1))) - needed);
  }
  return top;
}

/** A compiled bay at one pitch (radians), all that its search may choose included. */
export function straightBayOf(bay: Bay, pitch: number): StraightBay {
  const { scenario } = bay;
  const pairs: StraightPair[] = [];
  for (const { choices, combos } of bay.groups) {
    for (const { options, contacts, needed } of combos) {
      const when = choices.map((c, i) => [c, options[i]!] as const);
      for (const id of contacts) {
        const always = combos.every((combo) => combo.contacts.includes(id));
        if (always && combos[0]!.options !== options) continue;
        pairs.push({ ways: waysOf(bay.contacts[id]!, pitch), needed, when: always ? [] : when });
      }
    }
  }
  for (const { choices, combos } of bay.fixed) {
    for (const { options, holds, gap, needed } of combos) {
      const when = choices.map((c, i) => [c, options[i]!] as const);
      if (holds) pairs.push({ ways: [{ d: [0, 0, 0], constant: gap }], needed, when });
    }
  }
  const { setback, offset, height } = scenario.position;
  const ranges = [setback, offset, height].map(({ min, max }) => [min, max] as const);
  if (bay.limits.some(({ limit }) => limit.quantity.of !== 'pitch')) {
    throw new Error('only limits on pitch are written as a program');
  }
  return { pairs, ranges, domains: bay.domains, ...together(scenario) };
}

function together(scenario: Scenario): Pick<StraightBay, 'clashes' | 'needs'> {
  const place = (ref: { choice: string; option: string }): readonly [number, number] => {
    const c = scenario.choices.findIndex(({ name }) => name === ref.choice);
    return [c, scenario.choices[c]!.options.findIndex(({ name }) => name === ref.option)];
  };
  const all = scenario.choices.flatMap(({ options }, c) =>
    options.map((option, o) => ({ option, at: [c, o] as const })),
  );
  return {
    clashes: all.flatMap(({ option, at }) =>
      option.rulesOut.map((ref) => [at, place(ref)] as const),
    ),
    needs: all.flatMap(({ option, at }) => option.needs.map((ref) => [at, place(ref)] as const)),
  };
}

/** Face normals of both solids; along its own axis alone for a rule measured so. */
function waysOf(contact: Contact, pitch: number): Straight[] {
  const { engine, chassis, rock, axis, sign } = contact;
  const turned = (rock > 0 ? [-rock, 0, rock] : [0]).map((angle) =>
    copyOf(engine.at(pitch, angle)),
  );
  const ways: Straight[] = [];
  const add = (x: number, y: number, z: number): void => {
    if (ways.some(({ d }) => d[0] * x + d[1] * y + d[2] * z > 1 - 1e-12)) return;
    const near = Math.min(...turned.map((shape) => -extent(shape, -x, -y, -z)));
    ways.push({ d: [x, y, z], constant: near - extent(chassis, x, y, z) });
  };
  if (axis >= 0) {
    add(axis === 0 ? sign : 0, axis === 1 ? sign : 0, axis === 2 ? sign : 0);
    return ways;
  }
  const { normals } = chassis;
  for (let i = 0; i < normals.length; i += 3) add(normals[i]!, normals[i + 1]!, normals[i + 2]!);
  const own = engine.at(pitch, 0).normals;
  for (let i = 0; i < own.length; i += 3) add(-own[i]!, -own[i + 1]!, -own[i + 2]!);
  return ways;
}

/** A turned solid is overwritten by the next turn, so keep what `extent` reads. */
function copyOf(shape: Shape): Shape {
  return {
    ...shape,
    points: Float64Array.from(shape.points),
    axis: Float64Array.from(shape.axis),
    center: Float64Array.from(shape.center),
    generators: Float64Array.from(shape.generators),
  };
}

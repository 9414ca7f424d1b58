/**
 * Planted bays: files whose best margin is known by construction.
 *
 * A block stands between six walls with a known play on each axis (what is left when both gaps that
 * are needed are taken away), so the best margin is half of the least play. Walls are wide and
 * thick, so that the nearest way to each is straight across. Pitching the block only widens its
 * extents fore-aft and up-down, so level is best. Knobs on the block's faces take play away until an
 * option moves them. Inches.
 */

import { between } from '../geometry/random.js';
import type { Random } from '../geometry/random.js';
import type { BayDoc, OptionDoc, PartDoc, Point, RuleDoc, Span } from './doc.js';

export interface PlantRequest {
  readonly random: Random;
  /** `tilted`: the block leans by an angle that only the right pitch takes back. */
  readonly pitch: 'pinned' | 'free' | 'tilted';
  readonly choices?: number;
  /** Cut the block, and each wall, into this many parts; needs play above 0. */
  readonly pieces?: { readonly engine: number; readonly chassis: number };
  /** Parts of each side that cannot bind. */
  readonly decoys?: number;
  /** Least and most play, in. */
  readonly play?: Span;
  readonly worth?: number;
}

export interface Plant {
  readonly doc: BayDoc;
  /** The best margin under a set of options, in. */
  readonly marginOf: (set: readonly number[]) => number;
  /** Every option set, first options first. */
  readonly sets: readonly (readonly number[])[];
  readonly workOf: (set: readonly number[]) => { hours: number; cost: number };
  /** The one offset of the best place, in, where side-to-side binds; else undefined. */
  readonly offsetOf: (set: readonly number[]) => number | undefined;
}

const WALLS = ['front', 'rear', 'left', 'right', 'top', 'bottom'] as const;
type Wall = (typeof WALLS)[number];
const FACING = {
  front: ['fore-aft', 'ahead'],
  rear: ['fore-aft', 'behind'],
  left: ['side-to-side', 'left'],
  right: ['side-to-side', 'right'],
  top: ['up-down', 'above'],
  bottom: ['up-down', 'below'],
} as const;

/** How wide and how thick the walls are, in. */
const WIDE = 60;
const THICK = 12;

interface Knob {
  readonly wall: Wall;
  readonly out: number;
  readonly hours: number;
  readonly cost: number;
}

export function plant(request: PlantRequest): Plant {
  const { random } = request;
  const pick = (low: number, high: number): number => between(random, low, high);
  const size = { l: pick(14, 24), w: pick(5, 9), h: pick(4, 7) };
  const [least, most] = request.play ?? [-1.5, 4];
  const play = [0, 1, 2].map(() => pick(least, most));
  const needs = WALLS.map(() => pick(0.1, 1.5));
  const knobs = Array.from({ length: request.choices ?? 0 }, (_, c): Knob => ({
    wall: WALLS[(c + Math.floor(6 * random())) % 6]!,
    out: pick(0.2, 1.5),
    hours: Math.round(pick(1, 8)) / 2,
    cost: Math.round(pick(20, 300)),
  }));
  const middle: Point = [pick(-3, 3), pick(-3, 3), pick(-3, 3)];
  const lean = request.pitch === 'tilted' ? pick(1, 4) : 0;
  const low: Point = [-size.l, -size.w, -size.h];
  const high: Point = [0, size.w, size.h];

  const face = (i: number): number => {
    const axis = i >> 1;
    const room = play[axis]! + needs[2 * axis]! + needs[2 * axis + 1]!;
    const ends = [middle[axis]! + low[axis]! - room / 2, middle[axis]! + high[axis]! + room / 2];
    return ends[outwards(WALLS[i]!) < 0 ? 0 : 1]!;
  };
  const walls = WALLS.map((wall, i) => wallParts(wall, face(i), request.pieces?.chassis ?? 1));
  const block = pieces(low, high, request.pieces?.engine ?? 1);
  const tilted = (part: PartDoc): PartDoc =>
    lean === 0 ? part : { ...part, tilt: { about: 'y', by: -lean, at: [0, 0, 0] } };
  const engine: Record<string, PartDoc> = {};
  block.forEach((part, i) => (engine[`block ${i + 1}`] = tilted(part)));
  knobs.forEach((knob, c) => (engine[`knob ${c + 1}`] = tilted(knobPart(knob, low, high))));
  const chassis: Record<string, PartDoc> = {};
  walls.forEach((list, i) =>
    list.forEach((part, n) => (chassis[`${WALLS[i]!} wall ${n + 1}`] = part)),
  );
  for (let n = 0; n < (request.decoys ?? 0); n++) {
    engine[`inside ${n + 1}`] = tilted(insidePart(random, low, high));
    chassis[`behind ${n + 1}`] = behindPart(random, n, face(n % 6));
  }

  const rules: RuleDoc[] = [{ between: ['engine', 'chassis'], gap: 0.05 }];
  WALLS.forEach((wall, i) => {
    const straight = random() < 0.3;
    const [measured, side] = FACING[wall];
    rules.push({
      between: ['hard parts', `${wall} walls`],
      gap: needs[i]!,
      ...(straight && { measured, side }),
    });
  });
  const choices = Object.fromEntries(
    knobs.map(({ hours, cost }, c): [string, Record<string, OptionDoc>] => [
      `knob ${c + 1}`,
      { stays: {}, moved: { remove: [`knob ${c + 1}`], hours, cost } },
    ]),
  );
  const doc: BayDoc = {
    units: 'in',
    position: {
      setback: [middle[0] - 6, middle[0] + 6],
      offset: [middle[1] - 6, middle[1] + 6],
      height: [middle[2] - 6, middle[2] + 6],
      pitch: request.pitch === 'pinned' ? 0 : request.pitch === 'free' ? [-2, 4] : [0, 5],
    },
    engine,
    chassis,
    groups: {
      'hard parts': Object.keys(engine).filter((name) => !name.startsWith('inside')),
      ...Object.fromEntries(
        walls.map((list, i) => [
          `${WALLS[i]!} walls`,
          list.map((_, n) => `${WALLS[i]!} wall ${n + 1}`),
        ]),
      ),
    },
    rules,
    ...(knobs.length > 0 && { choices }),
    worth: request.worth ?? 0.125,
  };

  const out = (set: readonly number[], wall: Wall): number =>
    Math.max(0, ...knobs.map((knob, c) => (set[c] === 0 && knob.wall === wall ? knob.out : 0)));
  const left = (set: readonly number[]): number[] =>
    play.map((p, axis) => p - out(set, WALLS[2 * axis]!) - out(set, WALLS[2 * axis + 1]!));
  const marginOf = (set: readonly number[]): number => Math.min(...left(set)) / 2;
  return {
    doc,
    marginOf,
    sets: allSets(knobs.length),
    workOf: (set) =>
      knobs.reduce(
        (work, knob, c) =>
          set[c] === 0 ? work : { hours: work.hours + knob.hours, cost: work.cost + knob.cost },
        { hours: 0, cost: 0 },
      ),
    offsetOf: (set) => {
      const plays = left(set);
      if (plays[1]! > Math.min(plays[0]!, plays[2]!)) return undefined;
      const shift = (needs[2]! - needs[3]! + out(set, 'left') - out(set, 'right')) / 2;
      return middle[1] + shift;
    },
  };
}

function outwards(wall: Wall): 1 | -1 {
  return wall === 'front' || wall === 'left' || wall === 'bottom' ? -1 : 1;
}

function axisOf(wall: Wall): 0 | 1 | 2 {
  return (WALLS.indexOf(wall) >> 1) as 0 | 1 | 2;
}

function boxPart(low: readonly number[], high: readonly number[]): PartDoc {
  const span = (k: number): Span => [low[k]!, high[k]!];
  return { box: { x: span(0), y: span(1), z: span(2) } };
}

/** A box cut into `count` boxes, along x and along y. */
function pieces(low: Point, high: Point, count: number): PartDoc[] {
  const across = divisor(count, Math.sqrt(count / 2));
  return grid(low, high, 0, count / across, 1, across);
}

function grid(
  low: readonly number[],
  high: readonly number[],
  i: number,
  n: number,
  j: number,
  m: number,
): PartDoc[] {
  const parts: PartDoc[] = [];
  const cut = (k: number, at: number, of: number): number =>
    low[k]! + ((high[k]! - low[k]!) * at) / of;
  for (let a = 0; a < n; a++) {
    for (let b = 0; b < m; b++) {
      const from = [...low];
      const to = [...high];
      from[i] = cut(i, a, n);
      to[i] = cut(i, a + 1, n);
      from[j] = cut(j, b, m);
      to[j] = cut(j, b + 1, m);
      parts.push(boxPart(from, to));
    }
  }
  return parts;
}

function wallParts(wall: Wall, face: number, tiles: number): PartDoc[] {
  const k = axisOf(wall);
  const low = [-WIDE, -WIDE, -WIDE];
  const high = [WIDE, WIDE, WIDE];
  low[k] = outwards(wall) < 0 ? face - THICK : face;
  high[k] = outwards(wall) < 0 ? face : face + THICK;
  const [i, j] = [0, 1, 2].filter((axis) => axis !== k);
  const across = divisor(tiles, Math.sqrt(tiles));
  return grid(low, high, i!, tiles / across, j!, across);
}

/** The greatest divisor of `count` that is at most `most`. */
function divisor(count: number, most: number): number {
  let d = Math.max(1, Math.floor(most));
  while (count % d !== 0) d--;
  return d;
}

function knobPart({ wall, out }: Knob, low: Point, high: Point): PartDoc {
  const k = axisOf(wall);
  const from = [0, 1, 2].map((axis) => (low[axis]! + high[axis]!) / 2 - 0.5);
  const to = [0, 1, 2].map((axis) => (low[axis]! + high[axis]!) / 2 + 0.5);
  from[k] = outwards(wall) < 0 ? low[k] - out : high[k] - 1;
  to[k] = outwards(wall) < 0 ? low[k] + 1 : high[k] + out;
  return boxPart(from, to);
}

/** A solid at least an inch inside the block. */
function insidePart(random: Random, low: Point, high: Point): PartDoc {
  const r = between(random, 0.3, 1.2);
  const c = [0, 1, 2].map((k) => between(random, low[k]! + 1 + r, high[k]! - 1 - r));
  const roll = random();
  if (roll < 0.4)
    return boxPart(
      c.map((v) => v - r),
      c.map((v) => v + r),
    );
  if (roll < 0.7) return { ball: { center: c as unknown as Point, diameter: 2 * r } };
  return {
    cylinder: {
      axis: 'x',
      from: c[0]! - r,
      to: c[0]! + r,
      center: [c[1]!, c[2]!],
      diameter: 1.4 * r,
    },
  };
}

/** A solid at least three inches behind a wall's face. */
function behindPart(random: Random, n: number, face: number): PartDoc {
  const wall = WALLS[n % 6]!;
  const k = axisOf(wall);
  const r = between(random, 0.5, 3);
  const c = [0, 1, 2].map(() => between(random, -20, 20));
  c[k] = face + outwards(wall) * (3 + r + between(random, 0, 4));
  return random() < 0.5
    ? boxPart(
        c.map((v) => v - r),
        c.map((v) => v + r),
      )
    : { ball: { center: c as unknown as Point, diameter: 2 * r } };
}

function allSets(choices: number): number[][] {
  return Array.from({ length: 2 ** choices }, (_, n) =>
    Array.from({ length: choices }, (__, c) => (n >> c) & 1),
  );
}

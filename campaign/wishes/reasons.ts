/** Reasons against `highs`: boxes and rules along the axes make the bay a linear program, to the last digit. */

import type { Range } from '../../src/model/scenario.js';
import type { Reason } from '../../src/solver/explaining/blockers.js';
import { why } from '../../src/solver/explaining/why.js';
import { between } from '../../tests/geometry/random.js';
import type { Random } from '../../tests/geometry/random.js';
import { fileOf, scenarioOf } from '../../tests/support/doc.js';
import type { BayDoc, LimitDoc, RuleDoc, Span } from '../../tests/support/doc.js';
import type { Highs } from '../../tests/support/highs.js';
import { straightProgram } from '../../tests/support/milp.js';
import { MEASURED, randomBay, SIDES } from '../../tests/support/random-bays.js';
import { TOLERANCE, toEnd } from '../../tests/support/solve.js';
import { straightOf } from '../../tests/support/straight-doc.js';
import { below, oneOf } from '../mutated/pick.js';
import type { Notes } from '../subject.js';

/** Millimetres: nearer the wish than this, neither of us can say. */
const DOUBTFUL = 1e-3;

type Coordinate = 'setback' | 'offset' | 'height';
const COORDINATES: readonly Coordinate[] = ['setback', 'offset', 'height'];

interface Asked {
  readonly doc: BayDoc;
  readonly limits: readonly LimitDoc[];
  readonly ranges: Readonly<Partial<Record<Coordinate, Range>>>;
  readonly margin: number;
}

/** Chassis parts and limits kept: the most margin that they leave within the wish, or -Infinity. */
type MostOf = (parts: readonly string[], limits: readonly number[]) => number;

export function reasonsCase(notes: Notes, random: Random, highs: Highs): string {
  const bay = axisBay(random);
  const free = mostOf({ doc: bay, limits: [], ranges: {}, margin: 0 }, highs);
  const asked = wished(bay, free(Object.keys(bay.chassis), []), random);
  const most = mostOf(asked, highs);
  const { doc, limits, ranges, margin } = asked;
  const scenario = scenarioOf({ ...doc, limits });
  const wants = { ranges, options: [], margin };
  const answer = toEnd(why(scenario, { wants, tolerance: TOLERANCE }));
  const parts = Object.keys(doc.chassis);
  const all = limits.map((_, i) => i);
  const truth = most(parts, all);
  const said = `margin >= ${margin} wished, highs finds ${truth} mm`;
  const text = JSON.stringify(
    { file: JSON.parse(fileOf({ ...doc, limits })) as unknown, wants },
    null,
    1,
  );
  if (Math.abs(truth - margin) < DOUBTFUL) return text;
  const { possible, placement, reasons, complete } = answer;
  notes.hold(possible === (truth > margin ? 'yes' : 'no'), `${said}: possible ${possible}`);
  if (possible === 'yes') {
    notes.count('possible');
    notes.hold(
      (placement?.optimum.margin ?? -Infinity) >= margin - DOUBTFUL,
      `${said}: its place leaves ${placement?.optimum.margin}`,
    );
    return text;
  }
  notes.hold(reasons.length > 0 || !complete, `${said}: no reason given`);
  const isAgainst = (kept: readonly string[], held: readonly number[]) => most(kept, held) < margin;
  for (const reason of reasons) holdReason(notes, said, reason, limits, isAgainst);
  const things = parts.length + limits.length;
  if (!complete || things > 8) return text;
  notes.count('complete');
  const wanted = smallestSets(things, (kept) =>
    isAgainst(
      kept.filter((n) => n < parts.length).map((n) => parts[n]!),
      kept.filter((n) => n >= parts.length).map((n) => n - parts.length),
    ),
  ).map((kept) =>
    kept
      .map((n) => (n < parts.length ? parts[n]! : limitKey(limits[n - parts.length]!)))
      .sort()
      .join(', '),
  );
  const told = reasons.map((reason) =>
    [...reason.parts, ...reason.limits.map((limit) => keyOf(limit))].sort().join(', '),
  );
  notes.hold(
    [...told].sort().join(' | ') === [...wanted].sort().join(' | '),
    `${said}: reasons ${told.join(' | ')}; by highs ${wanted.join(' | ')}`,
  );
  return text;
}

/** Prevents it by itself, and with any one of its members left out does not. */
function holdReason(
  notes: Notes,
  said: string,
  { parts, limits, smallest, short }: Reason,
  all: readonly LimitDoc[],
  isAgainst: (parts: readonly string[], limits: readonly number[]) => boolean,
): void {
  const held = limits.map((limit) => all.findIndex((one) => limitKey(one) === keyOf(limit)));
  const named = `${said}: ${[...parts, ...limits.map(keyOf)].join(', ')}`;
  notes.count('reasons');
  if (parts.length + limits.length > 1) notes.count('reasons of several');
  if (limits.length > 0) notes.count('reasons with a limit');
  notes.hold(!held.includes(-1), `${named}: a limit that the file does not have`);
  notes.hold(isAgainst(parts, held), `${named}: does not prevent it`);
  if (short)
    notes.hold(
      short.least <= short.most && short.most > 0,
      `${named}: short by ${short.least} to ${short.most}`,
    );
  if (!smallest) return;
  for (const one of parts) {
    notes.hold(
      !isAgainst(
        parts.filter((name) => name !== one),
        held,
      ),
      `${named}: prevents it without ${one} too`,
    );
  }
  for (const one of held) {
    notes.hold(
      !isAgainst(
        parts,
        held.filter((limit) => limit !== one),
      ),
      `${named}: prevents it without a limit too`,
    );
  }
}

/** Boxes, and one rule along an axis for each pair: the side on which they lie at the middle of the ranges. */
function axisBay(random: Random): BayDoc {
  const { choices: _, worth: __, ...doc } = randomBay({ random, straight: true });
  const rules: RuleDoc[] = [
    {
      between: ['engine', 'chassis'],
      gap: 'ignore',
      measured: 'nearest',
      why: 'along the axes only',
    },
  ];
  for (const name of Object.keys(doc.engine)) {
    for (const other of Object.keys(doc.chassis)) {
      const side = random() < 0.7 ? clearestSide(doc, name, other) : oneOf(random, SIDES);
      rules.push({
        between: [name, other],
        gap: between(random, 0, 12),
        measured: MEASURED[side],
        side,
      });
    }
  }
  // Wide ranges leave parts alone to stand in the way, and those in pairs.
  const wide = random() < 0.5 ? 1 : 5;
  const range = (of: Span | number): Span =>
    (of as Span).map((end) => wide * end) as unknown as Span;
  const { setback, offset, height, pitch } = doc.position;
  const position = { setback: range(setback), offset: range(offset), height: range(height), pitch };
  return { ...doc, position, rules };
}

function clearestSide(doc: BayDoc, name: string, other: string): (typeof SIDES)[number] {
  const [a, b] = [doc.engine[name]!, doc.chassis[other]!];
  if (!('box' in a) || !('box' in b)) throw new Error('a bay of boxes only');
  const axes = [
    [a.box.x, b.box.x],
    [a.box.y, b.box.y],
    [a.box.z, b.box.z],
  ] as const;
  const ways = axes.flatMap(([p, q]) => [p[0] - q[1], q[0] - p[1]]);
  const sides = ['ahead', 'behind', 'left', 'right', 'below', 'above'] as const;
  return sides[ways.indexOf(Math.max(...ways))]!;
}

/** Limits and ranges, and a margin a little more than can be had, or as often a little less. */
function wished(doc: BayDoc, free: number, random: Random): Asked {
  const limits: LimitDoc[] = [];
  const ranges: Partial<Record<Coordinate, Range>> = {};
  for (const coordinate of COORDINATES) {
    const [low, high] = doc.position[coordinate] as Span;
    const at = between(random, low, high);
    const roll = below(random, 6);
    if (roll === 0) limits.push({ quantity: coordinate, max: at });
    if (roll === 1) limits.push({ quantity: coordinate, min: at });
    if (roll === 2) ranges[coordinate] = { min: at, max: at };
    if (roll === 3) ranges[coordinate] = { min: at, max: Infinity };
  }
  return {
    doc,
    limits,
    ranges,
    margin: free + (random() < 0.4 ? between(random, -0.4, 0.1) : between(random, -12, 12)),
  };
}

function mostOf({ doc, limits, ranges }: Asked, highs: Highs): MostOf {
  const known = new Map<string, number>();
  return (parts, held) => {
    const key = `${[...parts].sort().join()}/${[...held].sort().join()}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const chassis = Object.fromEntries(
      Object.entries(doc.chassis).filter(([name]) => parts.includes(name)),
    );
    const straight = straightOf({ ...doc, chassis });
    const spans = COORDINATES.map((coordinate, k) => {
      let [low, high] = straight.ranges[k]!;
      const wish = ranges[coordinate] ?? { min: -Infinity, max: Infinity };
      [low, high] = [Math.max(low, wish.min), Math.min(high, wish.max)];
      for (const { quantity, min = -Infinity, max = Infinity } of held.map((i) => limits[i]!)) {
        if (quantity === coordinate) [low, high] = [Math.max(low, min), Math.min(high, max)];
      }
      return [low, high] as const;
    });
    const empty = spans.some(([low, high]) => low > high);
    const most = empty
      ? -Infinity
      : straight.pairs.length === 0
        ? Infinity
        : straightProgram({ ...straight, ranges: spans }).solve(highs).margin;
    known.set(key, most);
    return most;
  };
}

function smallestSets(count: number, has: (kept: readonly number[]) => boolean): number[][] {
  const of = (mask: number) =>
    Array.from({ length: count }, (_, n) => n).filter((n) => mask & (1 << n));
  const masks = Array.from({ length: 2 ** count }, (_, mask) => mask).sort(
    (a, b) => of(a).length - of(b).length,
  );
  const found: number[] = [];
  for (const mask of masks) {
    if (!found.some((one) => (one & mask) === one) && has(of(mask))) found.push(mask);
  }
  return found.map(of);
}

const limitKey = ({ quantity, min, max }: LimitDoc): string =>
  `${quantity} ${(min ?? max)!.toFixed(6)}`;

function keyOf({ quantity, min, max }: Reason['limits'][number]): string {
  return `${quantity.of} ${(Number.isFinite(min) ? min : max).toFixed(6)}`;
}

/**
 * In which order to turn the adjusters: the fewest moves, each of one adjuster (and of those that it binds
 * with), in which nothing closes and every adjuster stays in its range.
 *
 * States are the lengths of as many links as are independent; the others follow. Moves go from mark to mark
 * along one length, so that the way of every move is known and can be looked at (`passage.ts`). The search is
 * best first with the number of lengths not yet right as what is still to do, and looks at a move only once
 * it would be next. Marks grow finer, and then reach past either end, until a way is found.
 */

import { freedomOf, independentLinks } from '../../geometry/adjusters/freedom.js';
import { lengthOf, lengthSlopes } from '../../geometry/adjusters/links.js';
import type { Hold } from '../../geometry/adjusters/links.js';
import { canBe } from '../../model/fitup/mockup.js';
import type { Adjuster } from '../../model/fitup/mockup.js';
import type { Stance } from '../../model/stance.js';
import { Heap } from '../heap.js';
import { Passage } from './passage.js';
import { Way } from './way.js';
import type { RestingSolids } from './resting.js';

interface Turned {
  readonly adjuster: number;
  /** Millimetres of length. */
  readonly by: number;
}

/** One move: what is turned, by how many millimetres of length each, the one that leads first. */
export interface Move {
  readonly turned: readonly Turned[];
  /** Where the engine is after it. */
  readonly to: Stance;
  /** The least gap during the move, and between what; absent where nothing can meet. */
  readonly least?: { readonly gap: number; readonly between: readonly [string, string] };
}

/** What stands in the way of the plainest order: solids that close, or an adjuster at its end. */
export type Hindrance =
  | { readonly of: 'gap'; readonly between: readonly [string, string] }
  | { readonly of: 'range'; readonly adjuster: number }
  /** The others, with their lengths kept, do not let one be turned so far. */
  | { readonly of: 'reach' }
  /** There was no time to look on. */
  | { readonly of: 'time' };

/** Whether there is time to look on; asked now and then. */
export type KeepOn = () => boolean;

export interface Order {
  readonly moves: readonly Move[];
  /** True where every move is open; false where no such order was found, and `moves` is empty. */
  readonly found: boolean;
  readonly hindrance?: Hindrance;
  /** Moves looked at. */
  readonly looked: number;
}

/** Moves looked at before marks are made finer. */
const MOST_LOOKS = 700;
/** Millimetres of length that no one turns. */
const NOTHING = 1e-7;
/** Shares of a way at which ranges are looked at. */
const LOOKED_AT = [1, 2, 3, 4, 5, 6, 7, 8].map((part) => part / 8);
/** Where marks are, as shares of the way, and past either end in millimetres of length. */
const MARKS: readonly { readonly shares: readonly number[]; readonly past: readonly number[] }[] = [
  { shares: [0, 1], past: [] },
  { shares: [0, 0.5, 1], past: [] },
  { shares: [0, 1], past: [12] },
  { shares: [0, 0.5, 1], past: [12, 40] },
  { shares: [0, 0.25, 0.5, 0.75, 1], past: [12, 40] },
];

/** Work in turns, told against moves: so many millimetres of length count as a thousandth of a move. */
const MOVE_PER_MM = 1e-5;

interface Node {
  readonly key: string;
  readonly marks: readonly number[];
  readonly stance: Stance;
  readonly before?: { readonly node: Node; readonly lead: number; readonly way: Way };
}

interface Step {
  readonly from: Node | undefined;
  readonly lead: number;
  readonly marks: readonly number[];
  readonly cost: number;
  readonly estimate: number;
}

/**
 * From one stance to another, both of them where the adjusters can hold the engine.
 * @param holds what keeps the motions that no adjuster holds.
 */
export function orderOfMoves(
  adjusters: readonly Adjuster[],
  from: Stance,
  to: Stance,
  holds: readonly Hold[],
  meetings: readonly RestingSolids[],
  keepOn: KeepOn = () => true,
): Order {
  const beyond = adjusters.findIndex((one) => !canBe(one, lengthOf(one, to)));
  if (beyond >= 0) {
    return { moves: [], found: false, looked: 0, hindrance: { of: 'range', adjuster: beyond } };
  }
  const passage = new Passage(meetings, from);
  let looked = 0;
  let hindrance: Hindrance | undefined;
  for (const marks of MARKS) {
    const plan = new Plan(adjusters, from, to, holds, passage, marks, keepOn);
    const end = plan.search();
    looked += plan.looked;
    hindrance ??= plan.hindrance;
    if (end !== undefined) return { moves: plan.told(end), found: true, looked };
    if (!keepOn()) return { moves: [], found: false, looked, hindrance: { of: 'time' } };
  }
  return { moves: [], found: false, looked, ...(hindrance && { hindrance }) };
}

/** Holds for what the adjusters leave free about a stance. */
export function holdsAt(adjusters: readonly Adjuster[], stance: Stance): readonly Hold[] {
  return freedomOf(adjusters, stance).free.map((along) => ({ along, at: stance }));
}

class Plan {
  looked = 0;
  hindrance: Hindrance | undefined;
  /** Indexes of the links whose lengths make a state. */
  private readonly leads: readonly number[];
  /** For each lead: the lengths it may have, where it begins, where it ends. */
  private readonly levels: readonly (readonly number[])[];
  /** How long every adjuster is where it all begins. */
  private readonly starts: readonly number[];
  private readonly first: readonly number[];
  private readonly last: readonly number[];

  constructor(
    private readonly adjusters: readonly Adjuster[],
    private readonly from: Stance,
    to: Stance,
    private readonly holds: readonly Hold[],
    private readonly passage: Passage,
    marks: (typeof MARKS)[number],
    private readonly keepOn: KeepOn,
  ) {
    this.starts = adjusters.map((one) => lengthOf(one, from));
    this.leads = independentLinks(adjusters.map((one) => lengthSlopes(one, to)));
    const ends = this.leads.map((i) => {
      return [lengthOf(adjusters[i]!, from), lengthOf(adjusters[i]!, to)] as const;
    });
    this.levels = ends.map(([a, b], k) => levelsOf(a, b, adjusters[this.leads[k]!]!, marks));
    this.first = ends.map(([a], k) => closest(this.levels[k]!, a));
    this.last = ends.map(([, b], k) => closest(this.levels[k]!, b));
  }

  /** The node at the end of the best order, or undefined. */
  search(): Node | undefined {
    const open = new Heap<Step>((a, b) => a.estimate < b.estimate);
    const done = new Set<string>();
    const rest = (marks: readonly number[]) =>
      marks.filter((mark, k) => mark !== this.last[k]).length;
    open.push({ from: undefined, lead: -1, marks: this.first, cost: 0, estimate: 0 });
    for (let step = open.pop(); step !== undefined; step = open.pop()) {
      const key = step.marks.join(' ');
      if (done.has(key)) continue;
      const node = this.taken(step, key);
      if (node === undefined) continue;
      done.add(key);
      if (rest(step.marks) === 0) return node;
      if (this.looked >= MOST_LOOKS || !this.keepOn()) return undefined;
      for (let lead = 0; lead < this.leads.length; lead++) {
        for (let mark = 0; mark < this.levels[lead]!.length; mark++) {
          if (mark === step.marks[lead]) continue;
          const marks = step.marks.with(lead, mark);
          if (done.has(marks.join(' '))) continue;
          const length = Math.abs(
            this.levels[lead]![mark]! - this.levels[lead]![step.marks[lead]!]!,
          );
          const cost = step.cost + 1 + MOVE_PER_MM * length;
          open.push({ from: node, lead, marks, cost, estimate: cost + rest(marks) });
        }
      }
    }
    return undefined;
  }

  /** The moves that lead to a node, with the least gap of each. */
  told(end: Node): Move[] {
    const nodes: Node[] = [];
    for (let node: Node | undefined = end; node; node = node.before?.node) nodes.unshift(node);
    return nodes.slice(1).map((node): Move => {
      const { before, stance: to } = node;
      const lengths = this.adjusters.map((one) => [
        lengthOf(one, before!.node.stance),
        lengthOf(one, to),
      ]);
      const turned = lengths
        .map(([a, b], adjuster) => ({ adjuster, by: b! - a! }))
        .filter(({ by }) => Math.abs(by) > NOTHING);
      const lead = this.leads[before!.lead]!;
      turned.sort((a, b) => Number(b.adjuster === lead) - Number(a.adjuster === lead));
      const least = this.passage.least(before!.way);
      return {
        turned,
        to,
        ...(least && { least: { gap: least.gap, between: least.solids.between } }),
      };
    });
  }

  /** The node that a step leads to, where its way is open and in range. */
  private taken({ from, lead, marks }: Step, key: string): Node | undefined {
    if (from === undefined) return { key, marks, stance: this.from };
    this.looked++;
    const way = this.way(from, lead, marks);
    const hindrance = this.past(way) ?? this.closed(way);
    this.hindrance ??= hindrance;
    if (hindrance !== undefined) return undefined;
    return { key, marks, stance: way.at(1), before: { node: from, lead, way } };
  }

  private closed(way: Way): Hindrance | undefined {
    const found = this.passage.closing(way);
    if (found === undefined) return undefined;
    return found === 'torn' ? { of: 'reach' } : { of: 'gap', between: found.between };
  }

  /** What cannot follow, or the adjuster that leaves its range, looked for at a few places of the way. */
  private past(way: Way): Hindrance | undefined {
    for (const share of LOOKED_AT) {
      if (!way.follows(share)) return { of: 'reach' };
      const stance = way.at(share);
      const adjuster = this.adjusters.findIndex((one, i) => {
        const length = lengthOf(one, stance);
        if (canBe(one, length)) return false;
        // One that begins out of its range may only go back into it.
        const first = this.starts[i]!;
        return canBe(one, first) || outside(one, length) > outside(one, first) + NOTHING;
      });
      if (adjuster >= 0) return { of: 'range', adjuster };
    }
    return undefined;
  }

  /** The way of a move: one lead changes, the others keep their lengths. */
  private way(from: Node, lead: number, marks: readonly number[]): Way {
    const links = this.leads.map((i) => this.adjusters[i]!);
    const lengths = (of: readonly number[]) => of.map((mark, k) => this.levels[k]![mark]!);
    return new Way(links, this.holds, from.stance, lengths(from.marks), lengths(marks));
  }
}

/** How far a length is outside an adjuster's range; 0 inside. */
function outside({ range }: Adjuster, length: number): number {
  return Math.max(0, range.min - length, length - range.max);
}

/** Lengths that a lead may stop at, in rising order, each once. */
function levelsOf(
  a: number,
  b: number,
  { range, lead }: Adjuster,
  { shares, past }: (typeof MARKS)[number],
): number[] {
  const toEighth = (length: number): number =>
    a + Math.round(((length - a) / lead) * 8) * (lead / 8);
  const between = shares.flatMap((share) =>
    share === 0 ? [a] : share === 1 ? [b] : [toEighth(a + share * (b - a))],
  );
  const beyond = past.flatMap((by) => [Math.min(a, b) - by, Math.max(a, b) + by].map(toEighth));
  const inside = beyond.filter((length) => length >= range.min && length <= range.max);
  const all = Math.abs(b - a) < NOTHING ? [b, ...inside] : [...between, ...inside];
  return [...new Set(all)].sort((x, y) => x - y);
}

function closest(levels: readonly number[], length: number): number {
  return levels.reduce(
    (best, one, k) => (Math.abs(one - length) < Math.abs(levels[best]! - length) ? k : best),
    0,
  );
}

/**
 * A proof of an answer, written down so that anyone can check it without believing what found it.
 *
 * A claim says that no position within the ranges, under certain sets of options, leaves more than so much
 * margin. Its tree cuts the ranges into boxes and the choices into options; each leaf says why nothing
 * in it does: no options go together there, they are too much work, or rows forbid it. A row is
 * `value + sum of slopes[k] u[k]`, u[k] from -1 to 1 across the box along setback, offset, height and
 * pitch, and lies at or above a margin (or the room left to a limit) everywhere in the box. Shares >= 0
 * of a leaf's rows, those of margins summing to 1, bound every margin by the box's greatest value of their
 * sum; where margins have no share at all, a sum that stays below 0 says that the limits cannot be kept.
 *
 * Plain data: millimetres and radians; doubles as JSON writes them, which is exactly.
 */

import type { Measure, Vec3 } from './scenario.js';

/** The number of the format that this Berth writes and reads. */
export const CERTIFICATE_FORMAT = 1;

/** Setback, offset, height, pitch. */
export type Four = readonly [number, number, number, number];

/** Two parts and a measure: what a rule, or the room to come out, is of. Engine part first where it has one. */
export interface CertifiedPair {
  readonly parts: readonly [string, string];
  readonly measured: Measure;
  /** The part that comes out, where the room for that is measured. */
  readonly out?: string;
}

/** A moment of the motions: each part's own turn, the engine's rock and its lift. */
export interface Moment {
  readonly turns: readonly [number, number];
  readonly rock: number;
  readonly lift: number;
}

/**
 * A point of either solid, which may slide in it as the position goes across the box: by `slides[k] u[k]`.
 * Each in the frame of its own side, turned and swept but not yet rocked, lifted, pitched or moved; balls
 * are left out.
 */
export interface PointPair {
  readonly points: readonly [Vec3, Vec3];
  readonly slides?: readonly [readonly Vec3[] | null, readonly Vec3[] | null];
}

/**
 * Pairs of points whose differences span a closed surface about the origin: triangles of them, turning left
 * as seen from outside. The origin is as deep in the difference of the two solids as it is in it.
 */
export interface InnerBody {
  readonly pairs: readonly (readonly [Vec3, Vec3])[];
  readonly facets: readonly (readonly [number, number, number])[];
}

/** Why a row is above the margin of a pair, under some of the options open in the leaf. */
export interface Reason {
  /** Which solid of either part. */
  readonly solids: readonly [number, number];
  readonly moment?: Moment;
  /**
   * Pairs of points, of which `corners` takes one for each of the 8 ends of setback, offset and height; -1
   * takes the inner body there.
   */
  readonly pairs?: readonly PointPair[];
  readonly corners?: readonly number[];
  readonly inner?: InnerBody;
}

/** A row above what a pair of parts leaves. */
export interface MarginRow {
  readonly pair: number;
  readonly value: number;
  readonly slopes: Four;
  readonly reasons: readonly Reason[];
}

/** A row above the room left to a limit, in units of its own: 0 or more wherever the limit is kept. */
export interface LimitRow {
  /** Of the file's limits, then those that options bring, in the file's order. */
  readonly limit: number;
  readonly value: number;
  readonly slopes: Four;
  /** Units of the row for a millimetre, radian or kilogram of room. */
  readonly scale: number;
}

export type CertifiedRow = MarginRow | LimitRow;

export type Tree =
  | { readonly split: 0 | 1 | 2 | 3; readonly at: number; readonly parts: readonly [Tree, Tree] }
  /** One tree for each option still open. */
  | { readonly choice: number; readonly options: readonly (readonly [number, Tree])[] }
  | { readonly none: 'options' | 'work' }
  | { readonly rows: readonly CertifiedRow[]; readonly shares: readonly number[] };

export interface Claim {
  /** Which sets of options: all that were allowed, that of the answer, or those of less work than it. */
  readonly about: 'all options' | 'these options' | 'less work';
  /** No position leaves more margin than this. */
  readonly most: number;
  readonly tree: Tree;
}

/** A place, and for each pair of solids the direction that parts them by what it leaves. */
export interface CertifiedPlace {
  readonly at: Four;
  /** Every rule's margin is at least this. */
  readonly margin: number;
  /** By pair: which solids, and a direction from the second to the first, of any length. */
  readonly parted: readonly (readonly [
    pair: number,
    solids: readonly [number, number],
    along: Vec3,
  ])[];
}

export interface Certificate {
  readonly certificate: typeof CERTIFICATE_FORMAT;
  readonly title: string;
  /** What the text of the scenario was, as a digest. */
  readonly scenario: string;
  readonly asked: {
    /** Whether it is the worst case of the measuring errors that was searched. */
    readonly guaranteed: boolean;
    readonly from: Four;
    readonly to: Four;
    /** Option indexes allowed, by choice. */
    readonly allowed: readonly (readonly number[])[];
  };
  readonly pairs: readonly CertifiedPair[];
  readonly answer: {
    readonly options: readonly number[];
    readonly place: CertifiedPlace;
    readonly setting: CertifiedPlace;
  };
  readonly claims: readonly Claim[];
  /** Of everything else in it, so that a change is told. */
  readonly digest: string;
}

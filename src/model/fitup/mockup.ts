/** The adjustable mounts on which an engine hangs while its place is tried. Plain data: millimetres. */

type Point = readonly [number, number, number];

/**
 * What is turned to lengthen an adjuster: a rod with a right-hand or a left-hand thread at one end, or a
 * turnbuckle, right-hand at one end and left-hand at the other, which moves two pitches a turn.
 */
type Hand = 'right' | 'left' | 'turnbuckle';

/** A link with a joint at each end: it holds the distance between its two points, and nothing else. */
export interface Adjuster {
  readonly name: string;
  /** From the chassis datum. */
  readonly frame: Point;
  /** From the engine datum. */
  readonly engine: Point;
  readonly thread: string;
  readonly hand: Hand;
  /** Millimetres of length a turn. */
  readonly lead: number;
  /** Shortest and longest, between the two points. */
  readonly range: { readonly min: number; readonly max: number };
  /** How long it is now. */
  readonly now?: number;
}

export interface Mockup {
  readonly adjusters: readonly Adjuster[];
  /** Engine parts that are not on yet, and chassis parts that are off, by part, group or kind. */
  readonly without: readonly Absent[];
  readonly off: readonly Absent[];
}

/** As one end of a rule names it. */
interface Absent {
  readonly level: 'part' | 'group' | 'kind' | 'side';
  readonly name: string;
}

/** Millimetres by which a range may be passed. */
const RANGE_SLACK = 1e-6;

/** Whether an adjuster can be so long. */
export function canBe({ range }: Pick<Adjuster, 'range'>, length: number): boolean {
  return length >= range.min - RANGE_SLACK && length <= range.max + RANGE_SLACK;
}

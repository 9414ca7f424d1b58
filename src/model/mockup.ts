/** The adjustable mounts on which an engine hangs while its place is tried. Plain data: millimetres. */

/**
 * What is turned to lengthen an adjuster: a rod with a right-hand or a left-hand thread at one end, or a
 * turnbuckle, right-hand at one end and left-hand at the other, which moves two pitches a turn.
 */
type Hand = 'right' | 'left' | 'turnbuckle';

/** A link with a joint at each end: it holds the distance between its two points, and nothing else. */
export interface Adjuster {
  readonly name: string;
  /** From the chassis datum. */
  readonly frame: readonly [number, number, number];
  /** From the engine datum. */
  readonly engine: readonly [number, number, number];
  readonly thread: string;
  readonly hand: Hand;
  /** Millimetres of length a turn. */
  readonly lead: number;
  /** Shortest and longest, between the two points. */
  readonly range: { readonly min: number; readonly max: number };
  /** How long it is now. */
  readonly now?: number;
}

interface Named {
  readonly level: 'part' | 'group' | 'kind' | 'side';
  readonly name: string;
}

export interface Mockup {
  readonly adjusters: readonly Adjuster[];
  /** Engine parts that are not on yet, and chassis parts that are off, by part, group or kind. */
  readonly without: readonly Named[];
  readonly off: readonly Named[];
}

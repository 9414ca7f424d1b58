import type { View } from '../measuring/view.js';

/** A box of positions with some choices open: one piece of what is still to be searched. */
export interface Node {
  readonly lo: Float64Array;
  readonly hi: Float64Array;
  readonly view: View;
  /** Proved: no position in the box, under any set in view, has a greater value. */
  readonly bound: number;
  /** Contacts that may still matter somewhere in the box. */
  readonly active: Int32Array;
  /** For each, a lower bound of its margin over the box; -Infinity where it was never measured. */
  readonly low: Float64Array;
}

/** What became of a node. */
export type Outcome =
  | { readonly kind: 'closed' }
  /** Too small to split: it stays open for good. */
  | { readonly kind: 'stuck'; readonly bound: number }
  | { readonly kind: 'split'; readonly children: readonly Node[] };

/** What the vehicle weighs, as a file gives it. Plain data: kilograms and millimetres. */

import type { Side, Vec3 } from './scenario.js';

/** Something taken out of the vehicle or put into it. */
export interface Load {
  readonly name: string;
  readonly side: Side;
  /** Kilograms, more than 0. */
  readonly mass: number;
  /** Its centre of gravity, in the frame of its side. */
  readonly at: Vec3;
  /** The part that it is: there only while the part stands, and moved with it. */
  readonly part?: string;
}

export interface Weights {
  /** Where the front and rear axles stand, X in the chassis frame; front < rear. */
  readonly axles: { readonly front: number; readonly rear: number };
  /** Kilograms on each axle as weighed, with what is in `out` still fitted. */
  readonly before: { readonly front: number; readonly rear?: number };
  /** Chassis frame: where each was. */
  readonly out: readonly Load[];
  readonly in: readonly Load[];
}

/** What the vehicle weighs, as a file gives it. Plain data: kilograms and millimetres. */

/** Something taken out of the vehicle or put into it. */
export interface Load {
  readonly name: string;
  readonly side: 'engine' | 'chassis';
  /** Kilograms, more than 0. */
  readonly mass: number;
  /** Its centre of gravity, in the frame of its side. */
  readonly at: readonly [number, number, number];
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

/**
 * The share of a load at `x` that the front axle carries on level ground: moments about the rear axle give
 * (rear - x) / (rear - front). More than 1 ahead of the front axle, less than 0 behind the rear one.
 */
export function frontShare({ front, rear }: Weights['axles'], x: number): number {
  return (rear - x) / (rear - front);
}

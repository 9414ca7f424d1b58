/** The driveline behind an engine, as a file gives it. Plain data: millimetres and radians. */

/** Where the axle stands. */
export type AxleState = 'ride' | 'bump' | 'droop';
export const AXLE_STATES: readonly AxleState[] = ['ride', 'bump', 'droop'];

/**
 * How the shaft is jointed: a joint at each end; one at the front alone, the tube being one with the
 * pinion; or a constant-velocity joint at the front, which leaves no ripple.
 */
export type Joints = 'two' | 'one' | 'constant velocity';

/** The pinion of the rear axle. */
export interface Pinion {
  /** The centre of its joint, from the chassis datum. */
  readonly at: readonly [number, number, number];
  /** Radians that its nose points up. */
  readonly up: number;
  /** Radians that its nose points to the right. */
  readonly right: number;
}

/** The shaft's tube. */
export interface Tube {
  readonly diameter: number;
  readonly wall: number;
}

export interface Driveline {
  /** The centre of the front joint, from the engine datum at zero pitch. */
  readonly output: readonly [number, number, number];
  /** Radians that the output shaft points down, and to the right, as it leaves the transmission. */
  readonly aim: { readonly down: number; readonly right: number };
  readonly joints: Joints;
  readonly pinion: { readonly ride: Pinion } & Readonly<Partial<Record<AxleState, Pinion>>>;
  readonly tube?: Tube;
  /** How far the slip joint may go in, and out, from where it stands at ride height. */
  readonly slip?: { readonly in: number; readonly out: number };
  /** The shaft's greatest speed, revolutions a minute. */
  readonly speed: number;
  /** Ratios of the transmission, lowest gear first, and of the axle. */
  readonly gears: { readonly transmission: readonly number[]; readonly axle?: number };
  readonly angles: {
    /** Radians that a joint must work at, for its bearings to roll. */
    readonly least: number;
    /** Radians at the most; what the shaft's speed allows unless given. */
    readonly most?: number;
    /** Radians that the two joints may differ by. */
    readonly within: number;
  };
  /** The share of its critical speed that a shaft is used to. */
  readonly share: number;
}

/** The driveline behind an engine, as a file gives it. Plain data: millimetres and radians. */

import { CONSTANT_VELOCITY_MOST } from '../rulebook/joints.js';

/** Where the axle stands. */
export type AxleState = 'ride' | 'bump' | 'droop';
export const AXLE_STATES: readonly AxleState[] = ['ride', 'bump', 'droop'];

/**
 * How the shaft is jointed: a joint at each end; one at the front alone, the tube being one with the
 * pinion; or a constant-velocity joint at the front, which leaves no ripple.
 */
type Joints = 'two' | 'one' | 'constant velocity';

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
    /** Radians at the most: what the file says, or what the shaft's speed allows. */
    readonly most: number;
    readonly mostBy: 'file' | 'speed';
    /** Radians that the two joints may differ by. */
    readonly within: number;
  };
  /** The share of its critical speed that a shaft is used to. */
  readonly share: number;
}

/** What a joint, or the two together, must keep. Radians, true angles. */
export type JointBound =
  | {
      readonly of: 'joint angle';
      readonly joint: 'front' | 'rear';
      readonly state: AxleState;
      readonly min: number;
      readonly max: number;
    }
  | {
      readonly of: 'joint difference';
      readonly state: AxleState;
      readonly max: number;
    };

/**
 * What the joints must keep. Their least angle and the difference of the two hold where the vehicle runs,
 * at ride height; full bump and droop are passed through, and held to the greatest angle. Beside a joint of
 * constant velocity the other one is the whole of the ripple, and must be all but straight.
 */
export function jointBounds({ joints, angles, pinion }: Driveline): readonly JointBound[] {
  const isEven = joints === 'constant velocity';
  const { least, most, within, mostBy } = angles;
  const states = AXLE_STATES.filter((state) => pinion[state] !== undefined);
  return states.flatMap((state): JointBound[] => {
    const isRide = state === 'ride';
    const min = isRide ? least : 0;
    const max = isEven && mostBy === 'speed' ? CONSTANT_VELOCITY_MOST : most;
    const front: JointBound = { of: 'joint angle', joint: 'front', state, min, max };
    if (joints === 'one') return [front];
    const own = isEven
      ? { min: 0, max: isRide ? Math.min(within, most) : most }
      : { min, max: most };
    const rear: JointBound = { of: 'joint angle', joint: 'rear', state, ...own };
    if (isEven || !isRide) return [front, rear];
    return [front, rear, { of: 'joint difference', state, max: within }];
  });
}

/** Engine mounts to be made, as a file gives them. Plain data: millimetres, radians, kilograms, newton metres. */

/** x, y, z. */
type Vec3 = readonly [number, number, number];

/** An end of a mount's tube: at the plate on the frame, or at the plate on the block. */
export type MountEnd = 'base' | 'upper';
export const MOUNT_ENDS: readonly MountEnd[] = ['base', 'upper'];

/** The room that a socket on a bolt needs, out of a plate's face towards the tube. */
export interface Socket {
  readonly diameter: number;
  readonly length: number;
}

/** The steel plate on the frame. */
export interface BasePlate {
  /** Along and across, as `lieOf` in `geometry/mounts/lie.ts` has them. */
  readonly size: readonly [number, number];
  readonly thick: number;
  /** From the pad's point, along and across; none where the plate is welded. */
  readonly holes: readonly (readonly [number, number])[];
  /** Their diameter; 0 where there is none. */
  readonly hole: number;
  readonly socket?: Socket;
}

/** The steel plate under the boss, or under the insulator. */
export interface UpperPlate {
  readonly thick: number;
  /** Along and across, about the boss's centre; by the margin where it is absent. */
  readonly size?: readonly [number, number];
  /** From a hole's centre to the plate's edge, at least. */
  readonly margin: number;
}

/** Triangles between a tube and its plates, evenly round the tube. */
export interface Gussets {
  /** At each end named. */
  readonly count: number;
  readonly ends: readonly MountEnd[];
  readonly onPlate: number;
  readonly onTube: number;
  readonly thick: number;
  /** Radians round the tube from its front to the first, as seen from the upper end anticlockwise. */
  readonly first: number;
}

/** A mount of plates and tube: base plate on the frame, tube, upper plate under the block's boss. */
export interface PlateMount {
  readonly name: string;
  readonly boss: {
    /** Centres of the bolt holes in the boss's face, from the engine datum at zero pitch; two or more. */
    readonly holes: readonly Vec3[];
    /** Out of the block, square to its face, length 1, engine frame. */
    readonly normal: Vec3;
    /** Diameter of the holes in the upper plate. */
    readonly hole: number;
    readonly socket?: Socket;
    /** The engine part that it is the boss of. */
    readonly on?: string;
  };
  /** The rubber between upper plate and boss; the mount is solid where there is none. */
  readonly insulator?: { readonly height: number; readonly diameter: number };
  readonly pad: {
    /** The middle of the base plate, on the frame's face, from the chassis datum. */
    readonly at: Vec3;
    /** Out of the frame, square to that face, length 1. */
    readonly normal: Vec3;
    /** The chassis part that it is on. */
    readonly on?: string;
  };
  readonly tube: { readonly diameter: number; readonly wall: number };
  readonly base: BasePlate;
  readonly upper: UpperPlate;
  readonly gussets?: Gussets;
  /** Parts drawn that this mount takes the place of. */
  readonly inPlaceOf: readonly string[];
}

/** A support that carries load and is not made here: under the transmission, as a rule. */
export interface Support {
  readonly name: string;
  /** From the engine datum at zero pitch. */
  readonly at: Vec3;
  /** Where it stands on the chassis. */
  readonly pad?: Vec3;
}

/** What the engine does to its mounts. */
export interface MountLoads {
  /** The mass carried and its centre of gravity in the engine frame; by the file's weights where absent. */
  readonly supported?: { readonly mass: number; readonly at: Vec3 };
  /** Newton metres of the engine, the gear it is multiplied by, and the factor on both. */
  readonly torque?: {
    readonly engine: number;
    readonly gear: number;
    readonly factor: number;
    readonly factorBy: 'file' | 'cylinders';
  };
  /** In g. */
  readonly braking: number;
  readonly bump: number;
  readonly side: number;
  /** Those that the file gives. */
  readonly given: ReadonlySet<'braking' | 'bump' | 'side'>;
}

export interface Mounts {
  readonly make: readonly PlateMount[];
  readonly supports: readonly Support[];
  /** Millimetres that a mount must leave to every part that it is not fixed to. */
  readonly gap: number;
  readonly loads: MountLoads;
}

/** The mirror image across the frame's or the crankshaft's centre. */
export function mirrorPoint([x, y, z]: Vec3): Vec3 {
  return [x, 0 - y, z];
}

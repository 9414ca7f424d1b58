/**
 * The scenario as the rest of Berth sees it: checked, complete, and in one set of units.
 *
 * Lengths are millimetres, angles radians. The vehicle frame is X rearward, Y to the right of a
 * person seated facing forward, Z up. Engine parts are given from the engine datum (crankshaft
 * centreline at the rear face of the block) at zero pitch; chassis parts from the chassis datum. At
 * position 0, 0, 0, 0 the two frames coincide. Everything here is plain data.
 */

import type { AxleState, Driveline } from './fitup/driveline.js';
import type { Kind } from './kinds.js';
import type { Mounts } from './fitup/mounts.js';
import type { Mockup } from './fitup/mockup.js';
import type { Weights } from './fitup/weight.js';

export type Axis = 'x' | 'y' | 'z';
export const AXES: readonly Axis[] = ['x', 'y', 'z'];

/** x, y, z in millimetres, or a direction. */
export type Vec3 = readonly [number, number, number];

/** A closed interval, `min <= max`. Pinned when the two are equal. */
export interface Range {
  readonly min: number;
  readonly max: number;
}

/** A range along each axis; an axis the file leaves out is `{min: 0, max: 0}` in a motion. */
export interface Box {
  readonly x: Range;
  readonly y: Range;
  readonly z: Range;
}

export type Side = 'engine' | 'chassis';

/** A turn of one solid in place: `by` radians about `axis` through `at`, right-handed. */
export interface Tilt {
  readonly about: Axis;
  readonly by: number;
  readonly at: Vec3;
}

/**
 * A turn in use: by every angle of the range, in radians, right-handed about an axis through `at`, a
 * point of the part's side; an option that moves the part moves it too. Less than half a turn wide.
 */
export interface Turn {
  readonly about: Axis;
  readonly at: Vec3;
  readonly by: Range;
  /**
   * What the numbers of `at` rest on, by axis, where they have an error. Of a mirror image they are
   * the mirrored part's: its `at` has y negated, and so their error.
   */
  readonly taken?: Readonly<Partial<Record<Axis, Taken>>>;
}

/** One station of a frame rail: how far it runs from the centre, and how high. Y and Z. */
export interface RailStation {
  readonly x: number;
  /** The face towards the centre, and the one away from it; both below 0 for a left rail. */
  readonly inside: number;
  readonly outside: number;
  readonly top: number;
  readonly bottom: number;
}

/** A length that was measured, and by how much it may be off. */
export interface Measurement {
  readonly path: Path;
  /** As the file has it, its error included where it carries one of its own. */
  readonly written: string;
  /** Millimetres either way; more than 0 as read. */
  readonly error: number;
}

/** Which measurements a number rests on, as indexes in `Scenario.measurements`. */
export type Taken = readonly number[];

/**
 * One convex solid before any motion, as the file gives it.
 * *
 * `center` and `profile` use the two remaining axes in x, y, z order. A `tube` here is one leg: the
 * file's longer runs become one solid a leg, and so do the stretches of a `rail`. A prism's profile
 * is convex, in either winding. `panel.ts` says where the metal of a panel is.
 */
export type Solid = {
  readonly tilt?: Tilt;
  /**
   * What its numbers rest on, those without an error left out: by slot, the keys of the file below
   * the shape joined by dots (`x.0`, `center.1`, `tilt.at.2`), and `from` or `to` before what is
   * left for the legs of a tube or rail.
   */
  readonly taken?: Readonly<Record<string, Taken>>;
  /** A worst case's: the tilted solid moved by every vector within these half widths, x, y, z. */
  readonly spread?: Vec3;
} & (
  | { readonly shape: 'box'; readonly x: Range; readonly y: Range; readonly z: Range }
  | {
      readonly shape: 'cylinder';
      readonly axis: Axis;
      readonly from: number;
      readonly to: number;
      readonly center: readonly [number, number];
      readonly diameter: number;
    }
  | {
      readonly shape: 'prism';
      readonly axis: Axis;
      readonly from: number;
      readonly to: number;
      readonly profile: readonly (readonly [number, number])[];
    }
  | { readonly shape: 'hull'; readonly points: readonly Vec3[] }
  | { readonly shape: 'ball'; readonly center: Vec3; readonly diameter: number }
  | { readonly shape: 'tube'; readonly from: Vec3; readonly to: Vec3; readonly diameter: number }
  | {
      readonly shape: 'panel';
      readonly corners: readonly Vec3[];
      readonly thick: number;
      readonly behind?: Facing;
    }
  | { readonly shape: 'rail'; readonly from: RailStation; readonly to: RailStation }
);

/** A named thing made of one or more convex solids. */
export interface Part {
  readonly name: string;
  readonly side: Side;
  readonly kind?: Kind;
  readonly solids: readonly Solid[];
  /** True when its sizes are a guess, so that whatever rests on it says so. */
  readonly guess?: true;
  /** True when this part is the mirror image (y negated, after tilt) of the solids listed. */
  readonly mirrored: boolean;
  /** How the part turns in use, before its sweep, in its own frame (already mirrored). */
  readonly turn?: Turn;
  /** The solid moved by every vector of this box, in the part's own frame (already mirrored). */
  readonly sweep?: Box;
  /** The room the part needs to be withdrawn, in its own frame (already mirrored). */
  readonly comesOut?: Box;
}

/** A named plane or point that a tape can touch; the coordinates it does not fix are absent. */
export interface Datum {
  readonly name: string;
  readonly x?: number;
  readonly y?: number;
  readonly z?: number;
  /** What its coordinates rest on, where they have an error. */
  readonly taken?: Readonly<Partial<Record<Axis, Taken>>>;
}

/** setback +X, offset +Y, height +Z in millimetres; pitch in radians, positive with the tail down. */
export interface Position {
  readonly setback: number;
  readonly offset: number;
  readonly height: number;
  readonly pitch: number;
}
export type Coordinate = keyof Position;
export const COORDINATES: readonly Coordinate[] = ['setback', 'offset', 'height', 'pitch'];

/** The axis that each length of a position runs along. */
export const AXIS_OF = { setback: 'x', offset: 'y', height: 'z' } as const;

/** How far the search may go. */
export type PositionRanges = Readonly<Record<Coordinate, Range>>;

export type Measure = 'nearest' | 'fore-aft' | 'side-to-side' | 'up-down';
export const MEASURES: readonly Measure[] = ['nearest', 'fore-aft', 'side-to-side', 'up-down'];

/** Where the second part of an axis rule lies as seen from the first. */
export type Facing = 'ahead' | 'behind' | 'left' | 'right' | 'above' | 'below';

/** What one end of a rule names, most specific level first. */
export interface RuleEnd {
  readonly level: 'part' | 'group' | 'kind' | 'side';
  readonly name: string;
}

export type RuleOrigin =
  | { readonly from: 'file' }
  | { readonly from: 'option'; readonly choice: string; readonly option: string }
  | { readonly from: 'rule book'; readonly source: string };

/** A clearance rule as written: ends not yet expanded to pairs of parts. */
export interface Rule {
  readonly between: readonly [RuleEnd, RuleEnd];
  /** Millimetres needed, or `ignore` for a pair that is meant to touch. */
  readonly gap: number | 'ignore';
  /** Absent only on an `ignore` that exempts the pair from every measure. */
  readonly measured?: Measure;
  readonly facing?: Facing;
  /** True when the rule speaks of the room a part needs to come out, not of the parts in place. */
  readonly comingOut: boolean;
  readonly why?: string;
  readonly origin: RuleOrigin;
  /** Where the rule stands in the file, as a path of keys and indexes; absent for the rule book. */
  readonly path?: Path;
}

/** A hard interval on a quantity of the position. */
export interface Limit {
  readonly quantity:
    | { readonly of: Coordinate }
    /** Height of an engine datum, or of a part's lowest point at rest, above a chassis datum. */
    | {
        readonly of: 'height above';
        readonly what: { readonly datum: string } | { readonly part: string };
        readonly above: string;
      }
    /** The true angle of a joint of the driveline, or by how much the two differ, radians. */
    | { readonly of: 'joint angle'; readonly joint: 'front' | 'rear'; readonly state: AxleState }
    | { readonly of: 'joint difference'; readonly state: AxleState }
    /** What the front axle carries on level ground. */
    | { readonly of: 'front axle load' };
  /** Millimetres, radians, or kilograms of a load; an open end is infinite. */
  readonly min: number;
  readonly max: number;
  readonly why?: string;
  readonly path?: Path;
}

export interface OptionRef {
  readonly choice: string;
  readonly option: string;
}

/** One alternative of a choice, with everything it does to the bay. */
export interface Option {
  readonly name: string;
  readonly remove: readonly string[];
  readonly add: readonly Part[];
  /** Whole parts that take the place of the part of the same name, on the same side. */
  readonly replace: readonly Part[];
  /** Sums with the moves of other chosen options; moving a part that is not there does nothing. */
  readonly move: readonly { readonly part: string; readonly by: Vec3 }[];
  /** Cuts that come with it: none of a file's options has any (see `trims.ts`). */
  readonly cuts?: readonly Cut[];
  readonly rules: readonly Rule[];
  readonly limits: readonly Limit[];
  readonly needs: readonly OptionRef[];
  readonly rulesOut: readonly OptionRef[];
  readonly hours: number;
  readonly cost: number;
}

/** A decision and its alternatives; the first option is the bay as it stands. */
export interface Choice {
  readonly name: string;
  readonly options: readonly Option[];
}

/** A chassis face that may be cut back. */
export interface Trim {
  readonly part: string;
  readonly cut: 'down' | 'up' | 'ahead' | 'back' | 'left' | 'right' | 'outward';
  readonly over?: Partial<Box>;
  readonly upTo: number;
  readonly hours: number;
  readonly cost: number;
  readonly plus?: { readonly hours: number; readonly cost: number; readonly per: number };
}

/** A trim carried out, so many millimetres deep. */
export interface Cut {
  readonly trim: Trim;
  readonly depth: number;
}

/** How the engine goes in: positions it passes through, and what is not yet there meanwhile. */
export interface HoistPath {
  /** Chassis parts that are off, by part, group or kind. */
  readonly off: readonly RuleEnd[];
  /** Engine parts that are put on afterwards, by part, group or kind. */
  readonly without: readonly RuleEnd[];
  /** Millimetres that every pair of parts needs on the way in, at rest. */
  readonly gap: number;
  /** First to last, at least one; the last leg goes on to where the engine sits. */
  readonly through: readonly Position[];
}

/** Room that must stay open beside every mount: a hose, a socket on its bolt. */
export interface Passage {
  readonly part: Part;
  /** Millimetres that every mount must leave it. */
  readonly gap: number;
  readonly why?: string;
}

/** A case kept in a file: what is wished for, by name. */
export interface NamedWants {
  readonly name: string;
  /** Millimetres and radians; an end that nobody asked for is infinite. */
  readonly ranges: Readonly<Partial<Record<Coordinate, Range>>>;
  readonly options: readonly OptionRef[];
  /** Millimetres. */
  readonly margin?: number;
}

export interface Scenario {
  readonly title: string;
  readonly units: 'in' | 'mm';
  readonly driver: 'left' | 'right';
  readonly origin: string;
  readonly datums: { readonly chassis: readonly Datum[]; readonly engine: readonly Datum[] };
  /** Radians, nose down. */
  readonly rake: number;
  readonly position: PositionRanges;
  /** Radians each way about the crankshaft. */
  readonly rock: number;
  /** Millimetres that the engine may lift when a mount has failed: after rock, before pitch. */
  readonly lift: number;
  /** Parts of one side whose turns, and whose sweeps, stand at the same share of their ranges. */
  readonly together: readonly (readonly string[])[];
  /** Both sides, in the file's order, mirror images after the part they mirror. */
  readonly parts: readonly Part[];
  readonly groups: readonly { readonly name: string; readonly parts: readonly string[] }[];
  readonly rulebook: 'common practice' | 'none';
  /** The file's rules in order, then the rule book's rows. */
  readonly rules: readonly Rule[];
  readonly limits: readonly Limit[];
  readonly choices: readonly Choice[];
  readonly trims: readonly Trim[];
  /** Millimetres of margin that a change must buy. */
  readonly worth: number;
  readonly notFitted: readonly Kind[];
  readonly hoistPath?: HoistPath;
  readonly driveline?: Driveline;
  /** Mounts to make, and what must stay open beside them. */
  readonly mounts?: Mounts & { readonly passages: readonly Passage[] };
  readonly mockup?: Mockup;
  readonly weight?: Weights;
  /** Changes to compare, in the file's order. */
  readonly cases: readonly NamedWants[];
  /** Every measurement with an error. */
  readonly measurements: readonly Measurement[];
  /** A worst case's: the scenario as drawn, which says on which side of each other parts lie. */
  readonly drawn?: Scenario;
  /** A worst case's: the same for gaps between parts of one side, which nothing sets. */
  readonly oneSide?: Scenario;
}

/** Keys and list indexes from the top of a file to a place in it. */
export type Path = readonly (string | number)[];

/** The chosen option of each choice, in the order of `Scenario.choices`, as indexes. */
export type OptionSet = readonly number[];

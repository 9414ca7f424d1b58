/**
 * Parts as a template draws them: plain data under the names the scenario file uses.
 *
 * Templates draw in inches, as the trade speaks, in the file's axes (X rearward, Y right, Z up):
 * engine parts from the engine datum, chassis parts from the chassis datum. Only `text.ts` turns
 * inches into the units of a file.
 */

import { minOf } from '../model/extremes.js';
import type { Kind } from '../model/kinds.js';
import type { Axis } from '../model/scenario.js';
import type { SizeKey } from './sizes.js';

/** From, to; or two coordinates across an axis, in x, y, z order. */
export type Pair = readonly [number, number];
export type Point = readonly [number, number, number];

export type DrawnSolid =
  | { readonly box: { readonly x: Pair; readonly y: Pair; readonly z: Pair } }
  | {
      readonly cylinder: {
        readonly axis: Axis;
        readonly from: number;
        readonly to: number;
        readonly center: Pair;
        readonly diameter: number;
      };
    }
  | {
      readonly prism: {
        readonly axis: Axis;
        readonly from: number;
        readonly to: number;
        readonly profile: readonly Pair[];
      };
    }
  | { readonly tube: { readonly through: readonly Point[]; readonly diameter: number } }
  | { readonly panel: Panel }
  | { readonly rail: { readonly stations: readonly Station[] } };

/** A sheet: the corners a tape touches, and which side its metal is on. */
export interface Panel {
  readonly corners: readonly Point[];
  readonly thick: number;
  readonly behind: 'ahead' | 'behind' | 'above' | 'below';
}

/** A right rail where it was measured. */
export interface Station {
  readonly x: number;
  readonly inside: number;
  readonly outside: number;
  readonly top: number;
  readonly bottom: number;
}

export type DrawnMotion = Readonly<Partial<Record<Axis, Pair>>>;

export interface DrawnPart {
  readonly name: string;
  readonly kind: Kind;
  readonly solids: readonly DrawnSolid[];
  /** Name of the part's mirror image across the middle. */
  readonly mirror?: string;
  readonly sweep?: DrawnMotion;
  readonly comesOut?: DrawnMotion;
  /**
   * The sizes that place this part's faces: with every one of them answered it is measured, else it
   * is a guess. None: always a guess.
   */
  readonly measuredBy: readonly SizeKey[];
  /** What the part is, or how it stands, for the reader of the file. */
  readonly note?: string;
}

/** What a part may have beyond its name, kind and solids. */
export type Extra = Partial<Omit<DrawnPart, 'name' | 'kind' | 'solids'>>;

export function part(
  name: string,
  kind: Kind,
  solids: DrawnSolid | readonly DrawnSolid[],
  extra: Extra = {},
): DrawnPart {
  const list = Array.isArray(solids) ? (solids as readonly DrawnSolid[]) : [solids as DrawnSolid];
  return { name, kind, solids: list, measuredBy: [], ...extra };
}

export function box(x: Pair, y: Pair, z: Pair): DrawnSolid {
  return { box: { x, y, z } };
}

export function cylinder(axis: Axis, [from, to]: Pair, center: Pair, diameter: number): DrawnSolid {
  return { cylinder: { axis, from, to, center, diameter } };
}

export function prism(axis: Axis, [from, to]: Pair, profile: readonly Pair[]): DrawnSolid {
  return { prism: { axis, from, to, profile } };
}

export function panel(
  corners: readonly Point[],
  thick: number,
  behind: Panel['behind'],
): DrawnSolid {
  return { panel: { corners, thick, behind } };
}

export function rail(stations: readonly Station[]): DrawnSolid {
  return { rail: { stations } };
}

export function tube(diameter: number, ...through: readonly Point[]): DrawnSolid {
  return { tube: { through, diameter } };
}

/**
 * A drawing stretched along each axis, with round things round and never fatter than the least
 * stretch they lie across: what was apart stays apart.
 * @param by factors along x, y and z, each more than 0.
 */
export function stretched(parts: readonly DrawnPart[], by: Point): DrawnPart[] {
  return parts.map((one) => ({ ...one, solids: one.solids.map((solid) => stretch(solid, by)) }));
}

/** Rails and sheets are drawn at their sizes, and stand on the chassis: they are left as they are. */
function stretch(solid: DrawnSolid, by: Point): DrawnSolid {
  if ('rail' in solid || 'panel' in solid) return solid;
  if ('box' in solid) {
    const { x, y, z } = solid.box;
    return box(times(x, by[0]), times(y, by[1]), times(z, by[2]));
  }
  if ('tube' in solid) {
    const { through, diameter } = solid.tube;
    const points = through.map(([x, y, z]): Point => [x * by[0], y * by[1], z * by[2]]);
    return tube(diameter * minOf(by), ...points);
  }
  if ('prism' in solid) {
    const { axis, from, to, profile } = solid.prism;
    const [along, across] = factors(axis, by);
    return prism(
      axis,
      [from * along, to * along],
      profile.map((at) => both(at, across)),
    );
  }
  const { axis, from, to, center, diameter } = solid.cylinder;
  const [along, across] = factors(axis, by);
  const ends: Pair = [from * along, to * along];
  return cylinder(axis, ends, both(center, across), diameter * minOf(across));
}

/** The factor along an axis, and those along the two others. */
function factors(axis: Axis, [x, y, z]: Point): readonly [number, Pair] {
  switch (axis) {
    case 'x':
      return [x, [y, z]];
    case 'y':
      return [y, [x, z]];
    case 'z':
      return [z, [x, y]];
  }
}

function times([from, to]: Pair, by: number): Pair {
  return [from * by, to * by];
}

function both(at: Pair, by: Pair): Pair {
  return [at[0] * by[0], at[1] * by[1]];
}

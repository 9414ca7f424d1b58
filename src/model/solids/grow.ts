/**
 * A solid grown by its measuring errors, so that whatever its true sizes are it lies inside.
 *
 * Each coordinate moves by at most its drift, independently, so each point stays in its error box.
 * - `box`: every face moves out by its own drift. Exact.
 * - `prism`: both ends move out, and the profile becomes the hull of its corners' error boxes. Exact.
 * - `hull`, `rail`: the hull of the corners' error boxes, since the hull of points, one from each
 *   box, lies in it. Exact.
 * - `ball`, `tube`, `cylinder`: the diameter grows by its error; the middle, or every point of the
 *   middle line, stays within the largest error box along it, so the solid is swept through that
 *   (`spread`). A cylinder's ends move out. Exact where the ends of a tube err alike.
 * - `panel`: swept through the largest of its corners' error boxes, the thickness grown by its error.
 *   Its normal turns as the corners move: with N the area vector, abs(dN) <= sum over corners of
 *   abs(d) abs(c[i+1] - c[i-1]) / 2 + abs(d) abs(d') / 2, and unit vectors differ by at most
 *   2 abs(dN) / (2 abs(N) - abs(dN)), never more than 2. That times the thickness is swept too.
 * - A tilt turns the error boxes with the solid, `spread` through the box that holds the turned one;
 *   a tilt about a point off by d moves the solid by (1 - turn) d besides, swept as a box. What the
 *   whole side drifts by is not turned with the solid, so a tilted solid is grown by what its own
 *   numbers err, and swept through the drift of a number that rests on nothing.
 */

import { maxOf } from '../extremes.js';
import { pointAt } from './corners.js';
import type { Drift } from '../errors/drift.js';
import { convexOutline } from './outline.js';
import { areaVector, towards } from './panel.js';
import type { Panel } from './panel.js';
import { AXES } from '../scenario.js';
import type { Axis, RailStation, Range, Solid, Taken, Tilt, Vec3 } from '../scenario.js';
import { dot, lengthOf, minus, plus, unit } from '../vector.js';
import * as trig from '../trig.js';

/** Looks up by slot what the numbers of a solid err by, either way. Millimetres. */
interface Errors {
  /** A coordinate along an axis, 0, 1 or 2. */
  at(slot: string, axis: number): number;
  /** A diameter or thickness. */
  size(slot: string): number;
}

interface Larger {
  readonly solid: Solid;
  /** Half widths of the box that the solid is swept through besides. */
  readonly spread: Vec3;
}

/**
 * The solid grown by its errors, in its own frame before its mirror.
 * @param drift what a coordinate is off by, relative to what the solid is measured against.
 * @param own the sum of the errors of what a number rests on.
 */
export function grown(solid: Solid, drift: Drift, own: (taken: Taken) => number): Solid {
  const { tilt, taken = {}, ...plain } = solid;
  const from = (slot: string): Taken => taken[slot] ?? [];
  const errors: Errors = {
    at: (slot, axis) => (tilt === undefined ? drift(from(slot), axis) : own(from(slot))),
    size: (slot) => own(from(slot)),
  };
  const larger = enlarged(plain, errors);
  if (tilt === undefined) return withSpread(larger.solid, larger.spread);
  const swept = [
    turned(larger.spread, tilt),
    slipped(pointError(errors, 'tilt.at'), tilt),
    vector((axis) => drift([], axis)),
  ];
  return withSpread(
    { ...larger.solid, tilt },
    vector((axis) => swept.reduce((sum, box) => sum + box[axis as 0 | 1 | 2], 0)),
  );
}

function enlarged(solid: Solid, errors: Errors): Larger {
  switch (solid.shape) {
    case 'box': {
      const out = (axis: Axis, i: number): Range => ({
        min: solid[axis].min - errors.at(`${axis}.0`, i),
        max: solid[axis].max + errors.at(`${axis}.1`, i),
      });
      return whole({ ...solid, x: out('x', 0), y: out('y', 1), z: out('z', 2) });
    }
    case 'prism':
      return whole({ ...solid, ...ends(solid, errors), profile: outline(solid, errors) });
    case 'hull':
      return whole({
        shape: 'hull',
        points: solid.points.flatMap((point, i) =>
          errorBox(point, pointError(errors, `points.${i}`)),
        ),
      });
    case 'rail':
      return whole({
        shape: 'hull',
        points: [...stationBox(solid.from, 'from', errors), ...stationBox(solid.to, 'to', errors)],
      });
    case 'cylinder': {
      const diameter = solid.diameter + errors.size('diameter');
      const [u, v] = across(solid.axis).map((axis, i) => errors.at(`center.${i}`, axis));
      const spread = pointAt(solid.axis, 0, u!, v!);
      return { solid: { ...solid, ...ends(solid, errors), diameter }, spread };
    }
    case 'ball': {
      const diameter = solid.diameter + errors.size('diameter');
      return { solid: { ...solid, diameter }, spread: pointError(errors, 'center') };
    }
    case 'tube': {
      const diameter = solid.diameter + errors.size('diameter');
      const spread = most([pointError(errors, 'from'), pointError(errors, 'to')]);
      return { solid: { ...solid, diameter }, spread };
    }
    case 'panel': {
      const thick = solid.thick + errors.size('thick');
      const corners = solid.corners.map((_, i) => pointError(errors, `corners.${i}`));
      const turn = thick * normalTurn(solid, corners) * (solid.behind === undefined ? 0.5 : 1);
      const spread = plus(most(corners), [turn, turn, turn]);
      return { solid: { ...solid, thick }, spread };
    }
  }
}

/** How far the unit normal of a panel can turn while its corners stay in their error boxes. */
function normalTurn({ corners, behind }: Panel, errors: readonly Vec3[]): number {
  const area = areaVector(corners);
  const off = errors.map(lengthOf);
  const change = off.reduce((sum, by, i) => {
    const next = (i + 1) % off.length;
    const across = minus(corners[next]!, corners.at(i - 1)!);
    return sum + (by * lengthOf(across) + by * off[next]!) / 2;
  }, 0);
  if (change >= lengthOf(area)) return 2;
  const turn = (2 * change) / (2 * lengthOf(area) - change);
  // Past this the metal could come to lie on the other side of the touched face.
  const facing = behind === undefined ? 1 : Math.abs(dot(unit(area), towards(behind)));
  return turn < facing ? turn : 2;
}

function ends(solid: { from: number; to: number; axis: Axis }, errors: Errors) {
  const along = AXES.indexOf(solid.axis);
  return {
    from: solid.from - errors.at('from', along),
    to: solid.to + errors.at('to', along),
  };
}

/** The corners of a prism's profile, each anywhere in its error box: the outline around them all. */
function outline(
  { axis, profile }: Extract<Solid, { shape: 'prism' }>,
  errors: Errors,
): readonly (readonly [number, number])[] {
  const [first, second] = across(axis);
  return convexOutline(
    profile.flatMap(([u, v], i) => {
      const du = errors.at(`profile.${i}.0`, first!);
      const dv = errors.at(`profile.${i}.1`, second!);
      return [-1, 1].flatMap((a) => [-1, 1].map((b) => [u + a * du, v + b * dv] as const));
    }),
  );
}

function stationBox(station: RailStation, end: 'from' | 'to', errors: Errors): readonly Vec3[] {
  const along = errors.at(`${end}.x`, 0);
  return (['inside', 'outside'] as const).flatMap((side) =>
    (['top', 'bottom'] as const).flatMap((edge) =>
      errorBox(
        [station.x, station[side], station[edge]],
        [along, errors.at(`${end}.${side}`, 1), errors.at(`${end}.${edge}`, 2)],
      ),
    ),
  );
}

/** The corners of the box of these half widths about a point. */
function errorBox(point: Vec3, by: Vec3): readonly Vec3[] {
  const ways = by.map((d) => (d === 0 ? [0] : [-d, d]));
  return ways[0]!.flatMap((x) =>
    ways[1]!.flatMap((y) => ways[2]!.map((z): Vec3 => plus(point, [x, y, z]))),
  );
}

/** The box around a box of half widths that is turned with the solid. */
function turned(half: Vec3, tilt: Tilt): Vec3 {
  return mixed(half, tilt, Math.abs(trig.cos(tilt.by)));
}

/** The box around how far the solid moves when the point it is tilted about errs within a box. */
function slipped(half: Vec3, tilt: Tilt): Vec3 {
  const box = mixed(half, tilt, 1 - trig.cos(tilt.by));
  box[axisOf(tilt)] = 0;
  return box;
}

/** The box around a box of half widths whose two axes across a tilt's are mixed by it. */
function mixed(half: Vec3, tilt: Tilt, same: number): [number, number, number] {
  const other = Math.abs(trig.sin(tilt.by));
  const i = axisOf(tilt);
  const box: [number, number, number] = [...half];
  const [j, k] = [(i + 1) % 3, (i + 2) % 3] as [0 | 1 | 2, 0 | 1 | 2];
  box[j] = same * half[j] + other * half[k];
  box[k] = same * half[k] + other * half[j];
  return box;
}

function axisOf({ about }: Tilt): 0 | 1 | 2 {
  return AXES.indexOf(about) as 0 | 1 | 2;
}

function across(axis: Axis): readonly number[] {
  return [0, 1, 2].filter((i) => AXES[i] !== axis);
}

function pointError(errors: Errors, slot: string): Vec3 {
  return vector((axis) => errors.at(`${slot}.${axis}`, axis));
}

function most(boxes: readonly Vec3[]): Vec3 {
  return vector((axis) => maxOf(boxes.map((box) => box[axis as 0 | 1 | 2])));
}

function vector(of: (axis: number) => number): Vec3 {
  return [of(0), of(1), of(2)];
}

function whole(solid: Solid): Larger {
  return { solid, spread: [0, 0, 0] };
}

function withSpread(solid: Solid, spread: Vec3): Solid {
  return lengthOf(spread) === 0 ? solid : { ...solid, spread };
}

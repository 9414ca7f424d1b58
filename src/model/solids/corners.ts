/** The corners of flat-faced solids before tilt: each is the hull of these. */

import { panelPoints } from './panel.js';
import type { Axis, RailStation, Solid, Vec3 } from '../scenario.js';

export type FlatFaced = Extract<Solid, { shape: 'box' | 'prism' | 'hull' | 'panel' | 'rail' }>;

/** Millimetres, in the frame of the part; a corner inside the hull does no harm. */
export function cornersOf(solid: FlatFaced): readonly Vec3[] {
  switch (solid.shape) {
    case 'box': {
      const { x, y, z } = solid;
      return [x.min, x.max].flatMap((a) =>
        [y.min, y.max].flatMap((b) => [z.min, z.max].map((c): Vec3 => [a, b, c])),
      );
    }
    case 'prism':
      return solid.profile.flatMap(([u, v]) =>
        [solid.from, solid.to].map((w) => pointAt(solid.axis, w, u, v)),
      );
    case 'hull':
      return solid.points;
    case 'panel':
      return panelPoints(solid);
    case 'rail':
      return [...stationCorners(solid.from), ...stationCorners(solid.to)];
  }
}

/** The point w along an axis and u, v along the two others in x, y, z order. */
export function pointAt(axis: Axis, w: number, u: number, v: number): Vec3 {
  if (axis === 'x') return [w, u, v];
  return axis === 'y' ? [u, w, v] : [u, v, w];
}

function stationCorners({ x, inside, outside, top, bottom }: RailStation): readonly Vec3[] {
  return [inside, outside].flatMap((y) => [top, bottom].map((z): Vec3 => [x, y, z]));
}

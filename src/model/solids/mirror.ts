/** A solid's mirror image across the frame (or crank) centre, of the same sort. */

import type { Facing, Range, Solid, Tilt, Vec3 } from '../scenario.js';

/** Its tilt is mirrored too; millimetres. */
export function mirrorImage(solid: Solid): Solid {
  const { tilt } = solid;
  return { ...untilted(solid), ...(tilt && { tilt: mirrorTilt(tilt) }) };
}

function untilted(solid: Solid): Solid {
  switch (solid.shape) {
    case 'box':
      return { ...solid, y: flipped(solid.y) };
    case 'cylinder': {
      const [u, v] = flat(solid.axis, solid.center);
      return { ...solid, ...ends(solid), center: [u, v] };
    }
    case 'prism':
      return { ...solid, ...ends(solid), profile: solid.profile.map((at) => flat(solid.axis, at)) };
    case 'hull':
      return { ...solid, points: solid.points.map(point) };
    case 'ball':
      return { ...solid, center: point(solid.center) };
    case 'tube':
      return { ...solid, from: point(solid.from), to: point(solid.to) };
    case 'panel': {
      const { behind } = solid;
      const corners = solid.corners.map(point);
      return { ...solid, corners, ...(behind && { behind: OTHER[behind] ?? behind }) };
    }
    case 'rail': {
      const station = (at: typeof solid.from) => ({
        ...at,
        inside: -at.inside,
        outside: -at.outside,
      });
      return { ...solid, from: station(solid.from), to: station(solid.to) };
    }
  }
}

const OTHER: Partial<Record<Facing, Facing>> = { left: 'right', right: 'left' };

function point([x, y, z]: Vec3): Vec3 {
  return [x, -y, z];
}

function flipped({ min, max }: Range): Range {
  return { min: -max, max: -min };
}

function ends({ axis, from, to }: { axis: string; from: number; to: number }) {
  return axis === 'y' ? { from: -to, to: -from } : {};
}

/** A point given by the axes across another, in x, y, z order. */
function flat(axis: string, [u, v]: readonly [number, number]): readonly [number, number] {
  if (axis === 'y') return [u, v];
  return axis === 'x' ? [-u, v] : [u, -v];
}

/** Seen in a mirror, a turn goes the other way, but for one about the axis across the mirror. */
function mirrorTilt({ about, by, at }: Tilt): Tilt {
  return { about, by: about === 'y' ? by : -by, at: point(at) };
}

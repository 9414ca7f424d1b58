/**
 * A panel: a sheet of metal by the corners that a tape touches on one of its faces or, where no side
 * is named, on its middle.
 *
 * The mean normal is that of the area vector, half the sum of c[i] x c[i + 1] round the corners: for
 * corners in one plane its normal, for a warped panel the direction in which it looks largest. Every
 * corner is shifted along it, both ways by half the thickness or one way by all of it, and the panel
 * is the hull of the shifted corners. Millimetres, in the frame of the part.
 */

import type { Facing, Vec3 } from '../scenario.js';
import { cross, minus, plus, unit } from '../vector.js';

export interface Panel {
  /** In order round the panel, either way. */
  readonly corners: readonly Vec3[];
  readonly thick: number;
  /** On which side of the touched face all of the metal lies; half to either side when absent. */
  readonly behind?: Facing;
}

const TOWARDS: Readonly<Record<Facing, Vec3>> = {
  ahead: [-1, 0, 0],
  behind: [1, 0, 0],
  left: [0, -1, 0],
  right: [0, 1, 0],
  above: [0, 0, 1],
  below: [0, 0, -1],
};

/** The unit vector that a side word points along. */
export function towards(facing: Facing): Vec3 {
  return TOWARDS[facing];
}

/** The area vector of a closed outline: along its mean normal, as long as its area. */
export function areaVector(corners: readonly Vec3[]): Vec3 {
  const from = corners.map((corner) => minus(corner, corners[0]!));
  return from.reduce<Vec3>(
    (sum, corner, i) => plus(sum, cross(corner, from[(i + 1) % from.length]!), 0.5),
    [0, 0, 0],
  );
}

/** The corners of the panel's two faces: those of the touched face, or the near one, first. */
export function panelPoints({ corners, thick, behind }: Panel): readonly Vec3[] {
  const normal = unit(areaVector(corners));
  if (behind === undefined) {
    return [-0.5, 0.5].flatMap((share) => corners.map((c) => plus(c, normal, share * thick)));
  }
  const toward = towards(behind);
  const along = normal[0] * toward[0] + normal[1] * toward[1] + normal[2] * toward[2];
  return [...corners, ...corners.map((c) => plus(c, normal, along < 0 ? -thick : thick))];
}

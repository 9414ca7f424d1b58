/** Panels as the file draws them, checked to be convex and nearly flat. */

import { maxOf } from '../extremes.js';
import { areaVector, towards } from '../solids/panel.js';
import type { Panel } from '../solids/panel.js';
import type { Path, Vec3 } from '../scenario.js';
import type { RawSolid } from '../schema.js';
import { cross, dot, lengthOf, minus, plus, unit } from '../vector.js';
import type { Frame } from './frame.js';
import { all } from './items.js';
import { FLAT_MM, profileFault } from './profile.js';

/** Corners may stand off their mean plane by this share of the root of the panel's area. */
const WARP = 0.1;

/** Cosine between the normal and a side: at or below it the panel runs along that side (6 degrees). */
const ALONG = 0.1;

/** Reads a panel; undefined once a problem is said. */
export function readPanel(
  f: Frame,
  raw: NonNullable<RawSolid['panel']>,
  at: Path,
): Panel | undefined {
  const corners = all(raw.corners, (corner, i) => f.point(corner, [...at, 'corners', i]));
  const thick = f.size(raw.thick, [...at, 'thick'], 'the thickness', FLAT_MM);
  if (corners === undefined) return undefined;
  const fault = outlineFault(corners);
  if (fault !== undefined) {
    f.c.say('bad solid', [...at, 'corners'], fault, {
      expected: 'three corners or more, in order round a panel that is nearly flat and convex',
    });
    return undefined;
  }
  const { behind } = raw;
  if (behind !== undefined) {
    if (Math.abs(dot(unit(areaVector(corners)), towards(behind))) <= ALONG) {
      const message = `the panel runs along: none of its faces looks ${WAYS[behind]}`;
      f.c.say('bad solid', [...at, 'behind'], message, {
        expected: 'the side that its back is on',
      });
      return undefined;
    }
  }
  if (thick === undefined) return undefined;
  return { corners, thick, ...(behind === undefined ? {} : { behind }) };
}

const WAYS = {
  ahead: 'ahead',
  behind: 'back',
  left: 'left',
  right: 'right',
  above: 'up',
  below: 'down',
} as const;

/** What is wrong with the corners as an outline; undefined when nothing is. */
function outlineFault(corners: readonly Vec3[]): string | undefined {
  if (corners.length < 3) return 'a panel needs three corners or more';
  const from = corners.map((corner) => minus(corner, corners[0]!));
  const long = maxOf(from.map(lengthOf));
  const area = areaVector(corners);
  const size = Math.sqrt(lengthOf(area));
  // Corners on one line enclose nothing, and neither do two equal halves of a panel that crosses.
  if (long <= FLAT_MM || lengthOf(area) / long <= FLAT_MM) {
    return 'the corners of the panel enclose nothing';
  }
  const normal = unit(area);
  const middle = from.reduce((sum, v) => plus(sum, v, 1 / from.length), [0, 0, 0] as Vec3);
  if (from.some((v) => Math.abs(dot(normal, minus(v, middle))) > WARP * size)) {
    return 'the corners of the panel are too far from one plane';
  }
  const far = from.reduce((best, v) => (lengthOf(v) > lengthOf(best) ? v : best));
  const right = unit(plus(far, normal, -dot(far, normal)));
  const up = cross(normal, right);
  const flat = from.map((v): [number, number] => [dot(v, right), dot(v, up)]);
  return profileFault(flat, FLAT_MM, 'panel');
}

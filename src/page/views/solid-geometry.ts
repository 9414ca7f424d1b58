/** A solid as a mesh: the hull of its corners, with its disc and its ball as points about each. */

import type { BufferGeometry } from 'three';
import { Vector3 } from 'three';
import { ConvexGeometry } from 'three/examples/jsm/geometries/ConvexGeometry.js';
import type { Shape } from '../../geometry/shape.js';

const DISC_SIDES = 28;
const BALL_RINGS = 6;

/** Undefined where the solid has no thickness to draw. */
export function solidGeometry(shape: Shape): BufferGeometry | undefined {
  const around = [...discPoints(shape), ...ballPoints(shape)];
  const points: Vector3[] = [];
  for (let i = 0; i < shape.count; i++) {
    const at = new Vector3().fromArray(shape.points, 3 * i);
    if (around.length === 0) points.push(at);
    else points.push(...around.map((by) => at.clone().add(by)));
  }
  if (points.length < 4) return undefined;
  try {
    return new ConvexGeometry(points);
  } catch {
    return undefined;
  }
}

function discPoints({ axis, disc }: Shape): Vector3[] {
  if (disc === 0) return [];
  const along = new Vector3().fromArray(axis);
  const side = Math.abs(along.x) < 0.9 ? new Vector3(1, 0, 0) : new Vector3(0, 1, 0);
  const p = side.cross(along).normalize().multiplyScalar(disc);
  const q = along.clone().cross(p);
  return Array.from({ length: DISC_SIDES }, (_, k) => {
    const angle = (2 * Math.PI * k) / DISC_SIDES;
    return p.clone().multiplyScalar(Math.cos(angle)).addScaledVector(q, Math.sin(angle));
  });
}

function ballPoints({ ball }: Shape): Vector3[] {
  if (ball === 0) return [];
  const points = [new Vector3(0, 0, ball), new Vector3(0, 0, -ball)];
  for (let ring = 1; ring < BALL_RINGS; ring++) {
    const rise = -Math.PI / 2 + (Math.PI * ring) / BALL_RINGS;
    for (let k = 0; k < 2 * BALL_RINGS; k++) {
      const turn = (Math.PI * k) / BALL_RINGS;
      const flat = Math.cos(rise) * ball;
      points.push(new Vector3(Math.cos(turn) * flat, Math.sin(turn) * flat, Math.sin(rise) * ball));
    }
  }
  return points;
}

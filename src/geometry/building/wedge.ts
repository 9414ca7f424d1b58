/** The two planes through a pair of points that hold all the others of a set between them. */

import * as trig from '../../model/trig.js';
import { acrossOf, distance, dot, sub, unitFrom, type Points, type V } from './vectors.js';

interface Wedge {
  /** Outward normals of the two planes through the pair that hold all other points between them. */
  readonly right: V;
  readonly left: V;
  /** True when another point lies on the same line before the first or beyond the second. */
  readonly before: boolean;
  readonly beyond: boolean;
}

/** The wedge about the line through points i and j that holds all the rest; undefined if none does. */
export function wedgeAbout(p: Points, i: number, j: number, tolerance: number): Wedge | undefined {
  const e = unitFrom(p, i, j);
  const length = distance(p, i, j);
  const [u, v] = acrossOf(e);
  const n = p.length / 3;
  let started = false;
  let flat = false;
  let before = false;
  let beyond = false;
  let rx = 0;
  let ry = 0;
  let lx = 0;
  let ly = 0;
  for (let k = 0; k < n; k++) {
    if (k === i || k === j) continue;
    const q = sub(p, k, i);
    const x = dot(u, q);
    const y = dot(v, q);
    const r = trig.hypot(x, y);
    if (r <= tolerance) {
      const t = dot(e, q);
      before ||= t < -tolerance;
      beyond ||= t > length + tolerance;
      continue;
    }
    if (!started) {
      started = true;
      rx = lx = x / r;
      ry = ly = y / r;
      continue;
    }
    const fromRight = rx * y - ry * x;
    const fromLeft = lx * y - ly * x;
    if (flat && Math.abs(fromRight) > tolerance) {
      // The first two rays were opposite, so the side was open until now.
      flat = false;
      if (fromRight < 0) [rx, ry, lx, ly] = [lx, ly, rx, ry];
      continue;
    }
    if (fromRight < -tolerance && fromLeft > tolerance) return undefined;
    if (fromRight < -tolerance) {
      rx = x / r;
      ry = y / r;
    } else if (fromLeft > tolerance) {
      lx = x / r;
      ly = y / r;
    } else if (!flat && rx * x + ry * y < 0 && lx * x + ly * y < 0) {
      flat = true;
      lx = x / r;
      ly = y / r;
    }
  }
  const lift = (a: number, b: number): V => [
    a * u[0] + b * v[0],
    a * u[1] + b * v[1],
    a * u[2] + b * v[2],
  ];
  return { right: lift(ry, -rx), left: lift(-ly, lx), before, beyond };
}

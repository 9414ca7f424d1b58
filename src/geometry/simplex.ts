/**
 * The nearest point of a simplex of up to four points to the origin, by signed volumes: each face is
 * judged in the coordinate plane where it is largest, so that needles and slivers keep their digits.
 *
 * Works on module-level scratch that the gap routine fills; nothing here allocates.
 */

/** Corners of the difference A - B, with the points of A and B they come from; four slots of xyz. */
export const cornersC = new Float64Array(12);
export const cornersA = new Float64Array(12);
export const cornersB = new Float64Array(12);
/** Weights of the corners in the nearest point; they are >= 0 and sum to 1. */
export const weights = new Float64Array(4);
/** The nearest point found by `nearestOfSimplex`. */
export const nearest = new Float64Array(3);

const W = cornersC;
const keep = new Int32Array(4);
const share = new Float64Array(4);
let kept = 0;
/** Squared distance of `nearest`. Numbers that change live in arrays, which never allocate. */
const best = new Float64Array(1);

/**
 * Reduces the first `count` corners to the fewest that hold the point nearest the origin, fills
 * `weights` and `nearest`, and returns how many are left; 4 means that the origin is inside.
 */
export function nearestOfSimplex(count: number): number {
  best[0] = Infinity;
  kept = 0;
  if (count === 1) corner(0);
  else if (count === 2) segment(0, 1);
  else if (count === 3) triangle(0, 1, 2);
  else if (tetrahedron()) return 4;
  let at = 0;
  // keep[] is ascending, so moving down never overwrites a corner still needed.
  for (let k = 0; k < kept; k++) {
    const from = 3 * keep[k]!;
    if (from !== at) {
      copy(cornersC, from, at);
      copy(cornersA, from, at);
      copy(cornersB, from, at);
    }
    at += 3;
    weights[k] = share[k]!;
  }
  return kept;
}

function copy(array: Float64Array, from: number, to: number): void {
  array[to] = array[from]!;
  array[to + 1] = array[from + 1]!;
  array[to + 2] = array[from + 2]!;
}

/** Takes a point as the nearest if it is; the caller then says which corners hold it. */
function isNearest(x: number, y: number, z: number): boolean {
  const d = x * x + y * y + z * z;
  if (d >= best[0]!) return false;
  best[0] = d;
  nearest[0] = x;
  nearest[1] = y;
  nearest[2] = z;
  return true;
}

function corner(i: number): void {
  if (!isNearest(W[3 * i]!, W[3 * i + 1]!, W[3 * i + 2]!)) return;
  kept = 1;
  keep[0] = i;
  share[0] = 1;
}

/** i < j. */
function segment(i: number, j: number): void {
  const ax = W[3 * i]!;
  const ay = W[3 * i + 1]!;
  const az = W[3 * i + 2]!;
  const ex = W[3 * j]! - ax;
  const ey = W[3 * j + 1]! - ay;
  const ez = W[3 * j + 2]! - az;
  const ee = ex * ex + ey * ey + ez * ez;
  const t = -(ax * ex + ay * ey + az * ez);
  if (!(t > 0)) return corner(i);
  if (t >= ee) return corner(j);
  const f = t / ee;
  if (!isNearest(ax + f * ex, ay + f * ey, az + f * ez)) return;
  kept = 2;
  keep[0] = i;
  keep[1] = j;
  share[0] = 1 - f;
  share[1] = f;
}

/** i < j < k. */
function triangle(i: number, j: number, k: number): void {
  const ax = W[3 * i]!;
  const ay = W[3 * i + 1]!;
  const az = W[3 * i + 2]!;
  const bx = W[3 * j]!;
  const by = W[3 * j + 1]!;
  const bz = W[3 * j + 2]!;
  const cx = W[3 * k]!;
  const cy = W[3 * k + 1]!;
  const cz = W[3 * k + 2]!;
  const ux = bx - ax;
  const uy = by - ay;
  const uz = bz - az;
  const wx = cx - ax;
  const wy = cy - ay;
  const wz = cz - az;
  const nx = uy * wz - uz * wy;
  const ny = uz * wx - ux * wz;
  const nz = ux * wy - uy * wx;
  const nn = nx * nx + ny * ny + nz * nz;
  if (!(nn > 0)) {
    segment(i, j);
    segment(i, k);
    segment(j, k);
    return;
  }
  const f = (ax * nx + ay * ny + az * nz) / nn;
  const px = f * nx;
  const py = f * ny;
  const pz = f * nz;
  // Twice the signed areas in the coordinate plane where the triangle is largest.
  const mx = Math.abs(nx);
  const my = Math.abs(ny);
  const mz = Math.abs(nz);
  let total: number;
  let wa: number;
  let wb: number;
  let wc: number;
  if (mx >= my && mx >= mz) {
    total = nx;
    wa = (by - py) * (cz - pz) - (bz - pz) * (cy - py);
    wb = (cy - py) * (az - pz) - (cz - pz) * (ay - py);
    wc = (ay - py) * (bz - pz) - (az - pz) * (by - py);
  } else if (my >= mz) {
    total = ny;
    wa = (bz - pz) * (cx - px) - (bx - px) * (cz - pz);
    wb = (cz - pz) * (ax - px) - (cx - px) * (az - pz);
    wc = (az - pz) * (bx - px) - (ax - px) * (bz - pz);
  } else {
    total = nz;
    wa = (bx - px) * (cy - py) - (by - py) * (cx - px);
    wb = (cx - px) * (ay - py) - (cy - py) * (ax - px);
    wc = (ax - px) * (by - py) - (ay - py) * (bx - px);
  }
  if (total < 0) {
    wa = -wa;
    wb = -wb;
    wc = -wc;
  }
  if (wa > 0 && wb > 0 && wc > 0) {
    if (!isNearest(px, py, pz)) return;
    const sum = wa + wb + wc;
    kept = 3;
    keep[0] = i;
    keep[1] = j;
    keep[2] = k;
    share[0] = wa / sum;
    share[1] = wb / sum;
    share[2] = wc / sum;
    return;
  }
  if (wa <= 0) segment(j, k);
  if (wb <= 0) segment(i, k);
  if (wc <= 0) segment(i, j);
}

/** Sets four weights and returns true when the origin is inside, else tries the faces it is beyond. */
function tetrahedron(): boolean {
  const dx = W[9]!;
  const dy = W[10]!;
  const dz = W[11]!;
  const ax = W[0]! - dx;
  const ay = W[1]! - dy;
  const az = W[2]! - dz;
  const bx = W[3]! - dx;
  const by = W[4]! - dy;
  const bz = W[5]! - dz;
  const cx = W[6]! - dx;
  const cy = W[7]! - dy;
  const cz = W[8]! - dz;
  // Cramer: the origin is d + la a + lb b + lc c.
  const bcx = by * cz - bz * cy;
  const bcy = bz * cx - bx * cz;
  const bcz = bx * cy - by * cx;
  const volume = ax * bcx + ay * bcy + az * bcz;
  if (volume === 0) {
    allFaces();
    return false;
  }
  const la = -(dx * bcx + dy * bcy + dz * bcz) / volume;
  const lb =
    -(dx * (cy * az - cz * ay) + dy * (cz * ax - cx * az) + dz * (cx * ay - cy * ax)) / volume;
  const lc =
    -(dx * (ay * bz - az * by) + dy * (az * bx - ax * bz) + dz * (ax * by - ay * bx)) / volume;
  const ld = 1 - la - lb - lc;
  if (la > 0 && lb > 0 && lc > 0 && ld > 0) {
    weights[0] = la;
    weights[1] = lb;
    weights[2] = lc;
    weights[3] = ld;
    nearest[0] = 0;
    nearest[1] = 0;
    nearest[2] = 0;
    return true;
  }
  if (!(la > 0)) triangle(1, 2, 3);
  if (!(lb > 0)) triangle(0, 2, 3);
  if (!(lc > 0)) triangle(0, 1, 3);
  if (!(ld > 0)) triangle(0, 1, 2);
  return false;
}

function allFaces(): void {
  triangle(1, 2, 3);
  triangle(0, 2, 3);
  triangle(0, 1, 3);
  triangle(0, 1, 2);
}

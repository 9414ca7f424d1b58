/**
 * Singular values of a small matrix by one-sided Jacobi turns (Hestenes 1958, from memory): A V = U S with
 * the columns of A V made orthogonal two at a time. Small values keep their digits, which squaring A loses.
 */

export interface Singular {
  /** Not less than 0, the greatest first; as many as A has columns. */
  readonly values: readonly number[];
  /** Orthonormal, one for each value: the directions in the space of the columns. */
  readonly right: readonly (readonly number[])[];
}

/** Sweeps after which columns are as orthogonal as doubles make them; five suffice for a handful. */
const SWEEPS = 40;

/**
 * @param rows of equal length, any number of them (fewer than columns too).
 * @param columns how many columns there are, where there may be no row.
 */
export function singular(rows: readonly ArrayLike<number>[], columns: number): Singular {
  const a = Array.from({ length: columns }, (_, k) => rows.map((row) => row[k]!));
  const v = a.map((_, k) => a.map((__, j) => (j === k ? 1 : 0)));
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    let turned = false;
    for (let i = 0; i < columns - 1; i++) {
      for (let j = i + 1; j < columns; j++) turned = orthogonal(a, v, i, j) || turned;
    }
    if (!turned) break;
  }
  const order = a
    .map((column, k) => ({ value: Math.sqrt(dot(column, column)), k }))
    .sort((x, y) => y.value - x.value);
  return { values: order.map(({ value }) => value), right: order.map(({ k }) => v[k]!) };
}

/** Turns columns i and j until they are orthogonal; whether there was anything to turn. */
function orthogonal(a: number[][], v: number[][], i: number, j: number): boolean {
  const [p, q] = [a[i]!, a[j]!];
  const [pp, qq, pq] = [dot(p, p), dot(q, q), dot(p, q)];
  if (Math.abs(pq) <= Number.EPSILON * Math.sqrt(pp * qq) || pq === 0) return false;
  const zeta = (qq - pp) / (2 * pq);
  const t = (zeta < 0 ? -1 : 1) / (Math.abs(zeta) + Math.sqrt(1 + zeta * zeta));
  const c = 1 / Math.sqrt(1 + t * t);
  turn(p, q, c, c * t);
  turn(v[i]!, v[j]!, c, c * t);
  return true;
}

function turn(p: number[], q: number[], c: number, s: number): void {
  for (let k = 0; k < p.length; k++) {
    const [x, y] = [p[k]!, q[k]!];
    p[k] = c * x - s * y;
    q[k] = s * x + c * y;
  }
}

export function dot(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += a[k]! * b[k]!;
  return sum;
}

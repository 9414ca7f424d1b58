import * as trig from '../../model/trig.js';

/** The directions that some vectors span, one orthonormal vector each (Gram-Schmidt). */
export class Span {
  private readonly basis: number[][] = [];

  /** @param parallel what is left of a vector, relative to its length, that counts as a new direction. */
  constructor(private readonly parallel: number) {}

  get size(): number {
    return this.basis.length;
  }

  add(vector: readonly number[]): void {
    const length = trig.norm(vector);
    if (!(length > 0)) return;
    let rest = vector.map((v) => v / length);
    // Twice, so that rounding leaves nothing along what is there already.
    for (let pass = 0; pass < 2; pass++) {
      for (const unit of this.basis) {
        const along = unit.reduce((sum, v, k) => sum + v * rest[k]!, 0);
        rest = rest.map((v, k) => v - along * unit[k]!);
      }
    }
    const left = trig.norm(rest);
    if (left > this.parallel) this.basis.push(rest.map((v) => v / left));
  }
}

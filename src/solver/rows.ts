/**
 * Linear rows over a box, kept flat so that a node of the search allocates nothing.
 *
 * A row stands for `value + sum slope[k] * u[k]`, where `u[k]` in [-1, 1] runs across the box along
 * coordinate k (setback, offset, height, pitch): a slope is millimetres over half the box's width.
 */

import { grown } from './grown.js';

export const DIMENSIONS = 4;

export class Rows {
  count = 0;
  values = new Float64Array(256);
  slopes = new Float64Array(4 * 256);
  /** What part of a row's slack each coordinate's width causes: a guide for splitting, no more. */
  blame = new Float64Array(4 * 256);
  /** 1 where the row is tight at the ends of the box and loose between, 0 the other way round. */
  tightAtEnds = new Uint8Array(256);
  /** 1 for `0 <= row`, 0 for `m <= row`. */
  hard = new Uint8Array(256);
  /** Contact, group or limit that the row came from, as its maker numbers them. */
  source = new Int32Array(256);
  /** Multipliers of the last solution. */
  share = new Float64Array(256);

  clear(): void {
    this.count = 0;
  }

  /** A fresh row, all zero; fill it in place. */
  add(source: number, hard: boolean): number {
    if (this.count === this.values.length) this.grow();
    const row = this.count++;
    this.values[row] = 0;
    this.slopes.fill(0, 4 * row, 4 * row + 4);
    this.blame.fill(0, 4 * row, 4 * row + 4);
    this.tightAtEnds[row] = 0;
    this.hard[row] = hard ? 1 : 0;
    this.source[row] = source;
    this.share[row] = 0;
    return row;
  }

  /** Take back the last row. */
  drop(): void {
    this.count--;
  }

  /** Write row `from` over row `to`. */
  move(from: number, to: number): void {
    this.values[to] = this.values[from]!;
    this.slopes.copyWithin(4 * to, 4 * from, 4 * from + 4);
    this.blame.copyWithin(4 * to, 4 * from, 4 * from + 4);
    this.tightAtEnds[to] = this.tightAtEnds[from]!;
    this.hard[to] = this.hard[from]!;
    this.source[to] = this.source[from]!;
  }

  /** Half the row's range over the box. */
  spread(row: number): number {
    const s = this.slopes;
    const i = 4 * row;
    return Math.abs(s[i]!) + Math.abs(s[i + 1]!) + Math.abs(s[i + 2]!) + Math.abs(s[i + 3]!);
  }

  /** The row's value at `u`. */
  at(row: number, u: Float64Array): number {
    let value = this.values[row]!;
    for (let k = 0; k < DIMENSIONS; k++) value += this.slopes[4 * row + k]! * u[k]!;
    return value;
  }

  private grow(): void {
    const size = 2 * this.values.length;
    this.values = grown(this.values, size);
    this.slopes = grown(this.slopes, 4 * size);
    this.blame = grown(this.blame, 4 * size);
    this.share = grown(this.share, size);
    this.tightAtEnds = longer(this.tightAtEnds, size);
    this.hard = longer(this.hard, size);
    const source = new Int32Array(size);
    source.set(this.source);
    this.source = source;
  }
}

function longer(flags: Uint8Array, size: number): Uint8Array<ArrayBuffer> {
  const more = new Uint8Array(size);
  more.set(flags);
  return more;
}

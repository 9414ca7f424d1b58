/**
 * Where the labels of a drawing go: within the field, apart from one another, near what they name, and
 * off the lines where that can be had. Millimetres of paper, y downwards.
 */

import * as trig from '../model/trig.js';

/** The low corner, width and height. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

export type Place = readonly [number, number];

/** A label that has its place, and what it points at. */
export interface Placed {
  readonly box: Box;
  readonly anchor: Place;
}

/** Clear paper left between labels. */
const APART = 0.8;
/** Length of paper a cell of the ink grid covers. */
const CELL = 1;
/** Steps of distance, and directions, tried about an anchor. */
const RINGS = [3, 5, 8, 11, 14, 18, 23, 29, 36, 44, 54];
const WAYS = 24;
/** What covering a cell with ink costs, in millimetres of distance; and crossing a leader. */
const INK_COST = 0.8;
const CROSS_COST = 15;

function overlaps(a: Box, b: Box, apart = 0): boolean {
  return (
    a.x < b.x + b.w + apart &&
    b.x < a.x + a.w + apart &&
    a.y < b.y + b.h + apart &&
    b.y < a.y + a.h + apart
  );
}

function holds(outer: Box, inner: Box): boolean {
  return (
    inner.x >= outer.x &&
    inner.y >= outer.y &&
    inner.x + inner.w <= outer.x + outer.w &&
    inner.y + inner.h <= outer.y + outer.h
  );
}

export class Labels {
  readonly placed: Placed[] = [];
  private readonly ink: Float32Array;
  private readonly columns: number;
  private readonly rows: number;

  constructor(private readonly field: Box) {
    this.columns = Math.ceil(field.w / CELL) + 1;
    this.rows = Math.ceil(field.h / CELL) + 1;
    this.ink = new Float32Array(this.columns * this.rows);
  }

  /** Marks a line as drawn, so that labels keep off it. */
  drawn(from: Place, to: Place, weight = 1): void {
    const steps = Math.ceil(trig.hypot(to[0] - from[0], to[1] - from[1]) / CELL);
    for (let k = 0; k <= steps; k++) {
      const t = steps === 0 ? 0 : k / steps;
      const at = this.cellAt(from[0] + (to[0] - from[0]) * t, from[1] + (to[1] - from[1]) * t);
      if (at >= 0) this.ink[at] = Math.min(4, this.ink[at]! + weight);
    }
  }

  /** How much is drawn within a millimetre or two of a place. */
  inkNear(x: number, y: number): number {
    return this.inkIn({ x: x - 2, y: y - 2, w: 4, h: 4 });
  }

  /** A label of this size near its anchor; undefined where there is no room left for it at all. */
  place(w: number, h: number, anchor: Place): Placed | undefined {
    return this.keep(this.about(w, h, anchor) ?? this.anywhere(w, h, anchor));
  }

  /** The same, or undefined where it would stand far off or its leader run under another label. */
  placeNear(w: number, h: number, anchor: Place): Placed | undefined {
    return this.keep(this.about(w, h, anchor));
  }

  /** Whether a label lies over a place. */
  covers([x, y]: Place): boolean {
    return this.placed.some(({ box }) => overlaps(box, { x, y, w: 0, h: 0 }, APART));
  }

  private keep(best: Placed | undefined): Placed | undefined {
    if (best === undefined) return undefined;
    this.placed.push(best);
    this.drawn(best.anchor, nearestIn(best.box, best.anchor), 0.5);
    return best;
  }

  private about(w: number, h: number, anchor: Place): Placed | undefined {
    let best: Box | undefined;
    let least = Infinity;
    for (const ring of RINGS) {
      if (ring > least) break;
      for (let k = 0; k < WAYS; k++) {
        const angle = (2 * Math.PI * k) / WAYS;
        const x = anchor[0] + (ring + w / 2) * trig.cos(angle) - w / 2;
        const y = anchor[1] + (ring + h / 2) * trig.sin(angle) - h / 2;
        const box = { x, y, w, h };
        const cost = this.costOf(box, anchor);
        if (cost < least) [best, least] = [box, cost];
      }
    }
    return best && { box: best, anchor };
  }

  /** Any free place of a grid over the field, the nearest first. */
  private anywhere(w: number, h: number, anchor: Place): Placed | undefined {
    const { field } = this;
    let best: Box | undefined;
    let least = Infinity;
    for (let y = field.y; y + h <= field.y + field.h; y += 2) {
      for (let x = field.x; x + w <= field.x + field.w; x += 2) {
        const box = { x, y, w, h };
        if (!this.isFree(box)) continue;
        const cost = trig.hypot(x + w / 2 - anchor[0], y + h / 2 - anchor[1]);
        if (cost < least) [best, least] = [box, cost];
      }
    }
    return best && { box: best, anchor };
  }

  private costOf(box: Box, anchor: Place): number {
    if (!this.isFree(box)) return Infinity;
    const end = nearestIn(box, anchor);
    let cost = trig.hypot(end[0] - anchor[0], end[1] - anchor[1]) + INK_COST * this.inkIn(box);
    for (const other of this.placed) {
      if (crosses(anchor, end, other.box)) return Infinity;
      const [from, to] = [other.anchor, nearestIn(other.box, other.anchor)];
      if (crosses(from, to, box)) return Infinity;
      if (meet(anchor, end, from, to)) cost += CROSS_COST;
    }
    return cost;
  }

  private isFree(box: Box): boolean {
    return holds(this.field, box) && this.placed.every((other) => !overlaps(box, other.box, APART));
  }

  private inkIn({ x, y, w, h }: Box): number {
    let sum = 0;
    for (let v = y + CELL / 2; v < y + h; v += CELL) {
      for (let u = x + CELL / 2; u < x + w; u += CELL) {
        const at = this.cellAt(u, v);
        if (at >= 0) sum += this.ink[at]!;
      }
    }
    return sum;
  }

  private cellAt(x: number, y: number): number {
    const column = Math.floor((x - this.field.x) / CELL);
    const row = Math.floor((y - this.field.y) / CELL);
    const inside = column >= 0 && row >= 0 && column < this.columns && row < this.rows;
    return inside ? row * this.columns + column : -1;
  }
}

/** The point of a box nearest to a place. */
export function nearestIn({ x, y, w, h }: Box, [px, py]: Place): Place {
  return [Math.min(x + w, Math.max(x, px)), Math.min(y + h, Math.max(y, py))];
}

/** Whether a line runs through a box. */
function crosses(from: Place, to: Place, { x, y, w, h }: Box): boolean {
  let [start, end] = [0, 1];
  for (const [a, d, low, high] of [
    [from[0], to[0] - from[0], x, x + w],
    [from[1], to[1] - from[1], y, y + h],
  ] as const) {
    if (d === 0) {
      if (a <= low || a >= high) return false;
      continue;
    }
    const [one, other] = [(low - a) / d, (high - a) / d];
    start = Math.max(start, Math.min(one, other));
    end = Math.min(end, Math.max(one, other));
  }
  return start < end;
}

/** Whether two lines cross. */
function meet(a: Place, b: Place, c: Place, d: Place): boolean {
  const side = (p: Place, q: Place, r: Place) =>
    (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

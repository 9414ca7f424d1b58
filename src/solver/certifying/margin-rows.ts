/**
 * Rows above a contact's margin with what proves them: pairs of points, as a certificate writes them down.
 *
 * At each of the 8 ends of setback, offset and height the distance of a pair of points is looked at along
 * pitch alone: it stays under the line between its ends but for what its second derivative may bend, and an
 * affine function above all of these is above the gap (`src/verify/margin-row.ts` proves it afresh).
 */

import type { Four, InnerBody, Moment, Reason } from '../../model/certificate.js';
import type { PositionBox } from '../box.js';
import type { Contact } from '../measuring/contact.js';
import type { Probe } from '../measuring/probe.js';
import { CORNERS, cornerPairs, depths } from './corner-pairs.js';
import type { Ended } from './corner-pairs.js';
import type { Grown } from './inner-body.js';
import { endOf, greatest, pairOf, pitched, unmoved, written } from './point-pairs.js';

/** A row with its proof, and the solids it is of. */
export interface ProvedRow {
  readonly value: number;
  readonly slopes: Four;
  readonly reason: Reason;
}

/**
 * Millimetres that a row is lifted by, so that whoever checks it may round outward and take points for as
 * good as in their solids.
 */
const LIFT = 1e-5;

/**
 * Rows from a contact measured in or near the box: by its witness, and by a pair for each end of the box, since
 * the points of one may pass each other in it.
 * @param solids which solid of either part the contact is of.
 */
export function provedRows(
  c: Contact,
  box: PositionBox,
  w: Probe,
  solids: readonly [number, number],
): ProvedRow[] {
  const one = (): ProvedRow =>
    rowFrom(c, box, w, solids, {
      pairs: [pairOf(c, box, w)],
      corners: Array<number>(CORNERS).fill(0),
    });
  if (c.axis >= 0) return [one()];
  const ended = cornerPairs(c, box, w);
  const each = ended ? [rowFrom(c, box, w, solids, ended)] : [];
  return w.overlap && ended ? each : [one(), ...each];
}

/** The greatest that a row is in its box. */
export function mostOf({ value, slopes }: Pick<ProvedRow, 'value' | 'slopes'>): number {
  return slopes.reduce((sum, slope) => sum + Math.abs(slope), value);
}

function rowFrom(
  c: Contact,
  box: PositionBox,
  w: Probe,
  solids: readonly [number, number],
  { pairs, corners, inner }: Ended,
): ProvedRow {
  const values: number[] = [];
  const deep = corners.map((at, corner) =>
    at === -1 ? depths(inner!, box, endOf(corner, box)) : [0, 0],
  );
  for (const way of [-1, 1] as const) {
    for (let corner = 0; corner < CORNERS; corner++) {
      const pair = pairs[corners[corner]!];
      values.push(pair ? greatest(c, box, pair, corner, way) : deep[corner]![way < 0 ? 0 : 1]);
    }
  }
  const balls = c.engine.shape.ball + c.chassis.ball;
  const { value, slopes } = affineAbove(values, box.half);
  const moment = momentOf(c, w);
  const isOne = corners.every((at) => at === 0);
  return {
    value: value + LIFT - balls - c.needed,
    slopes,
    reason: {
      solids,
      ...(moment && { moment }),
      pairs: pairs.map((pair) => written(pair, moment)),
      ...(!isOne && { corners }),
      ...(inner && { inner: writtenBody(inner, box.mid[3]!, moment) }),
    },
  };
}

function writtenBody(
  { pairs, facets }: Grown,
  pitch: number,
  moment: Moment | undefined,
): InnerBody {
  return {
    pairs: pairs.map(([a, b]) => [unmoved(pitched(a, -pitch), moment), b] as const),
    facets,
  };
}

/** The contact's moment where it is not still. */
function momentOf(c: Contact, w: Probe): Moment | undefined {
  const turns = c.motion ? ([w.turnA, w.turnB] as const) : ([0, 0] as const);
  const lift = c.motion ? w.lift : 0;
  if (turns[0] === 0 && turns[1] === 0 && w.rock === 0 && lift === 0) return undefined;
  return { turns, rock: w.rock, lift };
}

/**
 * Mean slopes, then the value that puts the function above every one of 16: the 8 ends at the least pitch,
 * then at the greatest.
 */
function affineAbove(
  values: readonly number[],
  half: ArrayLike<number>,
): { value: number; slopes: Four } {
  const slopes = [0, 1, 2, 3].map((k) => {
    if (half[k] === 0) return 0;
    return values.reduce((sum, one, i) => sum + (i & (1 << k) ? one : -one), 0) / values.length;
  }) as unknown as Four;
  const at = (i: number): number =>
    slopes.reduce((sum, slope, k) => sum + (i & (1 << k) ? slope : -slope), 0);
  const value = values.reduce((top, one, i) => Math.max(top, one - at(i)), -Infinity);
  return { value, slopes };
}

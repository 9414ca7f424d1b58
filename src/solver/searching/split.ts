/** How a node is split: which open choice to decide, or which coordinate's width costs the most. */

import { PITCH_TRAVEL } from '../box.js';
import type { PositionBox } from '../box.js';
import type { Seen } from './lookout.js';
import type { Relaxation } from './relaxation.js';
import type { SearchRequest } from './request.js';
import { limitSlack } from '../measuring/limits.js';
import { LIMIT_SLACK } from '../decision.js';
import type { ReadyLimit } from '../measuring/limits.js';
import type { View } from '../measuring/view.js';

/** A box is not split once no point of it can move further than this, millimetres. */
const SMALLEST_TRAVEL = 1e-4;
/** In a search for a coordinate, a rule missed by less than this is the box's doing. */
const NEARLY_MET = 1;

/** A gap and a row above it part by at most so many millimetres for one of travel. */
const STEEPEST = 2;

const blame = new Float64Array(4);

/**
 * The open choice to decide next, where the options rather than the box hold the place back.
 * @param cutoff what a node's bound must exceed to be worth a visit.
 */
export function choiceToDecide(
  request: SearchRequest,
  view: View,
  seen: Seen,
  cutoff: number,
): number | undefined {
  const { undecided } = view;
  const { meter, objective, reach } = request;
  if (undecided.length === 0) return undefined;
  if (!seen.completions) return undecided[0];
  // For the least work, what stops the cheapest set decides; else what stops the best one. Where
  // work is prescribed, open choices make the bound worthless, so they are decided first.
  const { chosen, cheapest } = seen.completions;
  const completion = reach === undefined ? chosen : cheapest;
  if (reach === undefined && !request.work) {
    const enough = objective.kind === 'margin' ? cutoff : objective.keep - NEARLY_MET;
    if (seen.firm < enough) return undefined;
  }
  if (completion.margin < Math.min(seen.firm, reach ?? Infinity)) {
    const open = completion.tightest?.choices.find((c) => view.domains[c]!.length > 1);
    return open ?? undecided[0];
  }
  const allowed = meter.withinLimits(meter.contactsOf(completion.set), seen.x);
  return allowed ? undefined : undecided[0];
}

/**
 * The coordinate whose width costs the bound most, or -1 when the box is too small to split. The
 * blame lies with the rows that carry the bound, where their own slack could close the box, and else
 * with the contact that is worst at the program's point, if its row is loose.
 * @param over by how much the bound exceeds what would close the box.
 */
export function coordinateToSplit(
  relaxation: Relaxation,
  box: PositionBox,
  seen: Seen,
  over: number,
  tolerance: number,
  limits: readonly ReadyLimit[],
): number {
  const { rows } = relaxation;
  if (missesAtKink(limits, box, seen.x)) return widestOf(box);
  blame.fill(0);
  let carried = 0;
  for (let row = 0; row < rows.count; row++) {
    if (rows.share[row]! > 0) carried += blameRow(relaxation, row, rows.share[row]!, box, seen);
  }
  if (carried < 0.5 * over) {
    const loose = relaxation.tightestRowOf(seen.firmId);
    // Without a row of it the box is too wide for one: then its width is to blame.
    blame.fill(0);
    if (loose >= 0) blameRow(relaxation, loose, 1, box, seen);
  }
  let best = -1;
  for (let k = 0; k < 4; k++) {
    if (travelOf(box, k) < SMALLEST_TRAVEL) continue;
    if (blame[k]! > 0 && (best < 0 || blame[k]! > blame[best]!)) best = k;
  }
  return best >= 0 && blame[best]! > 1e-3 * tolerance ? best : widestOf(box);
}

/** Whether no point of the box can move so far that cutting it in two would tell anything. */
export function isTooSmall(box: PositionBox): boolean {
  return widestOf(box) < 0;
}

/** The coordinate along which the box is widest, or -1 where it is too small to split. */
function widestOf(box: PositionBox): number {
  let widest = -1;
  let width = 0;
  for (let k = 0; k < 4; k++) {
    const moves = travelOf(box, k);
    if (moves < SMALLEST_TRAVEL || moves <= width) continue;
    width = moves;
    widest = k;
  }
  return widest;
}

/** Whether the place seen misses a limit that no line follows in this box: then its width is to blame. */
function missesAtKink(limits: readonly ReadyLimit[], box: PositionBox, x: Float64Array): boolean {
  return limits.some(
    (limit) =>
      limit.kind === 'joint' && limitSlack(limit, [], x) < -LIMIT_SLACK && limit.mayBeStraight(box),
  );
}

/** Half the box's width along a coordinate, as millimetres of usual travel. */
function travelOf(box: PositionBox, k: number): number {
  return box.half[k]! * (k === 3 ? PITCH_TRAVEL : 1);
}

/** How far along a coordinate the program's point lies from where the row is tight, 0 to 1. */
function loosenessOf({ rows, u }: Relaxation, row: number, k: number): number {
  const far = Math.abs(u[k]!);
  return rows.tightAtEnds[row] ? 1 - far : far;
}

/**
 * Share out a row's slack at the program's point among the coordinates: as its maker estimated, and
 * what that leaves unexplained by how far the point lies from where the row is tight.
 * Returns the slack, or the estimate where the contact was not measured there.
 */
function blameRow(
  relaxation: Relaxation,
  row: number,
  weight: number,
  box: PositionBox,
  seen: Seen,
): number {
  const { rows, u } = relaxation;
  let estimated = 0;
  let moved = 0;
  for (let k = 0; k < 4; k++) {
    estimated += rows.blame[4 * row + k]!;
    moved += loosenessOf(relaxation, row, k) * travelOf(box, k);
  }
  const margin = seen.margins.get(rows.source[row]!);
  // A hard row counts from the margin to keep.
  const from = rows.hard[row] ? relaxation.keep : 0;
  const slack = margin === undefined ? estimated : Math.max(0, rows.at(row, u) + from - margin);
  const scale = estimated > 0 ? Math.min(1, slack / estimated) : 0;
  const rest = Math.max(0, slack - estimated);
  let left = rest;
  let width = 0;
  for (let k = 0; k < 4; k++) {
    const travel = travelOf(box, k);
    const far = loosenessOf(relaxation, row, k) * travel;
    const share = moved > 0 ? Math.min((rest * far) / moved, STEEPEST * travel) : 0;
    blame[k]! += weight * (rows.blame[4 * row + k]! * scale + share);
    left -= share;
    width += travel;
  }
  // What the looser coordinates are too narrow to have caused lies in the width of them all.
  for (let k = 0; k < 4 && width > 0; k++) {
    blame[k]! += (weight * left * travelOf(box, k)) / width;
  }
  return weight * slack;
}

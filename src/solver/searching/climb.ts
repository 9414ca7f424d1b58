/**
 * Climbs from a position to a local best by sequential linear programming: first-order models of the
 * contacts near the tightest, solved within a trust region, kept while they help.
 *
 * It proves nothing: it finds places, and its scores are certified margins.
 */

import * as trig from '../../model/trig.js';
import { boxOf } from '../box.js';
import type { PositionBox } from '../box.js';
import { limitSlack } from '../measuring/limits.js';
import { LIMIT_SLACK } from '../decision.js';
import { createLpResult, solveLp } from '../bounding/lp.js';
import type { Meter, SetContacts } from '../measuring/meter.js';
import type { Objective } from './objective.js';
import { limitModelRow } from '../measuring/limit-model.js';
import { createProbe } from '../measuring/probe.js';
import type { Probe } from '../measuring/probe.js';
import { Rows } from '../rows.js';

const rows = new Rows();
const lp = createLpResult();
const scratch = createProbe();

export interface ClimbRequest {
  readonly meter: Meter;
  readonly of: SetContacts;
  readonly lo: Float64Array;
  readonly hi: Float64Array;
  readonly objective: Objective;
  /** Largest number of linear programs. */
  readonly steps: number;
  /** First trust radius, millimetres of travel at the contacts. */
  readonly radius: number;
  /** Stop when the trust radius falls below this, millimetres. */
  readonly finest: number;
  /** Stop at the first position whose objective is so great. */
  readonly enough?: number;
  /** Leave a contact out of the search's own margins: used by the polish to hold some rules. */
  readonly hold?: ReadonlyMap<number, number>;
}

export interface Climbed {
  readonly x: Float64Array;
  /** The objective at `x`; -Infinity where no position that keeps every condition was met. */
  readonly value: number;
}

/** What a millimetre of a missed condition costs while climbing, in millimetres of objective. */
const MISS_PRICE = 20;
/** How far inside its conditions a step aims, as a part of its radius: room for curvature. */
const PAD = 1e-3;

/** A rule missed by no more than this is met: rounding, far under DECISION_SLACK. */
const MET_WITHIN = 1e-6;

/** A position scored: the objective, and by how much the worst condition is missed (0 if none). */
interface Score {
  readonly value: number;
  readonly missed: number;
}

/**
 * Score a position: rules that must hold are conditions, and so are limits. Exact where the merit
 * (value less priced misses) is at least `floor`, otherwise some score with a merit under it.
 */
function scoreAt(r: ClimbRequest, x: Float64Array, floor: number): Score {
  const { meter, of, objective } = r;
  let missed = 0;
  for (const limit of of.limits) {
    if (limit.kind === 'coordinate') continue;
    const by = -limitSlack(limit, of.set, x);
    // A kilogram is worth as much as the way that would take it off.
    const worth = limit.kind === 'weight' && by > LIMIT_SLACK ? by * limit.lever : by;
    missed = Math.max(missed, worth);
  }
  // A limit has a slack of its own: past it, it is missed, however little.
  missed = missed <= LIMIT_SLACK ? 0 : missed + MET_WITHIN;
  if (objective.kind === 'coordinate') {
    const value = objective.sign * x[objective.coordinate]!;
    const enough = objective.keep - Math.max(0, value - floor) / MISS_PRICE;
    const margin = meter.marginAt(of, x, enough);
    return { value, missed: Math.max(missed, objective.keep - margin) };
  }
  if (!r.hold) return { value: meter.marginAt(of, x, floor), missed };
  let least = Infinity;
  for (const id of of.contacts) {
    const contact = meter.bay.contacts[id]!;
    const held = r.hold.get(id);
    const remembered = meter.rememberedAt(contact, x) - contact.needed;
    if (held === undefined ? remembered > least : remembered > held) continue;
    meter.measure(contact, x, scratch);
    const margin = scratch.lower - contact.needed;
    if (held !== undefined) missed = Math.max(missed, held - margin);
    else least = Math.min(least, margin);
    if (least - MISS_PRICE * missed < floor) break;
  }
  return { value: least, missed };
}

function merit(score: Score): number {
  return score.value - MISS_PRICE * score.missed;
}

/**
 * Climb from `start`, which may miss conditions. Returns the best position met that misses none, so
 * never worse than a good start.
 */
export function climb(r: ClimbRequest, start: Float64Array): Climbed {
  // Limits may have narrowed the ranges since the start was found.
  let x = Float64Array.from(start, (v, k) => Math.min(r.hi[k]!, Math.max(r.lo[k]!, v)));
  let score = scoreAt(r, x, -Infinity);
  let best: Climbed = { x, value: score.missed > MET_WITHIN ? -Infinity : score.value };
  let radius = r.radius;
  let kink: Float64Array | undefined;
  for (let step = 0; step < r.steps && radius >= r.finest; step++) {
    if (r.enough !== undefined && best.value >= r.enough) break;
    const box = trustBox(r, x, radius);
    const free = Array.from(box.half, (h) => h > 0);
    rows.clear();
    modelAt(r, box, x, score, radius);
    if (kink) modelKinks(r, box, kink, score, radius);
    if (rows.count === 0 || !free.includes(true)) break;
    r.meter.effort.lps++;
    solveLp(rows, free, lp);
    const next = new Float64Array(4);
    for (let k = 0; k < 4; k++) {
      next[k] = Math.min(r.hi[k]!, Math.max(r.lo[k]!, box.mid[k]! + box.half[k]! * lp.u[k]!));
    }
    const promised = lp.value - merit(score);
    const scored = scoreAt(r, next, merit(score));
    const gained = merit(scored) - merit(score);
    if (gained > 0) {
      x = next;
      score = scored;
      kink = undefined;
      if (score.missed <= MET_WITHIN && score.value > best.value) best = { x, value: score.value };
      if (gained > 0.7 * promised) radius = Math.min(2 * radius, r.radius * 4);
      else if (gained < 0.2 * promised) radius *= 0.5;
    } else {
      // The model missed a contact or a kink: learn where it failed, and look nearer.
      radius *= 0.4;
      kink = next;
    }
    if (promised < r.finest * 0.1) radius = Math.min(radius * 0.25, radius);
  }
  return best;
}

/** Half the box of the model that tells which contacts carry the load, millimetres. */
const LOAD_RADIUS = 0.05;
/** A multiplier below this carries nothing. */
const LEAST_LOAD = 1e-6;

/** A contact that carries part of the load, and how its margin changes along each coordinate. */
export interface Loaded {
  readonly id: number;
  /** Per millimetre; along pitch, per millimetre of travel at a usual contact. */
  readonly slope: readonly number[];
}

/**
 * The contacts that hold the objective back at `x`: those with a multiplier in its first-order model.
 * Empty when nothing does.
 */
export function loadedContacts(r: ClimbRequest, x: Float64Array): Loaded[] {
  const box = trustBox(r, x, LOAD_RADIUS);
  rows.clear();
  modelAt(r, box, x, scoreAt(r, x, -Infinity), LOAD_RADIUS);
  solveLp(
    rows,
    Array.from(box.half, (h) => h > 0),
    lp,
  );
  const loaded: Loaded[] = [];
  for (let row = 0; row < rows.count; row++) {
    const id = rows.source[row]!;
    if (id < 0 || rows.share[row]! <= LEAST_LOAD) continue;
    if (r.hold?.has(id)) continue;
    const slope = Array.from(box.half, (half, k) =>
      half > 0 ? rows.slopes[4 * row + k]! / half / (k === 3 ? PITCH_LEVER : 1) : 0,
    );
    loaded.push({ id, slope });
  }
  return loaded;
}

/** The positions within `radius` of travel of `x`, inside the ranges. */
function trustBox(r: ClimbRequest, x: Float64Array, radius: number): PositionBox {
  const lo = new Float64Array(4);
  const hi = new Float64Array(4);
  for (let k = 0; k < 4; k++) {
    const step = k === 3 ? radius / PITCH_LEVER : radius;
    lo[k] = Math.max(r.lo[k]!, x[k]! - step);
    hi[k] = Math.min(r.hi[k]!, x[k]! + step);
  }
  return boxOf(lo, hi);
}

/** Millimetres of travel at a usual contact for a radian of pitch. */
const PITCH_LEVER = 400;

/** First-order rows of every contact that the trust region could bring into play. */
function modelAt(
  r: ClimbRequest,
  box: PositionBox,
  x: Float64Array,
  score: Score,
  radius: number,
): void {
  const { objective, of } = r;
  if (objective.kind === 'coordinate') objectiveRow(objective, box);
  modelContacts(r, box, x, score, 5 * radius, radius);
  for (const limit of of.limits) limitModelRow(limit, of.set, box, PAD * radius, rows);
}

/** Rows of the contacts that the failed step ran into, as they stand there. */
function modelKinks(
  r: ClimbRequest,
  box: PositionBox,
  at: Float64Array,
  score: Score,
  radius: number,
): void {
  modelContacts(r, box, at, score, radius, radius);
}

function modelContacts(
  r: ClimbRequest,
  box: PositionBox,
  at: Float64Array,
  score: Score,
  depth: number,
  radius: number,
): void {
  const { objective, meter, of } = r;
  for (const id of of.contacts) {
    const contact = meter.bay.contacts[id]!;
    const held = r.hold?.get(id);
    const keep = objective.kind === 'coordinate' ? objective.keep + PAD * radius : held;
    const reachable = (keep ?? score.value) + depth;
    if (meter.rememberedAt(contact, at) - contact.needed > reachable) continue;
    meter.measure(contact, at, scratch);
    if (scratch.lower - contact.needed > reachable) continue;
    contactRow(scratch, id, contact.needed + (keep ?? 0), keep !== undefined, box, at);
  }
}

function contactRow(
  w: Probe,
  id: number,
  needed: number,
  hard: boolean,
  box: PositionBox,
  at: Float64Array,
): void {
  const cos = trig.cos(at[3]!);
  const sin = trig.sin(at[3]!);
  const px = w.ex * cos + w.ez * sin;
  const pz = -w.ex * sin + w.ez * cos;
  const slope = [w.nx, w.ny, w.nz, w.nx * pz - w.nz * px];
  const row = rows.add(id, hard);
  let value = w.lower - needed;
  for (let k = 0; k < 4; k++) {
    value += slope[k]! * (box.mid[k]! - at[k]!);
    rows.slopes[4 * row + k] = slope[k]! * box.half[k]!;
  }
  rows.values[row] = value;
}

function objectiveRow(
  objective: Extract<Objective, { kind: 'coordinate' }>,
  box: PositionBox,
): void {
  const row = rows.add(-1, false);
  const k = objective.coordinate;
  rows.values[row] = objective.sign * box.mid[k]!;
  rows.slopes[4 * row + k] = objective.sign * box.half[k]!;
}

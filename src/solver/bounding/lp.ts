/**
 * The small linear program of a box: maximise m with `m <= row` for every soft row, `0 <= row` for
 * every hard one, and u in [-1, 1]^4.
 *
 * The library finds the point and the multipliers; the bound needs no trust in it. Any multipliers
 * y >= 0 whose soft ones sum to 1 give, for every u in the box,
 * `m <= sum y[r] row[r](u) <= sum y[r] value[r] + sum over k |sum y[r] slope[r][k]|`,
 * so the bound is that closed form, computed here.
 *
 * Every program is feasible by construction and its starting basis too: m is counted from the least
 * value any soft row takes in the box (the margin of this library's must not be `unrestricted`), and hard
 * rows may be missed by a length that costs HARD_PRICE a unit. So 'infeasible' from the library is a
 * fault, never a prune.
 *
 * The library's tolerances are absolute: over a tiny box, where rows differ by little more than they, its
 * pivots went round in a circle for ever. There lengths are told to it as parts of the widest spread of a row.
 * Pivots are counted besides, and past many the program is given up as faulty.
 */

import solver from 'javascript-lp-solver';
import { DIMENSIONS } from '../rows.js';
import type { Rows } from '../rows.js';

/** Millimetres of objective that a millimetre of a missed hard row costs. */
const HARD_PRICE = 200;
/** The library's pivot tolerance. */
const LP_PRECISION = 1e-9;
/** Added to every bound for the rounding of its closed form, relative to the terms' size. */
const BOUND_ROUNDING = 1e-12;

export interface LpResult {
  /** Proved: no u gives a larger m. -Infinity is never returned; without soft rows, Infinity. */
  bound: number;
  /** The library's best point, clamped to the box. */
  readonly u: Float64Array;
  /** Objective at the library's point, missed hard rows priced. */
  value: number;
  /** Millimetres by which the library's point misses the worst hard row. */
  missed: number;
  /** True when the library failed and only single rows bound the answer. */
  faulty: boolean;
}

export function createLpResult(): LpResult {
  return {
    bound: Infinity,
    u: new Float64Array(DIMENSIONS),
    value: Infinity,
    missed: 0,
    faulty: false,
  };
}

/** What this file uses of the library's model class, which its types leave out. */
interface LibraryModel {
  /** Reductions before solving: our programs are already reduced. */
  usePresolve: boolean;
  tableau: {
    pivot: (row: number, column: number) => void;
    matrix: Float64Array;
    width: number;
    costRowIndex: number;
    varIndexByCol: ArrayLike<number>;
  };
  maximize(): void;
  addVariable(cost: number, id: string): { value: number };
  smallerThan(rhs: number): {
    readonly slack: { readonly index: number };
    addTerm(coefficient: number, variable: unknown): unknown;
    /** What `addTerm` fills, looking each time whether the variable has a term already. */
    readonly terms: { variable: unknown; coefficient: number }[];
  };
  solve(): { readonly feasible: boolean; readonly bounded: boolean };
}
const Model = (solver as unknown as { Model: new (precision: number) => LibraryModel }).Model;

/** Pivots after which a program goes round in a circle: the library itself leaves most after some 500. */
const mostPivots = (rows: number): number => 2000 + 20 * rows;

const multipliers = new Map<number, number>();

/** What a row is to a program: a bound on m, a condition, or nothing. */
type Role = (rows: Rows, row: number) => 'soft' | 'hard' | 'out';

const asWritten: Role = (rows, row) => (rows.hard[row] ? 'hard' : 'soft');
const hardOnly: Role = (rows, row) => (rows.hard[row] ? 'soft' : 'out');

/**
 * Solve and bound. `free[k]` is false for a coordinate of no width. Leaves each row's multiplier in
 * `rows.share` (soft ones summing to 1).
 */
export function solveLp(rows: Rows, free: readonly boolean[], out: LpResult): void {
  solveAs(rows, free, asWritten, out);
}

/**
 * How well the hard rows can be met together: `out.bound` is a proved upper bound of the least hard
 * row, so a negative one proves that no point of the box meets them all.
 */
export function solveHardRows(rows: Rows, free: readonly boolean[], out: LpResult): void {
  solveAs(rows, free, hardOnly, out);
}

function solveAs(rows: Rows, free: readonly boolean[], role: Role, out: LpResult): void {
  const lowest = lowestCeiling(rows, role);
  const ceiling = lowest < 0 ? Infinity : rows.values[lowest]! + rows.spread(lowest);
  out.bound = ceiling;
  out.value = ceiling;
  out.missed = 0;
  out.faulty = false;
  out.u.fill(0);
  rows.share.fill(0, 0, rows.count);
  if (lowest < 0) return;

  // A soft row that stays above the least ceiling, or a hard one above 0, can never bind. The row of
  // that ceiling stays in any case: without it m has no end.
  const kept: number[] = [];
  let lift = 0;
  let shortfall = 0;
  let widest = 0;
  for (let row = 0; row < rows.count; row++) {
    const part = role(rows, row);
    if (part === 'out') continue;
    const floor = rows.values[row]! - rows.spread(row);
    if (row !== lowest && floor >= (part === 'hard' ? 0 : ceiling)) continue;
    kept.push(row);
    widest = Math.max(widest, rows.spread(row));
    const corner = lowCorner(rows, row);
    if (part === 'hard') shortfall = Math.max(shortfall, -corner);
    else lift = Math.max(lift, -floor);
  }

  const unit = widest > 0 ? Math.min(1, widest) : 1;
  const model = new Model(LP_PRECISION);
  model.usePresolve = false;
  model.maximize();
  const margin = model.addVariable(1, 'm');
  const along = free.map((isFree, k) => (isFree ? model.addVariable(0, `u${k}`) : undefined));
  // What is left of the largest shortfall allowed: a variable that starts at 0, as all must.
  const met = shortfall > 0 ? model.addVariable(HARD_PRICE, 's') : undefined;
  const slackOf: number[] = [];
  for (const row of kept) {
    const isHard = role(rows, row) === 'hard';
    const corner = lowCorner(rows, row);
    const constraint = model.smallerThan((corner + (isHard ? shortfall : lift)) / unit);
    if (!isHard) constraint.terms.push({ variable: margin, coefficient: 1 });
    else if (met) constraint.terms.push({ variable: met, coefficient: 1 });
    for (let k = 0; k < DIMENSIONS; k++) {
      const variable = along[k];
      const slope = rows.slopes[4 * row + k]!;
      if (variable && slope !== 0) constraint.terms.push({ variable, coefficient: -slope / unit });
    }
    slackOf.push(constraint.slack.index);
  }
  for (const variable of along) {
    if (variable) model.smallerThan(2).addTerm(1, variable);
  }
  if (met) model.smallerThan(shortfall / unit).addTerm(1, met);

  if (!isSolved(model, kept.length)) {
    out.faulty = true;
    return;
  }
  along.forEach((variable, k) => {
    out.u[k] = variable ? Math.min(1, Math.max(-1, variable.value - 1)) : 0;
  });
  out.missed = met ? Math.max(0, shortfall - unit * met.value) : 0;
  out.value = unit * margin.value - lift - HARD_PRICE * out.missed;

  const { matrix, width, costRowIndex, varIndexByCol } = model.tableau;
  multipliers.clear();
  for (let column = 1; column < width; column++) {
    multipliers.set(varIndexByCol[column]!, Math.abs(matrix[costRowIndex * width + column]!));
  }
  kept.forEach((row, i) => {
    rows.share[row] = multipliers.get(slackOf[i]!) ?? 0;
  });
  out.bound = Math.min(ceiling, certified(rows, role));
}

/** Solves, unless the library finds no end to it, or says that there is none. */
function isSolved(model: LibraryModel, rows: number): boolean {
  const { tableau } = model;
  const pivot = tableau.pivot.bind(tableau);
  let left = mostPivots(rows);
  tableau.pivot = (row, column) => {
    if (left-- === 0) throw new EndlessError();
    pivot(row, column);
  };
  try {
    const { feasible, bounded } = model.solve();
    return feasible && bounded;
  } catch (error) {
    if (error instanceof EndlessError) return false;
    throw error;
  }
}

class EndlessError extends Error {}

/** The box maximum of the rows' sum under their multipliers, scaled so that soft ones sum to 1. */
function certified(rows: Rows, role: Role): number {
  let soft = 0;
  for (let row = 0; row < rows.count; row++) {
    if (role(rows, row) === 'soft') soft += rows.share[row]!;
  }
  if (!(soft > 1e-9)) {
    rows.share.fill(0, 0, rows.count);
    return Infinity;
  }
  let bound = 0;
  let size = 0;
  const slope = [0, 0, 0, 0];
  for (let row = 0; row < rows.count; row++) {
    const y = (rows.share[row]! /= soft);
    if (y === 0) continue;
    bound += y * rows.values[row]!;
    size += y * (Math.abs(rows.values[row]!) + rows.spread(row));
    for (let k = 0; k < DIMENSIONS; k++) slope[k]! += y * rows.slopes[4 * row + k]!;
  }
  for (const s of slope) bound += Math.abs(s);
  return bound + size * BOUND_ROUNDING;
}

/** The soft row whose box maximum is least, a bound by itself; -1 without soft rows. */
export function lowestCeiling(rows: Rows, role: Role = asWritten): number {
  let lowest = -1;
  let least = Infinity;
  for (let row = 0; row < rows.count; row++) {
    if (role(rows, row) !== 'soft') continue;
    const ceiling = rows.values[row]! + rows.spread(row);
    if (lowest >= 0 && ceiling >= least) continue;
    least = ceiling;
    lowest = row;
  }
  return lowest;
}

function lowCorner(rows: Rows, row: number): number {
  let value = rows.values[row]!;
  for (let k = 0; k < DIMENSIONS; k++) value -= rows.slopes[4 * row + k]!;
  return value;
}

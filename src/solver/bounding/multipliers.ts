/**
 * How far the multipliers of a linear program may lie apart where more than one set of them is optimal.
 *
 * Maximise c . x with A x <= b, b >= 0 and x >= 0. The optimum is a concave function of each b: what a
 * little more of one gains, a unit, is the least that its multiplier can be over all optimal sets, and
 * what a little less costs is the greatest. Both are had by solving again with a small step. The programs
 * that ask for the multipliers themselves start where they are not feasible, and there the library
 * is not to be trusted: it calls many of them infeasible that are not.
 */

import solver from 'javascript-lp-solver';

/** What this file uses of the library's model class, which its types leave out. */
interface LibraryModel {
  usePresolve: boolean;
  maximize(): void;
  addVariable(cost: number, id: string): { readonly value: number };
  smallerThan(rhs: number): { addTerm(coefficient: number, variable: unknown): unknown };
  solve(): { readonly feasible: boolean; readonly bounded: boolean };
}
const Model = (solver as unknown as { Model: new (precision: number) => LibraryModel }).Model;

const LP_PRECISION = 1e-9;

/** `sum of coefficients[j] x[j] <= limit`, the limit at least a step above 0. */
export interface PlainRow {
  readonly coefficients: readonly number[];
  readonly limit: number;
}

/** The least and the greatest that an optimal multiplier can be. */
export interface Multiplier {
  readonly least: number;
  readonly most: number;
}

/**
 * The multipliers of some rows; undefined where the library fails, or the program has no optimum.
 * @param asked indexes of the rows asked for.
 * @param step by how much a limit is changed: optima that part only beyond it are not told apart.
 */
export function multiplierRanges(
  rows: readonly PlainRow[],
  costs: readonly number[],
  asked: readonly number[],
  step: number,
): Multiplier[] | undefined {
  const value = optimum(rows, costs);
  const ranges: Multiplier[] = [];
  for (const row of asked) {
    const [more, less] = [step, -step].map((by) =>
      optimum(
        rows.map((r, i) => (i === row ? { ...r, limit: r.limit + by } : r)),
        costs,
      ),
    );
    if (value === undefined || more === undefined || less === undefined) return undefined;
    const least = Math.max(0, (more - value) / step);
    ranges.push({ least, most: Math.max(least, (value - less) / step) });
  }
  return ranges;
}

/** The optimum of a program; undefined where there is none. */
function optimum(rows: readonly PlainRow[], costs: readonly number[]): number | undefined {
  const model = new Model(LP_PRECISION);
  model.usePresolve = false;
  model.maximize();
  const x = costs.map((cost, j) => model.addVariable(cost, `x${j}`));
  for (const { coefficients, limit } of rows) {
    const row = model.smallerThan(limit);
    coefficients.forEach((coefficient, j) => {
      if (coefficient !== 0) row.addTerm(coefficient, x[j]);
    });
  }
  const solved = model.solve();
  if (!solved.feasible || !solved.bounded) return undefined;
  return x.reduce((sum, { value }, j) => sum + costs[j]! * value, 0);
}

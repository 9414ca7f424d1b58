/** A linear or mixed-integer program built row by row and solved by `highs`, the outside opinion. */

import module from 'highs';

/** Its types are written for `require`, where the loader is a property of what is imported. */
const load = module as unknown as typeof module.default;

export type Highs = Awaited<ReturnType<typeof load>>;

export interface Outcome {
  readonly status: 'optimal' | 'infeasible' | 'other';
  /** Objective at `x`; NaN unless optimal. */
  readonly value: number;
  /** For a mixed-integer program, what no solution exceeds; equal to `value` without integers. */
  readonly bound: number;
  readonly x: Float64Array;
}

export type Term = readonly [variable: number, coefficient: number];

let loaded: Promise<Highs> | undefined;

/** The wasm library, loaded once a process. */
export function loadHighs(): Promise<Highs> {
  return (loaded ??= load());
}

/** Maximises a sum of variables subject to linear rows. */
export class Program {
  private readonly cost: number[] = [];
  private readonly lower: number[] = [];
  private readonly upper: number[] = [];
  private readonly integer: boolean[] = [];
  private readonly rowLower: number[] = [];
  private readonly rowUpper: number[] = [];
  private readonly starts: number[] = [0];
  private readonly indices: number[] = [];
  private readonly values: number[] = [];

  get variables(): number {
    return this.cost.length;
  }

  get rows(): number {
    return this.rowLower.length;
  }

  get integers(): number {
    return this.integer.filter(Boolean).length;
  }

  variable(cost: number, lower: number, upper: number, integer = false): number {
    this.cost.push(cost);
    this.lower.push(lower);
    this.upper.push(upper);
    this.integer.push(integer);
    return this.cost.length - 1;
  }

  /** `lower <= sum of terms <= upper`. A variable may stand in one term only. */
  row(terms: readonly Term[], lower: number, upper: number): void {
    for (const [variable, coefficient] of terms) {
      if (coefficient === 0) continue;
      this.indices.push(variable);
      this.values.push(coefficient);
    }
    this.starts.push(this.indices.length);
    this.rowLower.push(lower);
    this.rowUpper.push(upper);
  }

  solve(highs: Highs): Outcome {
    const model = highs.createModel();
    try {
      model.options.set({
        output_flag: false,
        primal_feasibility_tolerance: 1e-9,
        dual_feasibility_tolerance: 1e-9,
      });
      const isMixed = this.integer.includes(true);
      if (isMixed) {
        model.options.set({
          mip_rel_gap: 0,
          mip_abs_gap: 1e-9,
          mip_feasibility_tolerance: 1e-9,
        });
      }
      const infinite = (v: number): number =>
        v === Infinity ? highs.infinity : v === -Infinity ? -highs.infinity : v;
      const { continuous, integer } = highs.constants.variableType;
      model.passModel({
        numCols: this.variables,
        numRows: this.rows,
        sense: highs.constants.objectiveSense.maximize,
        colCost: this.cost,
        colLower: this.lower.map(infinite),
        colUpper: this.upper.map(infinite),
        rowLower: this.rowLower.map(infinite),
        rowUpper: this.rowUpper.map(infinite),
        matrix: {
          format: 'csr',
          numRows: this.rows,
          numCols: this.variables,
          starts: Int32Array.from(this.starts),
          indices: Int32Array.from(this.indices),
          values: Float64Array.from(this.values),
        },
        ...(isMixed && { integrality: this.integer.map((is) => (is ? integer : continuous)) }),
      });
      model.run();
      const status = model.getModelStatus();
      const { optimal, infeasible } = highs.constants.modelStatus;
      if (status !== optimal) {
        const named = status === infeasible ? 'infeasible' : 'other';
        return { status: named, value: NaN, bound: NaN, x: new Float64Array() };
      }
      const value = model.getObjectiveValue();
      const bound = isMixed ? Number(model.info.get('mip_dual_bound')) : value;
      return {
        status: 'optimal',
        value,
        bound,
        x: Float64Array.from(model.getSolution().colValue),
      };
    } finally {
      model.dispose();
    }
  }
}

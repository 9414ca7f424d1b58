/**
 * What the main proofs may cost, in counts that no machine changes: boxes, gaps and linear programs. A
 * proof that takes more has lost something, and fails the run.
 */

import { readScenario } from '../src/model/read.js';
import type { Effort } from '../src/solver/answer.js';
import { solve } from '../tests/support/solve.js';
import type { BenchRow } from './harness.js';
import { LARGE, plantedBay, textOfPlant } from './large-bay.js';
import { expectProved, textOf } from './placing.js';

interface Budget {
  readonly name: string;
  readonly text: string;
  /** The margin that the answer must have, millimetres, where it is known beforehand. */
  readonly planted?: number;
  readonly most: Effort;
}

/** Millimetres: the tolerance of an answer. */
const TOLERANCE = 25.4 / 64;

/** Counts of the whole main answer, polish and setting with it; a third more than it takes today. */
export function benchBudgets(): Promise<BenchRow[]> {
  const planted = plantedBay(LARGE.parts, LARGE.choices);
  const most = Math.max(...planted.sets.map((set) => planted.marginOf(set)));
  const budgets: readonly Budget[] = [
    {
      name: 'demo',
      text: textOf('scenarios/orchard-hauler.yaml'),
      most: { boxes: 36, gaps: 17_500, lps: 125 },
    },
    {
      name: `${LARGE.parts} x ${LARGE.parts} parts, ${LARGE.choices} choices`,
      text: textOfPlant(planted),
      planted: most * 25.4,
      most: { boxes: 160, gaps: 870_000, lps: 1150 },
    },
  ];
  return Promise.resolve(budgets.flatMap(rowsOf));
}

function rowsOf({ name, text, planted, most }: Budget): BenchRow[] {
  const { scenario } = readScenario(text, 'auto');
  if (!scenario) throw new Error(`${name}: not read`);
  const answer = solve(scenario, { only: 'place' });
  expectProved(answer, name);
  const { margin } = answer.main.optimum;
  if (planted !== undefined && Math.abs(margin - planted) > TOLERANCE) {
    throw new Error(`${name}: margin ${margin} mm where ${planted} is planted`);
  }
  return (['boxes', 'gaps', 'lps'] as const).map((count) => ({
    name: `${name}: ${count}`,
    value: answer.effort[count],
    unit: count,
    wanted: `at most ${most[count]} for the main answer`,
    met: answer.effort[count] <= most[count],
    counted: true,
    checked: 1,
  }));
}

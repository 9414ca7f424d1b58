/** Why the demo's engine will not centre, and what cures it, against one main answer. */

import { performance } from 'node:perf_hooks';
import type { Scenario } from '../src/model/scenario.js';
import { withTrims } from '../src/model/trims.js';
import { DECISION_SLACK } from '../src/solver/decision.js';
import { why } from '../src/solver/explaining/why.js';
import type { WhyAnswer } from '../src/solver/explaining/why.js';
import { measureAt } from '../src/solver/measuring/measure.js';
import { TOLERANCE, toEnd } from '../tests/support/solve.js';
import type { BenchRow } from './harness.js';
import { placeMedian, scenarioAt } from './placing.js';

const DEMO = 'scenarios/orchard-hauler.yaml';
const QUICK = 'scenarios/narrow-rails.yaml';
const WANTED = 10;

/** With `short`, of a smaller bay. Checks every reason and every remedy by measuring there again. */
export function benchWhy(short: boolean): Promise<BenchRow[]> {
  const scenario = scenarioAt(short ? QUICK : DEMO);
  const main = placeMedian(scenario, { only: 'main' }, short ? 1 : 3);
  const start = performance.now();
  const wants = { ranges: { offset: { min: 0, max: 0 } }, options: [] };
  const answer = toEnd(why(scenario, { wants, tolerance: TOLERANCE }));
  const time = performance.now() - start;
  const { reasons, remedies, complete, remediesComplete, effort } = answer;
  if (answer.possible !== 'no' || !complete || !remediesComplete)
    throw new Error('the demo can be centred, or not all reasons and remedies are known');
  const row: BenchRow = {
    name: 'all blockers and remedies of the wish to be centred',
    value: time,
    unit: 'ms',
    against: { name: 'the main answer', value: main.time },
    ratio: time / main.time,
    wanted: `at most ${WANTED} x the main answer`,
    met: time <= WANTED * main.time,
    checked: checkedReasons(scenario, answer) + checkedRemedies(scenario, answer),
    note: `${reasons.length} reasons, ${remedies.length} remedies, ${effort.boxes} boxes, ${effort.gaps} gaps`,
  };
  return Promise.resolve([row]);
}

/** Every reason's rules at its place: as told, and the tightest too tight. */
function checkedReasons(scenario: Scenario, { reasons, set }: WhyAnswer): number {
  for (const { at, rules, short } of reasons) {
    if (!at || !short) throw new Error('a reason of the demo has no rule');
    const { readings } = measureAt(scenario, set, at);
    for (const rule of rules) {
      const again = readings.find(
        ({ between, measured, comingOut }) =>
          between.join() === rule.between.join() &&
          measured === rule.measured &&
          comingOut === rule.comingOut,
      );
      if (!again || Math.abs(again.margin - rule.margin) > DECISION_SLACK)
        throw new Error(`${rule.between.join(' - ')} is not what was told`);
    }
    if (!(short.least > 0 && short.most >= short.least)) throw new Error('a reason lacks nothing');
  }
  return reasons.length;
}

/** Every remedy's place: centred, with every rule and limit met once its changes are made. */
function checkedRemedies(scenario: Scenario, { remedies }: WhyAnswer): number {
  for (const { options, cuts, placement } of remedies) {
    const depths = scenario.trims.map((trim) => cuts.find((cut) => cut.trim === trim)?.depth ?? 0);
    const set = [...options, ...depths.map((depth) => (depth > 0 ? 1 : 0))];
    const { position } = placement.optimum;
    const standing = measureAt(withTrims(scenario, depths), set, position);
    if (!standing.fits || position.offset !== 0) throw new Error('a remedy does not cure');
  }
  return remedies.length;
}

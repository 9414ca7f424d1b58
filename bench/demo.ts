/** The demo: its main answer against `highs` on one pitch of it, and what more answers cost. */

import type { PlaceAnswer } from '../src/solver/answer.js';
import { measureAt } from '../src/solver/measuring/measure.js';
import type { Scenario } from '../src/model/scenario.js';
import type { BenchRow } from './harness.js';
import { DEGREE, expectProved, placeMedian, scenarioAt, sliceMedian } from './placing.js';

const PATH = 'scenarios/orchard-hauler.yaml';

/** Checks every answer at the position it gives, by measuring there again. */
export async function benchDemo(short: boolean): Promise<BenchRow[]> {
  const scenario = scenarioAt(PATH);
  const runs = short ? 1 : 5;
  const main = placeMedian(scenario, { only: 'place' }, runs);
  const whole = placeMedian(scenario, {}, runs);
  const allowed = whole.answer.main.options.map((o) => [o]);
  const turned = changedOption(scenario, whole.answer);
  const change = placeMedian(
    scenario,
    {
      only: 'place',
      allowed: allowed.map((one, c) => (c === turned.choice ? [turned.option] : one)),
    },
    runs,
  );
  const checked =
    check(scenario, main.answer, 'main') +
    check(scenario, whole.answer, 'all answers') +
    check(scenario, change.answer, 'one option changed');
  const over = change.answer.main.optimum.margin - whole.answer.bestBound;
  if (over > 0) throw new Error(`one set has ${over} mm more than all sets may have`);
  const domains = scenario.choices.map(({ options }) => options.map((_, o) => o));
  const pitches = (short ? [3] : [2.5, 3, 3.5]).map((degrees) => degrees * DEGREE);
  // A linear program has no angles in space: both race without the driveline's joints.
  const limits = scenario.limits.filter(({ quantity }) => quantity.of === 'pitch');
  const straight: Scenario = { ...scenario, limits };
  const race = placeMedian(straight, { only: 'place' }, runs);
  const slice = await sliceMedian(straight, pitches, domains, race.answer.bestBound);
  const { boxes, gaps, lps } = race.answer.effort;
  return [
    {
      ...compared(
        'main answer, all choices, to 1/64 in',
        race.time,
        'one pitch by highs',
        slice.time,
      ),
      wanted: 'at most one pitch',
      met: race.time <= slice.time,
      checked: slice.checked + 1,
      note: `${boxes} boxes, ${gaps} gaps, ${lps} LPs; highs: ${slice.note}`,
    },
    {
      ...compared('three answers and the wishes', whole.time, 'the main answer', main.time),
      wanted: 'at most 3 x the main answer',
      met: whole.time <= 3 * main.time,
      checked,
    },
    {
      ...compared('one option changed', change.time, 'all answers', whole.time),
      wanted: 'under 1/5 of the full solve',
      met: change.time < whole.time / 5,
      checked: 1,
      note: `${scenario.choices[turned.choice]!.name} changed, every other option as answered`,
    },
  ];
}

/** A time and the one it is held against, both in milliseconds. */
function compared(name: string, time: number, other: string, otherTime: number) {
  return {
    name,
    value: time,
    unit: 'ms',
    against: { name: other, value: otherTime },
    ratio: time / otherTime,
  };
}

/** The last choice, turned to another option than the answer's. */
function changedOption(
  scenario: Scenario,
  answer: PlaceAnswer,
): { choice: number; option: number } {
  const choice = scenario.choices.length - 1;
  const option = answer.main.options[choice] === 0 ? 1 : 0;
  return { choice, option };
}

/** Every placement proved, and its numbers those of its position. Returns how many were checked. */
function check(scenario: Scenario, answer: PlaceAnswer, what: string): number {
  expectProved(answer, what);
  let checked = 0;
  for (const placement of [answer.main, answer.asItStands, answer.leastWork]) {
    if (!placement) continue;
    if (placement.best !== 'proved') throw new Error(`${what}: a placement is not proved`);
    const again = measureAt(scenario, placement.options, placement.optimum.position);
    if (Math.abs(again.margin - placement.optimum.margin) > 1e-6) {
      throw new Error(
        `${what}: measured again, ${again.margin} is not ${placement.optimum.margin}`,
      );
    }
    checked++;
  }
  return checked;
}

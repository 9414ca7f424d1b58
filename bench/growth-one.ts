/**
 * One bay of the growth benchmark in a process of its own, so that its peak memory is its own:
 * `growth-one.ts PARTS CHOICES LIMIT_MS`. Prints one line of JSON, a `GrowthResult`.
 */

import { seeded } from '../tests/geometry/random.js';
import { scenarioOf, unitOf } from '../tests/support/doc.js';
import { plant } from '../tests/support/planted.js';
import type { GrowthResult } from './growth.js';
import { placeTimed } from './placing.js';

const [parts, choices, limit] = process.argv.slice(2).map(Number) as [number, number, number];
const planted = plant({
  random: seeded(21),
  pitch: 'tilted',
  choices,
  pieces: { engine: parts, chassis: parts / 6 },
  play: [1, 5],
});
const { answer, time } = placeTimed(scenarioOf(planted.doc), {}, limit);
const unit = unitOf(planted.doc);
const result: GrowthResult = {
  time,
  memory: process.resourceUsage().maxRSS / 1024,
  planted: Math.max(...planted.sets.map((set) => planted.marginOf(set))) * unit,
  plantedHere: planted.marginOf(answer.main.options) * unit,
  margin: answer.main.optimum.margin,
  bestBound: answer.bestBound,
  proved: answer.stopped === undefined && answer.main.best === 'proved',
};
console.log(JSON.stringify(result));

/** What is left in the worst case of the file's measuring errors, and what to measure again first. */

import { exactTape, tape } from '../../model/text/tape.js';
import type { Units } from '../../model/text/tape.js';
import type { Measurement, Path } from '../../model/scenario.js';
import type { Again } from '../../solver/measuring/again.js';
import type { Standing } from '../../solver/answer.js';
import { DECISION_SLACK } from '../../solver/decision.js';
import { list, paragraph } from './lines.js';
import type { Line, Section } from './lines.js';
import { name } from '../../words/text.js';
import type { Look } from '../../words/text.js';
import { countOf, pairWords, settled, spare, unit } from '../../words/words.js';
import type { Telling } from '../../words/words.js';

/** So many measurements are named, unless all are asked for. */
const FIRST = 3;

/** The guaranteed margin of the place told; nothing where the file has no measuring error. */
export function worstLines(standing: Standing, telling: Telling): Line[] {
  const { guaranteed, drawn, readings } = standing;
  const { units, scenario, look } = telling;
  if (guaranteed === undefined || !Number.isFinite(guaranteed)) return [];
  const count = scenario.measurements.filter(({ error }) => error > 0).length;
  const errors = `${countOf(count, 'measuring error')} at ${count === 1 ? 'its' : 'their'} most`;
  const left = spare(guaranteed, units);
  const worst = readings.find((reading) => reading.guaranteed === guaranteed);
  const isOther = worst !== undefined && worst !== readings[0];
  const said = [
    settled(guaranteed) >= 0 ? `${left}, guaranteed with ${errors}` : `${left} with ${errors}`,
    ...(drawn === undefined ? [] : [`as drawn ${spare(drawn.margin, units)}`]),
    ...(isOther ? [`tightest then ${pairWords(worst, telling)}`] : []),
  ];
  return paragraph('At worst', said.join('; '), look).slice(0, 3);
}

/** The measurements to take again first, best first; every one that gains where all are asked for. */
export function againSection(again: readonly Again[], all: boolean, telling: Telling): Section {
  const { look, units } = telling;
  const gaining = again.filter(({ ofTightest }) => ofTightest > 0);
  const told = all ? gaining : gaining.slice(0, FIRST);
  const pieces = told.map(({ measurement, gain }) => {
    const what = measurementWords(telling.scenario.measurements[measurement]!, telling);
    return gain > DECISION_SLACK ? `${what} gains ${sized(gain, units)}` : what;
  });
  if (pieces.length === 0) return { lines: [] };
  pieces[0] = `again first: ${pieces[0]!}`;
  if (told[0]!.gain <= DECISION_SLACK) pieces.push('none gains alone: other rules are as tight');
  return list('Measure', pieces, '; ', look, { least: 2, yields: 5 });
}

/** Gains are small, so they are told finer than a tape shows. */
const GAIN_STEP: Readonly<Record<Units, { readonly step: number; readonly words: string }>> = {
  in: { step: 1 / 64, words: '1/64' },
  mm: { step: 0.1, words: '0.1 mm' },
};

function sized(gain: number, units: Units): string {
  const { step, words } = GAIN_STEP[units];
  const size = tape(gain, units, { round: 'down', step });
  return Number(size) === 0 ? `under ${words}` : size + unit(units);
}

/** Where a measurement stands in the file, what it says there, and how far it may be off. */
function measurementWords({ path, written, error }: Measurement, telling: Telling): string {
  const { look, units } = telling;
  const off = `+- ${exactTape(error, units)}${unit(units)}`;
  const size = written.includes('+-') ? written : `${written} ${off}`;
  return `${pathWords(path, look)} (${name(size, look)})`;
}

const ENDS = ['from', 'to'];
const ALONG = ['x', 'y', 'z'];
/** Of two: which axes they are is told by the solid's own. */
const OF_TWO = ['first', 'second'];
/** What one item of a list is called; the list's own key is left out. */
const ITEMS: ReadonlyMap<unknown, string> = new Map([
  ['solids', 'solid'],
  ['profile', 'corner'],
  ['corners', 'corner'],
  ['points', 'point'],
  ['through', 'point'],
  ['stations', 'station'],
]);

/** A path as words: `radiator box x from`, `block prism corner 2 first`, `datum core face x`. */
function pathWords(path: Path, look: Look): string {
  if (path[0] === 'datums') return `datum ${keyWords(path.slice(2), look)}`;
  if (path[0] !== 'choices') return keyWords(path.slice(1), look);
  // choices > choice > option > add > side > part, or > replace > part
  const [, choice, option, how] = path;
  const part = keyWords(path.slice(how === 'add' ? 5 : 4), look);
  return `${part}, ${name(String(choice), look)}: ${name(String(option), look)}`;
}

function keyWords([first, ...keys]: Path, look: Look): string {
  const said = [name(String(first), look)];
  const shape = keys.find((key) => ['cylinder', 'prism'].includes(String(key)));
  keys.forEach((key, i) => {
    const before = keys[i - 1];
    if (typeof key !== 'number') {
      if (!ITEMS.has(key)) said.push(name(key, look));
    } else if (ITEMS.has(before)) {
      said.push(`${ITEMS.get(before)!} ${key + 1}`);
    } else if (ALONG.includes(String(before))) {
      said.push(ENDS[key]!);
    } else {
      const isOfTwo = shape !== undefined && !keys.includes('tilt');
      said.push((isOfTwo ? OF_TWO : ALONG)[key]!);
    }
  });
  return said.join(' ');
}

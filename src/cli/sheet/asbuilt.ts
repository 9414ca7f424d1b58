/** The as-built part of the sheet: numbered blanks, and the file of readings to type from them. */

import { pitchOnFloor } from '../../model/rake.js';
import type { AXES } from '../../model/scenario.js';
import type { Datum, Scenario } from '../../model/scenario.js';
import { tape } from '../../model/tape.js';
import type { ToTape } from '../../solver/fitup/to-tape.js';
import { readWords } from '../../words/built.js';
import { HANGING_CAUTION } from '../../words/fitup.js';
import { name } from '../../words/text.js';
import { sides } from '../../words/words.js';
import type { Telling } from '../../words/words.js';
import { BLANK, heading, paragraphOf, safe, tableOf } from './html.js';

/** A reading to take, with its number on the sheet. */
interface Numbered extends ToTape {
  readonly number: number;
}

/** Words of a place along each axis, for more and for less. */
const WAYS = {
  x: ['behind', 'ahead of'],
  y: ['right of', 'left of'],
  z: ['above', 'below'],
} as const;

/** Millimetres: nearer than this to a datum, a tape may find the point on either side of it. */
const TOO_NEAR = 12;

/** Every reading but the adjusters', which have their blanks on the mock-up's card, and the form to type. */
export function asBuiltPart(readings: readonly ToTape[], telling: Telling): string {
  const all = numbered(readings);
  const rows = all
    .filter(({ wanted }) => wanted.of !== 'adjuster')
    .map((one) => [String(one.number), ...cells(one, telling), BLANK]);
  return [
    heading('As built'),
    paragraphOf(
      'Tape these once it hangs, at rest, and again once its mounts are made. The numbers are those of the blanks here and on the card of the mock-up.',
    ),
    tableOf(['', 'what', 'how', 'should read', 'reads'], rows, 'asbuilt'),
    '<div class="order">',
    paragraphOf(
      'Then type this file, what you read in place of each number in brackets; leave out what you did not read. berth asbuilt with --measured says where the engine really sits, and whether to go on.',
    ),
    `<pre>${readingsForm(readings, telling).map(indented).join('\n')}</pre>`,
    '</div>',
    paragraphOf(HANGING_CAUTION, 'caution'),
  ].join('\n');
}

/** Escaped, what stands before the first letter kept. */
function indented(line: string): string {
  return ' '.repeat(line.length - line.trimStart().length) + safe(line.trimStart());
}

function numbered(readings: readonly ToTape[]): readonly Numbered[] {
  return readings.map((one, i) => ({ ...one, number: i + 1 }));
}

/** What is taped, how, and what it should read. */
function cells({ wanted, expected }: ToTape, telling: Telling): [string, string, string] {
  const { scenario, units, look } = telling;
  switch (wanted.of) {
    case 'gap':
      return [
        wanted.between.map((part) => name(part, look)).join(' - '),
        wanted.measured,
        readWords(wanted, expected, units),
      ];
    case 'point': {
      const called = pointOf(wanted);
      const along = wanted.name.slice(wanted.name.lastIndexOf(', ') + 2);
      const datum = datumOf(wanted.axis, expected, scenario);
      const [, ...y] = wanted.point;
      const at = y.every((one) => one === 0) ? ' at the crank' : '';
      return [
        `${name(called, look)}${at}`,
        along,
        placeFrom(datum, wanted.axis, expected, telling),
      ];
    }
    case 'angle': {
      const floor = scenario.rake === 0 ? '' : ', on a level floor';
      const read = wanted.angle === 'pitch' ? pitchOnFloor(expected, scenario) : expected;
      const way = wanted.angle === 'pitch' ? 'tail-down' : `${sides(scenario)[0]} side up`;
      return [wanted.angle, `angle finder${floor}`, `${readWords(wanted, read, units)} ${way}`];
    }
    case 'adjuster':
      return [name(wanted.adjuster, look), 'length', readWords(wanted, expected, units)];
  }
}

/** The file of readings, a line each, a number in brackets where a reading goes. */
function readingsForm(readings: readonly ToTape[], telling: Telling): readonly string[] {
  const { scenario, units } = telling;
  const under = (key: string, of: ToTape['wanted']['of'], more: readonly string[]): string[] => {
    const items = numbered(readings).filter(({ wanted }) => wanted.of === of);
    const said = [...items.map((one) => formLine(one, scenario)), ...more];
    return items.length === 0 ? [] : [`${key}:`, ...said.map((item) => `  ${item}`)];
  };
  return [
    'measured: 1',
    `units: ${units}`,
    ...under('adjusters', 'adjuster', []),
    ...under('angles', 'angle', scenario.rake === 0 ? [] : ['on: floor']),
    ...under('points', 'point', []),
    ...under('gaps', 'gap', []),
  ];
}

function formLine({ wanted, expected, number }: Numbered, scenario: Scenario): string {
  switch (wanted.of) {
    case 'adjuster':
      return `${plain(wanted.adjuster)}: (${number})`;
    case 'angle':
      return `${wanted.angle}: (${number})`;
    case 'point': {
      const datum = datumOf(wanted.axis, expected, scenario);
      const is = `(${number}) ${wayFrom(datum, wanted.axis, expected)} ${datum.name}`;
      return `- { of: ${plain(pointOf(wanted))}, is: ${quoted(is)} }`;
    }
    case 'gap': {
      const how = wanted.measured === 'nearest' ? '' : `measured: ${wanted.measured}, `;
      return `- { between: [${wanted.between.map(plain).join(', ')}], ${how}reads: (${number}) }`;
    }
  }
}

/** The datum of the engine that a point is. */
function pointOf({ name: called }: Pick<ToTape['wanted'], 'name'>): string {
  return called.slice(0, called.lastIndexOf(', '));
}

/** The chassis datum nearest to a place, but for one so near that the tape may read either way of it. */
function datumOf(axis: (typeof AXES)[number], at: number, { datums }: Scenario): Datum {
  const away = (datum: Datum) => Math.abs(at - datum[axis]!);
  const all = datums.chassis
    .filter((datum) => datum[axis] !== undefined)
    .sort((a, b) => away(a) - away(b));
  return all.find((datum) => away(datum) >= TOO_NEAR) ?? all[0]!;
}

function wayFrom(datum: Datum, axis: (typeof AXES)[number], at: number): string {
  return WAYS[axis][at >= datum[axis]! ? 0 : 1];
}

function placeFrom(
  datum: Datum,
  axis: (typeof AXES)[number],
  at: number,
  { units, look }: Telling,
): string {
  const step = units === 'in' ? 1 / 32 : 0.5;
  const size = tape(Math.abs(at - datum[axis]!), units, { round: 'nearest', step });
  return `${size} ${wayFrom(datum, axis, at)} ${name(datum.name, look)}`;
}

/** A name as YAML takes it among others. */
function plain(text: string): string {
  const isPlain =
    /^[A-Za-z][\w ./()-]*$/.test(text) && !/^(?:y|n|yes|no|on|off|true|false|null)$/i.test(text);
  return isPlain ? text : quoted(text);
}

function quoted(text: string): string {
  return JSON.stringify(text);
}

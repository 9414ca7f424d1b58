/** The as-built part of the sheet: numbered blanks, and the file of readings to type from them. */

import type { Scenario } from '../../model/scenario.js';
import type { ToTape } from '../../solver/fitup/to-tape.js';
import { HANGING_CAUTION } from '../../words/fitup.js';
import { datumOf, pointOf, toTapeCells, wayFrom } from '../../words/to-tape.js';
import type { Telling } from '../../words/words.js';
import { BLANK, heading, paragraphOf, safe, tableOf } from './html.js';

/** A reading to take, with its number on the sheet. */
interface Numbered extends ToTape {
  readonly number: number;
}

/** Every reading but the adjusters', which have their blanks on the mock-up's card, and the form to type. */
export function asBuiltPart(readings: readonly ToTape[], telling: Telling): string {
  const all = numbered(readings);
  const rows = all
    .filter(({ wanted }) => wanted.of !== 'adjuster')
    .map((one) => [String(one.number), ...toTapeCells(one, telling), BLANK]);
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

/** A name as YAML takes it among others. */
function plain(text: string): string {
  const isPlain =
    /^[A-Za-z][\w ./()-]*$/.test(text) && !/^(?:y|n|yes|no|on|off|true|false|null)$/i.test(text);
  return isPlain ? text : quoted(text);
}

function quoted(text: string): string {
  return JSON.stringify(text);
}

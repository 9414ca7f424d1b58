/** The report of `berth gaps`: one position as given, and every rule measured there. */

import type { Kind } from '../../model/kinds.js';
import { guessedParts, workOf } from '../../model/options.js';
import { COORDINATES } from '../../model/scenario.js';
import type { OptionSet } from '../../model/scenario.js';
import type { Standing } from '../../solver/answer.js';
import type { Hoist } from '../../solver/measuring/hoist.js';
import type { Unruled } from '../../solver/measuring/unruled.js';
import { axleSection } from './axle.js';
import { CAUTION, doPieces, guessedSection, remark } from './answer.js';
import { hoistSection } from './hoist.js';
import { list, paragraph } from './lines.js';
import type { Line } from './lines.js';
import { roomSection } from './room.js';
import { allLines, isShort, tightWords } from './rules.js';
import { tapeWords } from './tapes.js';
import { clean } from '../../words/text.js';
import { unruledLines } from './unruled.js';
import { coordinateWords, limitWords, whereWords } from '../../words/where.js';
import { setLines } from './set-lines.js';
import { countOf, spareInDoubt } from '../../words/words.js';
import type { Telling } from '../../words/words.js';
import { worstLines } from './worst.js';

export interface GapsReport {
  readonly standing: Standing;
  readonly set: OptionSet;
  readonly notDrawn: readonly Kind[];
  readonly warnings: readonly string[];
  readonly unruled: Unruled;
  readonly hoist?: Hoist;
}

/** Millimetres or radians: a coordinate this far past its range is at its end. */
const AT_END = 1e-9;

/** Every rule, tightest first, under the position and the options that were asked for. */
export function gapsReport(report: GapsReport, told: Telling): Line[] {
  const { standing, set, notDrawn, warnings, unruled } = report;
  const { look, scenario } = told;
  const telling = { ...told, guessed: guessedParts(scenario, set) };
  const doing = doPieces({ options: set, ...workOf(scenario, set) }, telling);
  const tight = tightest(standing, telling);
  return [
    headline(standing, telling),
    ...worstLines(standing, telling),
    ...unruledLines(unruled, telling),
    ...setLines('At', whereWords(standing.position, telling), look),
    ...list('Tape', tapeWords(standing.position, telling), ' | ', look).lines,
    ...axleSection(set, standing, telling).lines,
    ...list('With', doing, '; ', look).lines,
    ...(tight === undefined ? [] : paragraph('Tight', tight, look)),
    ...list('Limits', limitWords(standing, telling), '; ', look).lines,
    ...roomSection(standing.readings, telling).lines,
    ...hoistSection(report.hoist, telling).lines,
    ...outside(standing, telling),
    ...list('Not drawn', notDrawn, ', ', look).lines,
    ...guessedSection(telling).lines,
    CAUTION,
    ...allLines(standing.readings, telling),
    ...remark('File', scenario.title, look),
    ...warnings.flatMap((text, index) =>
      paragraph(index === 0 ? 'Warning' : '', clean(text, look), look),
    ),
  ];
}

function headline(standing: Standing, telling: Telling): Line {
  const { readings, fits, margin } = standing;
  const said = spareInDoubt(margin, telling.units);
  if (fits) {
    const count = countOf(readings.length, 'rule');
    return { label: 'FITS THERE,', text: `${said}; ${count} measured.`, tone: 'good' };
  }
  const short = readings.filter(isShort).length;
  const why =
    short === 0
      ? 'a limit or range is not kept'
      : `${short} of ${countOf(readings.length, 'rule')} ${short === 1 ? 'falls' : 'fall'} short`;
  return { label: 'DOES NOT FIT THERE,', text: `${said}; ${why}.`, tone: 'bad' };
}

function tightest(standing: Standing, telling: Telling): string | undefined {
  const reading = standing.readings[0];
  if (reading === undefined) return undefined;
  return tightWords(reading, telling);
}

function outside(standing: Standing, telling: Telling): Line[] {
  const past = COORDINATES.filter((coordinate) => {
    const { min, max } = telling.scenario.position[coordinate];
    const value = standing.position[coordinate];
    return value < min - AT_END || value > max + AT_END;
  }).map((coordinate) => {
    const { min, max } = telling.scenario.position[coordinate];
    const end = (value: number) => coordinateWords(coordinate, value, telling);
    return min === max
      ? `${coordinate}, which the file pins: ${end(min)}`
      : `${coordinate}, which the file lets go from ${end(min)} to ${end(max)}`;
  });
  return list('Outside', past, '; ', telling.look).lines.slice();
}

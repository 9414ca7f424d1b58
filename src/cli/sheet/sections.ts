/** The sheet's parts before and after the drawings: answer, set-up card, options, cuts, what binds, room. */

import { neededStyle, tape } from '../../model/text/tape.js';
import { trimWork } from '../../model/trims.js';
import type { Reading } from '../../solver/answer.js';
import { about, doPieces, guessedSection } from '../report/answer.js';
import { alsoSection } from '../report/also.js';
import { axleSection } from '../report/axle.js';
import { others } from '../report/beside.js';
import { beforeCutting, wayWords } from '../../words/why.js';
import { headline, verdict, whyUndecided } from '../report/headline.js';
import { hoistSection } from '../report/hoist.js';
import { list, paragraph } from '../report/lines.js';
import { next } from '../report/next.js';
import { roomSection } from '../report/room.js';
import { shown } from '../report/shown.js';
import { slackSection } from '../report/slack.js';
import { tapeWords } from '../report/tapes.js';
import { name } from '../../words/text.js';
import { unruledLines } from '../report/unruled.js';
import { limitWords, whereWords } from '../../words/where.js';
import {
  number,
  pairWords,
  shareRangeWords,
  shareWords,
  spare,
  wantsWords,
  workWords,
} from '../../words/words.js';
import type { Telling } from '../../words/words.js';
import { againSection, worstLines } from '../report/worst.js';
import { BLANK, heading, paragraphOf, safe, tableOf, told } from './html.js';
import type { Sheet } from './sheet.js';

/** The verdict, and what is said beside it. */
export function answerPart(sheet: Sheet, telling: Telling): string {
  const { answer, asked, unruled, hoist, again, notDrawn } = sheet;
  const { look } = telling;
  const { standing, exact } = shown(answer.main);
  const said = verdict(answer);
  const head = headline(answer, asked, unruled, telling);
  const isOpen = said === 'undecided' || answer.stopped !== undefined;
  const asking = said === 'fits' ? [] : next(asked, answer, said === 'undecided', telling);
  const tightest = sheet.readings[0];
  const rows = [
    ...(tightest === undefined
      ? []
      : paragraph(
          'Tightest',
          `${spare(tightest.margin, telling.units)}: ${pairWords(tightest, telling)}`,
          look,
        )),
    ...worstLines(standing, telling),
    ...unruledLines(unruled, telling),
    ...(isOpen ? paragraph('Why', whyUndecided(answer, asked), look) : []),
    ...list('Do', doPieces(answer.main, telling), '; ', look).lines,
    ...slackSection(said === 'fits' && !exact ? answer.slack : undefined, telling).lines,
    ...list('Limits', limitWords(standing, telling), '; ', look).lines,
    ...axleSection(answer.main.options, standing, telling).lines,
    ...hoistSection(hoist, telling).lines,
    ...alsoSection(answer, telling).lines,
    ...againSection(again, true, telling).lines,
    ...list('Next', asking.filter(isForPaper), '; ', look).lines,
    ...list('Not drawn', notDrawn, ', ', look).lines,
    ...guessedSection(telling).lines,
  ];
  return `<p class="verdict">${safe(`${head.label} ${head.text}`)}</p>\n${told(rows)}`;
}

/** A sheet has every rule on it. */
function isForPaper(suggestion: string): boolean {
  return !suggestion.includes('--all');
}

/** The position to set, and as tape measures from each datum, with blanks for what the tape then reads. */
export function setUpCard({ answer }: Sheet, telling: Telling): string {
  const { standing, exact } = shown(answer.main);
  const { position } = standing;
  const [setback, offset, height, pitch] = whereWords(position, telling);
  const rows = [
    ['setback', setback!, BLANK],
    ['offset', offset!, BLANK],
    ['height', height!, BLANK],
    ['pitch', pitch!, BLANK],
  ];
  const tapes = tapeWords(position, telling).map((words) =>
    words === 'read at the crank'
      ? ['', words, '']
      : [words.includes(' reads ') ? 'angle' : 'tape', words, BLANK],
  );
  const least = {
    fits: '',
    'does not fit': 'Nothing fits: this is the least bad place. ',
    undecided: 'Not proved: this is the best place found so far. ',
  }[verdict(answer)];
  const note = exact ? 'To these decimals: no tape mark near it fits. ' : '';
  return [
    heading('Set-up card'),
    paragraphOf(
      `${least}${note}The position is that of the crank centreline at the block's rear face. Set it, then tape these; lengths in ${telling.units === 'in' ? 'inches' : 'millimetres'}.`,
    ),
    tableOf(['', 'set', 'measured'], [...rows, ...tapes], 'card'),
  ].join('\n');
}

/** What is done to the bay and what else could be, with the work of each. */
export function optionsPart({ answer }: Sheet, telling: Telling): string {
  const { scenario, look, units } = telling;
  const { options: set, hours, cost } = answer.main;
  const rows = scenario.choices.flatMap((choice, c) =>
    choice.options.map((option, o) => [
      o === 0 ? name(choice.name, look) : '',
      o === set[c] ? 'take' : '',
      name(option.name, look, 80),
      ...work(option.hours, option.cost),
    ]),
  );
  const trims = scenario.trims.map((trim) => {
    const { hours: most, cost: dearest } = trimWork(trim, trim.upTo);
    const cut = answer.main.options
      .flatMap((option, c) => scenario.choices[c]!.options[option]!.cuts ?? [])
      .find((one) => one.trim === trim);
    const depth = tape(trim.upTo, units, neededStyle(trim.upTo, units));
    return [
      `${name(trim.part, look)} ${wayWords(trim, telling)}`,
      cut ? `cut ${tape(cut.depth, units, neededStyle(cut.depth, units))}` : 'not cut',
      `up to ${depth}`,
      ...work(most, dearest),
      beforeCutting(trim, set, telling),
    ];
  });
  const total = workWords(hours, cost);
  return [
    heading('Options and trims'),
    paragraphOf(
      `In all: ${total === '' ? 'no work' : total}. The first option of each is the bay as it stands.`,
    ),
    rows.length === 0 ? '' : tableOf(['choice', '', 'option', 'hours', 'cost'], rows, 'options'),
    trims.length === 0
      ? ''
      : tableOf(['trim', '', '', 'hours at most', 'cost', 'before'], trims, 'trims'),
  ].join('\n');
}

function work(hours: number, cost: number): [string, string] {
  return [hours === 0 ? '-' : number(hours), cost === 0 ? '-' : number(cost)];
}

/** What binds, which way each wants the engine, and what other answers there are. */
export function bindsPart({ answer, readings }: Sheet, telling: Telling): string {
  const binding = readings.filter((reading) => reading.binding);
  const rows = binding.map((reading) => [
    pairWords(reading, telling),
    spare(reading.margin, telling.units),
    shareOf(reading, binding),
    wantsWords(reading.slope, telling.scenario),
  ]);
  const heads = ['rule', '', 'share', 'wants the engine'];
  return [
    heading('What binds, and what would free room'),
    rows.length === 0
      ? paragraphOf('No rule holds the engine where it is.')
      : tableOf(heads, rows, 'binds') +
        paragraphOf('Share: how much of any room given at this rule alone the whole place gains.'),
    told(others(answer, telling).flatMap(({ lines }) => lines)),
  ].join('\n');
}

function shareOf(reading: Reading, binding: readonly Reading[]): string {
  if (reading.shareRange) return shareRangeWords(reading.shareRange);
  const isShared = binding.some(({ share }) => share !== undefined);
  return shareWords(reading.share ?? (isShared ? 0 : undefined));
}

/** What comes out for service, which way, and past what. */
export function roomPart({ readings }: Sheet, telling: Telling): string {
  const { lines } = roomSection(readings, telling);
  const pieces = lines
    .map(({ text }) => text)
    .join(' ')
    .split(' | ')
    .filter((text) => text !== '');
  const items = pieces.map((text) => `<li>${safe(text)}</li>`).join('\n');
  return [
    heading('Room to work'),
    pieces.length === 0
      ? paragraphOf('No rule looks at room for a part to come out here.')
      : `<ul>\n${items}\n</ul>`,
  ].join('\n');
}

/** The file, the search, how far it is proved, and the file's warnings. */
export function proofPart(sheet: Sheet, telling: Telling): string {
  return [heading('Proof'), told(about(sheet, telling))].join('\n');
}

/** The check list: every rule to tape by, worst first, with a blank for what the tape reads. */

import { neededStyle, tape } from '../../model/text/tape.js';
import type { Units } from '../../model/text/tape.js';
import type { Dimension } from '../../drawings/dimensions.js';
import type { Reading } from '../../solver/answer.js';
import { ROOMY } from '../report/rules.js';
import { name } from '../../words/text.js';
import { countOf, guessedOf, outWords, settled, spare } from '../../words/words.js';
import type { Telling } from '../../words/words.js';
import { BLANK, heading, paragraphOf, safe, tableOf } from './html.js';

/** Those with little to spare in full; the rest by the part they are taped from, in two columns. */
export function checkList(
  readings: readonly Reading[],
  dimensions: readonly Dimension[],
  telling: Telling,
): string {
  const { units } = telling;
  const worst = [...readings].sort((a, b) => a.margin - b.margin);
  const isTight = ({ margin }: Reading) => margin < ROOMY[units].mm;
  const tight = worst.filter(isTight);
  const rest = worst.filter((reading) => !isTight(reading));
  const roomy = `${ROOMY[units].words}${units === 'mm' ? ' mm' : ''}`;
  return [
    heading(`Check list: ${countOf(readings.length, 'rule')}, worst first`),
    paragraphOf(
      `Tape at rest, engine set as on the card. "At rest" is what the tape should read, rounded down; a reading under "needs" is short. In use, motions may leave less. Letters are those of the drawings.`,
    ),
    tight.length === 0 ? '' : tightTable(tight, dimensions, telling),
    rest.length === 0 ? '' : `<h3>${safe(`${roomy} or more to spare: ${rest.length}`)}</h3>`,
    rest.length === 0 ? '' : restColumns(rest, telling),
  ].join('\n');
}

function tightTable(
  readings: readonly Reading[],
  dimensions: readonly Dimension[],
  telling: Telling,
): string {
  const { units } = telling;
  const rows = readings.map((reading, i) => {
    const letter = dimensions.find((one) => one.reading === reading)?.letter ?? '';
    const [from, to] = ends(reading, telling);
    return [
      letter === '' ? String(i + 1) : `${i + 1} ${letter}`,
      from,
      to,
      howWords(reading),
      needed(reading, units),
      down(reading.atRest, units),
      BLANK,
      down(reading.gap, units),
      spare(reading.margin, units),
    ];
  });
  const heads = ['', 'from', 'to', 'how', 'needs', 'at rest', 'measured', 'in use', ''];
  return tableOf(heads, rows, 'rules');
}

/** A small table for every part that rules are taped from, the one with the tightest first. */
function restColumns(readings: readonly Reading[], telling: Telling): string {
  const { units } = telling;
  const groups = new Map<string, Reading[]>();
  for (const reading of readings) {
    const from = reading.between[0];
    groups.set(from, [...(groups.get(from) ?? []), reading]);
  }
  const tables = [...groups].map(([, group]) => {
    const rows = group.map((reading) => {
      const [, to] = ends(reading, telling);
      const how = howWords(reading);
      // The heading names the part alone; what is measured with it on its way out says so here.
      const out = outOf(reading, reading.between[0], telling);
      const said = [...(how === 'nearest' ? [] : [how]), ...(out === '' ? [] : [out])];
      const what = said.length === 0 ? to : `${to} (${said.join(', ')})`;
      return [what, needed(reading, units), down(reading.atRest, units), BLANK];
    });
    const from = name(group[0]!.between[0], telling.look);
    return `<h3>${safe(`${from} to`)}</h3>\n${tableOf(['', 'needs', 'at rest', ''], rows, 'few')}`;
  });
  return `<div class="rest">\n${tables.join('\n')}\n</div>`;
}

function ends({ between, ...reading }: Reading, telling: Telling): [string, string] {
  const guessed = guessedOf({ between }, telling);
  const [from, to] = between.map((part) => {
    const guess = guessed.includes(part) ? ' (guess)' : '';
    const out = outOf(reading, part, telling);
    return name(part, telling.look) + (out === '' ? '' : ` (${out})`) + guess;
  });
  return [from!, to!];
}

/** `out forward`, where it is this part's room to come out that is measured. */
function outOf({ withdrawn }: Pick<Reading, 'withdrawn'>, part: string, telling: Telling): string {
  return withdrawn?.part === part ? `out ${outWords(withdrawn.room, telling.scenario)}` : '';
}

function howWords({ measured, comingOut, withdrawn, fixed }: Reading): string {
  const out = comingOut && !withdrawn ? ', coming out' : '';
  return `${measured}${out}${fixed ? ', fixed' : ''}`;
}

function needed({ needed: mm }: Reading, units: Units): string {
  return tape(mm, units, neededStyle(mm, units));
}

function down(mm: number, units: Units): string {
  return Number.isFinite(mm) ? tape(settled(mm), units, { round: 'down' }) : 'none';
}

/** Margins, rules, moves and work in the words of the trade, never flattering. */

import { maxOf } from '../model/extremes.js';
import { tape } from '../model/text/tape.js';
import type { Units } from '../model/text/tape.js';
import { AXIS_OF, COORDINATES } from '../model/scenario.js';
import type { Box, Coordinate, Position, Scenario } from '../model/scenario.js';
import type { Reading, Standing } from '../solver/answer.js';
import { DECISION_SLACK } from '../solver/decision.js';
import { name } from './text.js';
import type { Look } from './text.js';

/** Stands once beside whatever leads to lifting, cutting, welding, steering, brakes, fuel or exhaust work. */
export const CAUTION_WORDS =
  'Space only, not strength. Have cuts and mounts reviewed; local codes rule.';

/** What every phrase of a report depends on. */
export interface Telling {
  readonly scenario: Scenario;
  readonly units: Units;
  readonly look: Look;
  /** The parts whose sizes are guessed, of those that stand in this answer. */
  readonly guessed?: readonly string[];
}

/** The first line of a report: its verdict in capitals, and the reason. */
export interface Said {
  readonly label: string;
  readonly text: string;
  readonly tone: 'good' | 'bad' | 'open';
}

/** What a tape can err, in the units printed. */
const TAPE_ERROR: Readonly<Record<Units, number>> = { in: 25.4 / 8, mm: 3 };

/** Whether a margin, in millimetres, is smaller than what a tape can err. */
export function isInsideTapeError(margin: number, units: Units): boolean {
  return Math.abs(margin) < TAPE_ERROR[units];
}

/** The margin, with what the decision at zero lets pass called zero. */
export function settled(margin: number): number {
  return Math.abs(margin) <= DECISION_SLACK ? 0 : margin;
}

/** `3/16 to spare`, `short 7/8`, `nothing to spare`; millimetres are named, fractions need no name. */
export function spare(margin: number, units: Units): string {
  const value = settled(margin);
  if (value === Infinity) return 'no rule to keep';
  if (value === -Infinity) return 'nothing found';
  if (value < 0) return `short ${tape(-value, units, { round: 'up' })}${unit(units)}`;
  const left = tape(value, units, { round: 'down' });
  if (left !== '0') return `${left}${unit(units)} to spare`;
  return value === 0 ? 'nothing to spare' : `under ${step(units)} to spare`;
}

/** The same, with a remark where the tape may have erred by all of it. */
export function spareInDoubt(margin: number, units: Units): string {
  return spare(margin, units) + (isInsideTapeError(margin, units) ? ' (inside tape error)' : '');
}

/** A margin, and what else is known of it where the file has measuring errors. */
export type Margins = Pick<Standing, 'margin' | 'guaranteed' | 'drawn'>;

/** The same with its guaranteed size beside it, or said to be that where it is what was measured. */
export function marginWords({ margin, guaranteed, drawn }: Margins, units: Units): string {
  if (drawn !== undefined) return `${spare(margin, units)} at worst`;
  const doubts = isInsideTapeError(margin, units) ? ['inside tape error'] : [];
  if (guaranteed !== undefined && Number.isFinite(guaranteed)) {
    const isAlike = settled(margin) < 0 === settled(guaranteed) < 0;
    const worst = spare(guaranteed, units);
    doubts.push(`at worst ${isAlike ? worst.replace(/^short | to spare$/, '') : worst}`);
  }
  return spare(margin, units) + (doubts.length === 0 ? '' : ` (${doubts.join(', ')})`);
}

/** An upper bound on the margin in the same words, rounded to the side that keeps it a bound. */
export function boundWords(bound: number, units: Units): string {
  const value = settled(bound);
  if (!Number.isFinite(value)) return 'no bound yet';
  if (value >= 0) return `${tape(value, units, { round: 'up' })}${unit(units)} to spare`;
  const short = tape(-value, units, { round: 'down' });
  return short === '0' ? `short by less than ${step(units)}` : `short ${short}${unit(units)}`;
}

/** Two parts and how the gap between them is measured: `fan - radiator, fore-aft`. */
export function pairWords(
  reading: Pick<Reading, 'between' | 'measured' | 'comingOut' | 'withdrawn'>,
  telling: Telling,
): string {
  const { withdrawn, comingOut, measured } = reading;
  const [first, second] = reading.between.map((part) => {
    const out = part === withdrawn?.part ? outWords(withdrawn.room, telling.scenario) : '';
    return name(part, telling.look) + (out === '' ? '' : ` (out ${out})`);
  });
  const how = measured === 'nearest' ? '' : `, ${measured}`;
  return `${first} - ${second}${how}${comingOut && !withdrawn ? ', coming out' : ''}`;
}

/** The ways a part comes out, the longest first: `down`, `forward and down`. */
export function outWords(room: Box, scenario: Scenario): string {
  const ways = (['setback', 'offset', 'height'] as const).flatMap((coordinate) => {
    const { min, max } = room[AXIS_OF[coordinate]];
    return [min, max].map((by) => {
      const words = direction(coordinate, by, scenario);
      return { by, words: coordinate === 'offset' ? `to ${words}` : words };
    });
  });
  return ways
    .filter(({ by }) => by !== 0)
    .sort((a, b) => Math.abs(b.by) - Math.abs(a.by))
    .map(({ words }) => words)
    .join(' and ');
}

/** The parts of a pair whose sizes are guessed, each once. */
export function guessedOf({ between }: Pick<Reading, 'between'>, telling: Telling): string[] {
  const guessed = telling.guessed ?? [];
  return [...new Set(between)].filter((part) => guessed.includes(part));
}

/** `half`, `all`, `37%`: a binding rule's share of the margin; `yes` where no rule's is known. */
export function shareWords(share: number | undefined): string {
  if (share === undefined) return 'yes';
  if (share === 0) return '0%';
  const percent = Math.round(share * 100);
  if (percent === 100) return 'all';
  if (percent === 50) return 'half';
  return percent < 1 ? '<1%' : `${percent}%`;
}

/** `0 to half`: what room given at a rule alone gains, and what room taken there costs. */
export function shareRangeWords({ least, most }: NonNullable<Reading['shareRange']>): string {
  const [low, high] = [least, most].map((share) => shareWords(share).replace(/^0%$/, '0'));
  return `${low!} to ${high!}`;
}

/**
 * Which way a rule wants the engine to go: the one or two moves that open its gap most, a move
 * being weighed as 10 mm or a turn of one degree.
 */
export function wantsWords(slope: Position | undefined, scenario: Scenario): string {
  if (slope === undefined) return '';
  const moves = COORDINATES.map((coordinate) => ({
    effect: slope[coordinate] * TYPICAL[coordinate],
    words: direction(coordinate, slope[coordinate], scenario),
  }));
  const most = maxOf(moves.map((move) => Math.abs(move.effect)));
  if (!(most > DECISION_SLACK)) return '';
  return moves
    .filter((move) => Math.abs(move.effect) >= COUNTS * most)
    .sort((a, b) => Math.abs(b.effect) - Math.abs(a.effect))
    .slice(0, 2)
    .map((move) => move.words)
    .join(', ');
}

/** A change from the bay as it stands: `oil filter: remote`, and the work it is. */
export interface Change {
  readonly what: string;
  readonly work: string;
}

/** The chosen options that differ from the bay as it stands. */
export function changes(options: readonly number[], telling: Telling): Change[] {
  return options.flatMap((option, c) => {
    const choice = telling.scenario.choices[c]!;
    if (option === 0) return [];
    const chosen = choice.options[option]!;
    const what = `${name(choice.name, telling.look)}: ${name(chosen.name, telling.look)}`;
    return [{ what, work: workWords(chosen.hours, chosen.cost) }];
  });
}

/** `1.5 h, cost 90`, or nothing where there is neither. */
export function workWords(hours: number, cost: number): string {
  const said: string[] = [];
  if (hours !== 0) said.push(`${number(hours)} h`);
  if (cost !== 0) said.push(`cost ${number(cost)}`);
  return said.join(', ');
}

/** A move worth making: 10 mm, or a turn of one degree. */
export const TYPICAL: Readonly<Position> = {
  setback: 10,
  offset: 10,
  height: 10,
  pitch: Math.PI / 180,
};

/** A second move is worth naming when it opens the gap at least this share of what the first does. */
const COUNTS = 0.4;

/** Who sits to the right (+Y) and to the left of the centre. */
export function sides(scenario: Scenario): readonly [string, string] {
  return scenario.driver === 'left' ? ['passenger', 'driver'] : ['driver', 'passenger'];
}

function direction(coordinate: Coordinate, slope: number, scenario: Scenario): string {
  const [right, left] = sides(scenario);
  const words: Record<Coordinate, readonly [string, string]> = {
    setback: ['back', 'forward'],
    offset: [right, left],
    height: ['up', 'down'],
    pitch: ['tail down', 'tail up'],
  };
  return words[coordinate][slope > 0 ? 0 : 1];
}

/** The least mark that margins are told on. */
export function step(units: Units): string {
  return units === 'in' ? '1/16' : '1 mm';
}

/** What follows a length that stands alone: a fraction is of an inch, `14` could be of anything. */
export function unit(units: Units): string {
  return units === 'mm' ? ' mm' : '';
}

/** `1 box`, `2 boxes`. */
export function countOf(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** Hours or money, to hundredths. */
export function number(value: number): string {
  return String(Math.round(value * 100) / 100);
}

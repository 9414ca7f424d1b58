/** What the rows of cases, trades and slides share: margins, gains, what binds, places in few words. */

import { setFrom } from '../../model/errors/set-from.js';
import { exactTape, tape } from '../../model/text/tape.js';
import type { Units } from '../../model/text/tape.js';
import { AXIS_OF, COORDINATES } from '../../model/scenario.js';
import type { Coordinate, OptionRef, Position } from '../../model/scenario.js';
import type { Placement, Reading, Standing } from '../../solver/answer.js';
import { meetsLimits, shownOf } from '../../solver/explaining/compare.js';
import type { CaseAnswer, Comparison } from '../../solver/explaining/compare.js';
import type { Verdict } from './headline.js';
import { name } from '../../words/text.js';
import { coordinateWords, limitWords } from '../../words/where.js';
import { pairWords, sides, spare, step, unit } from '../../words/words.js';
import type { Telling } from '../../words/words.js';

/** A name from a file takes at most so many columns of a row. */
export const LONGEST_NAME = 24;

/** Undecided while any proof is open, else whether some case fits. */
export function casesVerdict({ standing, cases }: Comparison): Verdict {
  if ([standing, ...cases].some(isOpen)) return 'undecided';
  return cases.some(({ fits }) => fits === 'yes') ? 'fits' : 'does not fit';
}

/** Whether a proof of a case is missing. */
export function isOpen({ clash, placement, fits }: CaseAnswer): boolean {
  if (clash !== undefined) return false;
  if (fits === 'undecided' || placement === undefined) return true;
  return meetsLimits(placement) && placement.best !== 'proved';
}

/** The most to spare first, then the least work, then as asked; what has no place comes last. */
export function ranked(cases: readonly CaseAnswer[]): CaseAnswer[] {
  return [...cases].sort((a, b) => {
    const [left, right] = [bestOf(a), bestOf(b)];
    return left === right ? a.hours - b.hours || a.cost - b.cost : right - left;
  });
}

/** Millimetres to spare at its best; -Infinity where it has no place. */
function bestOf({ placement }: CaseAnswer): number {
  return placement && meetsLimits(placement) ? placement.optimum.margin : -Infinity;
}

/** Millimetres to spare where the case is shown; -Infinity where it has no place. */
export function marginOf({ placement }: CaseAnswer): number {
  return placement && meetsLimits(placement) ? shownOf(placement).margin : -Infinity;
}

/** `3/16`, `short 3/4`, `misses a limit`; with `so far` where more is not ruled out. */
export function marginCell(placement: Placement | undefined, open: boolean, units: Units): string {
  if (placement === undefined) return 'not searched';
  if (!meetsLimits(placement)) return placement.fits === 'no' ? 'misses a limit' : 'none so far';
  return spare(shownOf(placement).margin, units).replace(' to spare', '') + (open ? ' so far' : '');
}

/** `+3/16`, `-1/16`, `0`: a gain rounded down, a loss up; what the proofs cannot tell apart is none. */
export function gainWords(gain: number, units: Units, tolerance: number): string {
  const value = Math.abs(gain) <= tolerance ? 0 : gain;
  const size = tape(Math.abs(value), units, { round: value < 0 ? 'up' : 'down' });
  if (value < 0) return `-${size}${unit(units)}`;
  if (size !== '0') return `+${size}${unit(units)}`;
  return value === 0 ? '0' : `under ${step(units)}`;
}

/** The pair that carries most of the margin, and how many more do; a limit missed comes before it. */
export function bindsWords(standing: Standing, readings: readonly Reading[], t: Telling): string {
  const missed = limitWords(standing, t)[0];
  if (missed !== undefined) return missed;
  const sharing = readings
    .filter(({ share }) => share !== undefined)
    .sort((a, b) => b.share! - a.share!);
  const most = sharing[0] ?? readings[0];
  if (most === undefined) return '';
  const more = Math.max(0, sharing.length - 1);
  return pairWords(most, t) + (more === 0 ? '' : `, ${more} more`);
}

/** A position in a few words, from the datums that `captionPieces` names. */
export function shortWhere(position: Position, telling: Telling): string[] {
  return COORDINATES.map((name) => alongWords(name, position[name], telling));
}

/** One coordinate in a few words: `20 13/16 back`, `on centre`, `3.1 deg tail-down`. */
export function alongWords(along: Coordinate, value: number, telling: Telling): string {
  if (along === 'pitch') return coordinateWords(along, value, telling);
  const { scenario, units } = telling;
  const [right, left] = sides(scenario);
  const words = {
    setback: ['back', 'ahead'],
    offset: [`to ${right}`, `to ${left}`],
    height: ['up', 'down'],
  }[along];
  const from = value - datumOf(along, telling);
  const size = exactTape(Math.abs(from), units);
  if (along === 'offset' && size === '0') return 'on centre';
  return `${size} ${words[from < 0 ? 1 : 0]!}`;
}

/** Where a coordinate is told from: millimetres of the datum that a tape is hooked to. */
export function datumOf(along: Coordinate, { scenario }: Telling): number {
  if (along === 'pitch' || along === 'offset') return 0;
  const axis = AXIS_OF[along];
  return setFrom(axis, 'chassis', scenario)?.[axis] ?? 0;
}

/** What the positions are taken from. */
export function captionPieces({ scenario, look }: Telling): string[] {
  const called = (axis: 'x' | 'z') => {
    const datum = setFrom(axis, 'chassis', scenario);
    return datum === undefined ? 'the origin' : name(datum.name, look, LONGEST_NAME);
  };
  return [`back of ${called('x')}`, `up from ${called('z')}`];
}

export function refWords({ choice, option }: OptionRef, { look }: Telling): string {
  return `${name(choice, look)}: ${name(option, look)}`;
}

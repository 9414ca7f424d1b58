/** What was built, in words: readings, how well a place is known, how far it is off. */

import { degrees, tape } from '../model/tape.js';
import type { Units } from '../model/tape.js';
import { STANCE_MOTIONS, stanceFrom, stanceVector } from '../model/stance.js';
import type { Stance, StanceMotion } from '../model/stance.js';
import type { MeasuredReading } from '../model/measured.js';
import type { AsBuilt, BuiltReading } from '../solver/fitup/as-built.js';
import type { StanceStep } from '../solver/fitup/set-up.js';
import type { Wanted } from '../solver/fitup/observed.js';
import { name } from './text.js';
import { whereWords } from './where.js';
import { countOf, pairWords, sides, spare, unit } from './words.js';
import type { Said, Telling } from './words.js';

const MARK: Readonly<Record<Units, number>> = { in: 1 / 32, mm: 0.5 };

/** A reading by the name that the sheet has for it. */
export function readingWords(reading: Pick<Wanted, 'name'>, { look }: Telling): string {
  return name(reading.name, look, 60);
}

/** What a reading is in the units printed: a length to a fine mark, an angle to a tenth. */
export function readWords(
  { of }: Pick<MeasuredReading, 'of'>,
  value: number,
  units: Units,
): string {
  if (of === 'angle') return `${degrees(value)} deg`;
  return tape(value, units, { round: 'nearest', step: MARK[units] }) + unit(units);
}

/** Each motion as known, `setback 1/32, ... yaw 0.1 deg`, rounded up; `yaw unknown`. */
export function withinWords(within: StanceStep, { units }: Pick<Telling, 'units'>): string {
  return STANCE_MOTIONS.map((motion, k) => {
    const value = within[motion];
    if (!Number.isFinite(value)) return `${motion} unknown`;
    if (k < 3) return `${motion} ${tape(value, units, { round: 'up', step: MARK[units] })}`;
    return `${motion} ${degrees(value, 'up')} deg`;
  }).join(', ');
}

/** How far a stance is from what was meant: `1/8 back, 0.3 deg tail-down`; nothing where it is on it. */
export function offWords(is: Stance, meant: Stance, telling: Telling): string[] {
  const { scenario, units } = telling;
  const [right, left] = sides(scenario);
  const ways: Record<StanceMotion, readonly [string, string]> = {
    setback: ['back', 'forward'],
    offset: [`to ${right}`, `to ${left}`],
    height: ['up', 'down'],
    pitch: ['tail-down', 'tail-up'],
    roll: [`${right} side up`, `${left} side up`],
    yaw: [`tail to ${right}`, `tail to ${left}`],
  };
  return STANCE_MOTIONS.flatMap((motion, k) => {
    const by = is[motion] - meant[motion];
    const way = ways[motion][by > 0 ? 0 : 1];
    if (k >= 3) {
      const size = degrees(Math.abs(by));
      return Number(size) === 0 ? [] : [`${size} deg ${way}`];
    }
    const size = tape(Math.abs(by), units, { round: 'nearest', step: MARK[units] });
    return size === '0' ? [] : [`${size}${unit(units)} ${way}`];
  });
}

/** The first line: go on or set it again, and by what. */
export function builtHeadline(
  { verdict, built, estimate, readings }: AsBuilt,
  telling: Telling,
): Said {
  const { units } = telling;
  const [tightest] = built?.rules ?? [];
  const worst =
    tightest === undefined
      ? 'no rule to keep'
      : `${spare(tightest.reading.margin, units)} give or take ${sureWords(tightest, telling)}: ${pairWords(tightest.reading, telling)}`;
  switch (verdict) {
    case 'go on':
      return { label: 'GO ON.', text: `${worst}.`, tone: 'good' };
    case 'set again': {
      const missed = built!.limits.some(({ broken }) => broken);
      const isShort = tightest !== undefined && tightest.reading.margin + tightest.within < 0;
      const text = isShort || !missed ? worst : 'a limit is not kept';
      return { label: 'SET IT AGAIN.', text: `${text}.`, tone: 'bad' };
    }
    case 'in doubt':
      return { label: 'IN DOUBT.', text: `${worst}.`, tone: 'open' };
    case 'undetermined': {
      const odds = estimate.atOdds.length > 0;
      if (!odds && estimate.open.length === 0) {
        const text = 'Two places fit as well, and not all is kept at both.';
        return { label: 'UNDETERMINED.', text, tone: 'open' };
      }
      const text = odds
        ? `${estimate.atOdds.map((i) => readingWords(readings[i]!, telling)).join(' and ')} contradict each other: tape both again.`
        : `${countOf(readings.length, 'reading')} ${readings.length === 1 ? 'does' : 'do'} not tell ${estimate.open.map(({ motion }) => motion).join(', ')}.`;
      return { label: 'UNDETERMINED.', text, tone: 'open' };
    }
  }
}

/** What is known of the place, to what a tape can tell of it. */
export function sitsWords({ estimate }: AsBuilt, telling: Telling): string[] {
  const { units } = telling;
  const step = units === 'in' ? 25.4 / 32 : 0.5;
  const tenth = Math.PI / 1800;
  const x = stanceVector(estimate.stance).map((value, k) => {
    const mark = k < 3 ? step : tenth;
    return Math.round(value / mark) * mark;
  });
  return whereWords(stanceFrom(x), telling);
}

/** What a reading reads, and what the others say that it should. */
export function contradictedWords(
  { estimate, readings }: AsBuilt,
  i: number,
  { units }: Telling,
): string {
  const reading = readings[i]!;
  const residual = estimate.residuals.find((one) => one.reading === i)!;
  const is = readWords(reading, reading.value, units);
  return `reads ${is}, the others say ${readWords(reading, residual.expected, units)}`;
}

/** How far a rule's gap may be off, rounded up. */
export function sureWords({ within }: BuiltReading, { units }: Telling): string {
  const step = units === 'in' ? 1 / 32 : 0.5;
  return tape(within, units, { round: 'up', step }) + unit(units);
}

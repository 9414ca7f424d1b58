/** What was built, in words: readings, how well a place is known, how far it is off. */

import { degrees, tape } from '../model/text/tape.js';
import type { Units } from '../model/text/tape.js';
import { STANCE_MOTIONS, stanceFrom, stanceVector } from '../model/stance.js';
import type { Stance, StanceMotion } from '../model/stance.js';
import type { MeasuredReading } from '../model/fitup/measured.js';
import { isBroken, isKept } from '../solver/fitup/as-built.js';
import type { AsBuilt, Unused } from '../solver/fitup/as-built.js';
import type { BuiltReading } from '../solver/fitup/sureness.js';
import type { StanceStep } from '../solver/fitup/set-up.js';
import type { Wanted } from '../solver/fitup/observed.js';
import { adjusterName, turnWords } from './fitup.js';
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
export function offWords(
  is: Stance,
  meant: Stance,
  telling: Telling,
  motions: readonly StanceMotion[] = STANCE_MOTIONS,
): string[] {
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
    if (!motions.includes(motion)) return [];
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

/** The first line: go on or set it again, and by which rule. */
export function builtHeadline(found: AsBuilt, telling: Telling): Said {
  const { verdict, built, unchecked } = found;
  const rules = built?.rules ?? [];
  const told = (rule: BuiltReading | undefined, otherwise: string): string =>
    rule === undefined
      ? otherwise
      : `${spare(rule.reading.margin, telling.units)}, +- ${sureWords(rule, telling)}: ${pairWords(rule.reading, telling)}`;
  switch (verdict) {
    case 'go on': {
      const label = unchecked.length === 0 ? 'GO ON.' : 'GO ON, IF READ RIGHT.';
      return { label, text: `${told(rules[0], 'no rule to keep')}.`, tone: 'good' };
    }
    case 'set again': {
      const text = told(rules.find(isBroken), 'a limit is not kept');
      const label = isKeptAsMeant(found) ? 'SET IT AGAIN.' : 'NOT KEPT AS MEANT EITHER.';
      return { label, text: `${text}.`, tone: 'bad' };
    }
    case 'in doubt': {
      const rule = rules.find((one) => !isKept(one));
      const text = told(rule, 'whether a limit is kept');
      return { label: 'IN DOUBT.', text: `${text}.`, tone: 'open' };
    }
    case 'undetermined':
      return { label: 'UNDETERMINED.', text: undetermined(found), tone: 'open' };
  }
}

function undetermined({ readings, unused, estimate }: AsBuilt): string {
  const { atOdds, open } = estimate;
  if (atOdds.length > 0) {
    return `${countOf(atOdds.length, 'reading')} contradict one another: tape them again.`;
  }
  if (open.length === 0) return 'Two places fit as well, and not all is kept at both.';
  const count = readings.length - unused.length;
  const tell = `${countOf(count, 'reading')} ${count === 1 ? 'does' : 'do'} not tell`;
  if (open.length === STANCE_MOTIONS.length) return `${tell} where it is.`;
  return `${tell} ${open.map(({ motion }) => motion).join(', ')}.`;
}

/** Whether every rule that is broken is kept where the engine was meant to sit. */
function isKeptAsMeant({ built }: AsBuilt): boolean {
  return (built?.missedAsMeant.length ?? 0) === 0;
}

/** Why a reading tells nothing here. */
export function unusedWords(why: Unused): string {
  if (why === 'off') return 'a part is off with these options';
  return why === 'may touch' ? 'a rule lets the two touch' : 'no rule measures it so';
}

/** Readings that nothing checks; nothing where every one is checked. */
export function uncheckedWords({ readings, unchecked }: AsBuilt, telling: Telling): string[] {
  if (unchecked.length === 0) return [];
  const which =
    unchecked.length === readings.length
      ? ['no reading checks another']
      : unchecked.map((i) => readingWords(readings[i]!, telling));
  return [...which, 'a misread there would not show'];
}

/** What to do to have it where it was meant: what no adjuster moves first, then what is turned. */
export function againWords(found: AsBuilt, telling: Telling): string[] {
  const { built, estimate, meant } = found;
  const again = built?.again;
  const other = isKeptAsMeant(found)
    ? []
    : ['it is not kept where it was meant either: another place, or other options'];
  if (!again) return other;
  const free = again.free.map(({ motion }) => motion);
  const pushed = offWords(meant, estimate.stance, telling, free);
  const turned = again.adjusters
    .filter(({ turns }) => turns !== 0)
    .map(({ adjuster, turns, inRange }) => {
      const end = inRange ? '' : ', which is past its end';
      return `${adjusterName(adjuster, 24, telling.look)} ${turnWords(turns!)}${end}`;
    });
  const touching = again.touching.map((pair) => {
    return `where it was meant ${pair.map((part) => name(part, telling.look, 24)).join(' - ')} touch`;
  });
  return [
    ...other,
    ...(pushed.length === 0 ? [] : [`push it ${pushed.join(', ')} (no adjuster does)`]),
    ...turned,
    ...touching.slice(0, 1),
  ];
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

/** What was built, in words: readings, how well a place is known, how far it is off. */

import { degrees, tape } from '../model/tape.js';
import type { Units } from '../model/tape.js';
import { STANCE_MOTIONS } from '../model/stance.js';
import type { Stance, StanceMotion } from '../model/stance.js';
import type { MeasuredReading } from '../model/measured.js';
import type { StanceStep } from '../solver/fitup/set-up.js';
import type { Wanted } from '../solver/fitup/observed.js';
import { name } from './text.js';
import { sides, unit } from './words.js';
import type { Telling } from './words.js';

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

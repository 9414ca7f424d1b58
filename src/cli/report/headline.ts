/** The first line: the answer. */

import { tape } from '../../model/tape.js';
import { partUnder, partNames } from '../../model/options.js';
import type { PlaceAnswer } from '../../solver/answer.js';
import type { Line } from './lines.js';
import type { Asked } from './next.js';
import { boundWords, spare } from './words.js';
import type { Telling } from './words.js';

export type Verdict = 'fits' | 'does not fit' | 'undecided';

/** What the answer as a whole says: undecided while any proof of the main answer is open. */
export function verdict(answer: PlaceAnswer): Verdict {
  const { main, anyFits } = answer;
  if (main.fits === 'yes' && main.best === 'proved') return 'fits';
  if (main.fits === 'no' && anyFits === 'no') return 'does not fit';
  return 'undecided';
}

/** The answer in one line. */
export function headline(answer: PlaceAnswer, asked: Asked, telling: Telling): Line {
  const { units } = telling;
  switch (verdict(answer)) {
    case 'fits': {
      const count = partCount(answer, telling);
      const guessed = (telling.guessed ?? []).length;
      const guess = guessed === 0 ? '' : `, ${guessed} guessed`;
      const best = BEST[answer.aim](
        asked.keep === 0 ? 'every rule' : `${tape(asked.keep, units, { round: 'up' })} spare`,
      );
      return {
        label: 'FITS.',
        text: best.endsWith(',')
          ? `Proved ${best} for these ${count} parts${guess === '' ? ' and sizes' : guess}.`
          : `Proved ${best} for the ${count} parts and sizes in this file${guess}.`,
        tone: 'good',
      };
    }
    case 'does not fit': {
      const short = leastShort(answer.bestBound, telling);
      if (short === undefined) {
        return {
          label: 'DOES NOT FIT.',
          text: 'Proved: no position within the ranges meets the limits.',
          tone: 'bad',
        };
      }
      const options = asked.options.length > 0 ? 'with the options asked' : 'with every option';
      return {
        label: 'DOES NOT FIT.',
        text: `Proved: ${short} ${options} (no cuts tried).`,
        tone: 'bad',
      };
    }
    case 'undecided': {
      const best = answer.main.fits === 'yes' ? 'It fits, ' : 'Best so far ';
      const standing = answer.main.setting.fits ? answer.main.setting : answer.main.optimum;
      const open = boundWords(answer.bestBound, units);
      return {
        label: 'UNDECIDED.',
        text: `${best}${spare(standing.margin, units)}; not ruled out: ${open}.`,
        tone: 'open',
      };
    }
  }
}

/** Why an undecided answer is undecided. */
export function whyUndecided(answer: PlaceAnswer, asked: Asked): string {
  const { boxes } = answer.effort;
  if (answer.stopped === 'asked') return `stopped when asked, after ${boxes} boxes`;
  if (answer.stopped === 'time') {
    const limit = asked.timeLimit === undefined ? '' : ` (${asked.timeLimit} s)`;
    return `stopped by the time limit${limit}, after ${boxes} boxes`;
  }
  return `the search ended with bound and best further apart than asked, after ${boxes} boxes`;
}

const BEST: Readonly<Record<PlaceAnswer['aim'], (keeping: string) => string>> = {
  margin: () => 'best',
  centre: (keeping) => `nearest to centre keeping ${keeping},`,
  low: (keeping) => `lowest keeping ${keeping},`,
  back: (keeping) => `rearmost keeping ${keeping},`,
};

/** What is proved of the shortfall: no place and no option leaves it less; undefined if none is. */
function leastShort(bound: number, { units }: Telling): string | undefined {
  // No position at all, or none whose margins were at fault: the limits are.
  if (bound === -Infinity || bound >= 0) return undefined;
  const short = tape(-bound, units, { round: 'down' });
  return short === '0' ? 'short, if by little,' : `at least ${short} short`;
}

function partCount(answer: PlaceAnswer, { scenario }: Telling): number {
  const { options } = answer.main;
  return partNames(scenario).filter((part) => partUnder(scenario, part, options) !== undefined)
    .length;
}

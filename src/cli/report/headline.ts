/** The first line: the answer. */

import { tape } from '../../model/text/tape.js';
import type { PlaceAnswer } from '../../solver/answer.js';
import type { Unruled } from '../../solver/measuring/unruled.js';
import type { Line } from './lines.js';
import type { Asked } from './next.js';
import { provedFor } from './unruled.js';
import { boundWords, countOf, spare, unit } from '../../words/words.js';
import type { Telling } from '../../words/words.js';
import { stoppedBy } from './stopped.js';

export type Verdict = 'fits' | 'does not fit' | 'undecided';

/** What the answer as a whole says: undecided while any proof of the main answer is open. */
export function verdict(answer: PlaceAnswer): Verdict {
  const { main, anyFits } = answer;
  if (main.fits === 'yes' && main.best === 'proved') return 'fits';
  if (main.fits === 'no' && anyFits === 'no') return 'does not fit';
  return 'undecided';
}

/** The answer in one line of 80 columns, whatever the sizes. */
export function headline(
  answer: PlaceAnswer,
  asked: Asked,
  unruled: Unruled,
  telling: Telling,
): Line {
  switch (verdict(answer)) {
    case 'fits':
      return { label: 'FITS.', text: fitsWords(answer, asked, unruled, telling), tone: 'good' };
    case 'does not fit':
      return {
        label: answer.main.optimum.drawn === undefined ? 'DOES NOT FIT.' : 'NOT GUARANTEED.',
        text: shortWords(answer, asked, telling),
        tone: 'bad',
      };
    case 'undecided':
      return { label: 'UNDECIDED.', text: openWords(answer, telling), tone: 'open' };
  }
}

function fitsWords(
  { aim, main }: PlaceAnswer,
  { keep }: Asked,
  unruled: Unruled,
  { units, guessed = [] }: Telling,
): string {
  const guess = guessed.length === 0 ? '' : `, ${guessed.length} guessed`;
  const isWorst = main.optimum.drawn !== undefined;
  if (aim === 'margin' && isWorst) {
    return `Proved best guaranteed for ${provedFor(unruled, 'short')}${guess}.`;
  }
  if (aim === 'margin') return `Proved best for ${provedFor(unruled)}${guess}.`;
  const kept = keep === 0 ? 'every rule' : tape(keep, units, { round: 'up' }) + unit(units);
  const sure = isWorst ? ' at worst' : '';
  return `Proved ${BEST[aim]} keeping ${kept}${sure}, for ${provedFor(unruled, 'short')}${guess}.`;
}

function shortWords(
  { bestBound, main }: PlaceAnswer,
  { options }: Asked,
  { units, scenario }: Telling,
): string {
  // No position at all, or none whose margins were at fault: the limits are.
  if (bestBound === -Infinity || bestBound >= 0) {
    return 'Proved: no position within the ranges meets the limits.';
  }
  // No place and no option leaves it less short.
  const short = tape(-bestBound, units, { round: 'down' });
  const least = short === '0' ? 'short, if by little,' : `at least ${short}${unit(units)} short`;
  if (main.optimum.drawn !== undefined) {
    return `Proved: at worst ${least} with ${options.length > 0 ? 'these options' : 'every option'}.`;
  }
  const which = options.length > 0 ? 'these options' : 'every option';
  const isCut = main.options.some((option, c) => {
    return (scenario.choices[c]!.options[option]!.cuts ?? []).length > 0;
  });
  const cuts = isCut ? 'and these cuts' : options.length > 0 ? '(no cuts)' : '(no cuts tried)';
  return `Proved: ${least} with ${which} ${cuts}.`;
}

function openWords({ main, bestBound }: PlaceAnswer, { units }: Telling): string {
  const { margin } = main.setting.fits ? main.setting : main.optimum;
  if (margin === Infinity) return 'No rule joins any two parts here, so there is nothing to prove.';
  const open = Number.isFinite(bestBound) ? `not ruled out: ${boundWords(bestBound, units)}` : '';
  const rest = open === '' ? 'no bound yet' : open;
  if (margin === -Infinity) return `Nothing found so far; ${rest}.`;
  const worst = main.optimum.drawn === undefined ? '' : 'at worst ';
  const best = (main.fits === 'yes' ? 'It fits, ' : 'Best so far ') + worst;
  return `${best}${spare(margin, units)}; ${rest}.`;
}

/** Why an undecided answer is undecided. */
export function whyUndecided(answer: PlaceAnswer, asked: Asked): string {
  const boxes = countOf(answer.effort.boxes, 'box', 'boxes');
  if (answer.main.optimum.margin === Infinity) return 'a rule may be missing: see `No rule` below';
  if (answer.stopped)
    return `stopped ${stoppedBy(answer.stopped, asked.timeLimit)}, after ${boxes}`;
  return `the search ended with its proof further off than asked, after ${boxes}`;
}

const BEST = { centre: 'nearest centre', low: 'lowest', back: 'rearmost' } as const;

/** The other answers beside the main one, and what the wishes would cost, one piece each. */

import type { PlaceAnswer, Placement, Wish } from '../../solver/answer.js';
import { list } from './lines.js';
import type { Section } from './lines.js';
import { reachWords } from '../../words/where.js';
import { changes, marginWords, settled, workWords } from '../../words/words.js';
import type { Telling } from '../../words/words.js';

/** As it stands | least work | roomiest; then the wishes; then cheaper sets left open. */
export function others(answer: PlaceAnswer, telling: Telling): Section[] {
  const { look } = telling;
  const main = answer.aim === 'margin' ? 'Roomiest' : 'As asked';
  const answers = [
    ...placed('As it stands', answer.asItStands, telling),
    ...leastWork(answer, telling),
    ...placed(main, answer.main, telling),
  ];
  const wishes = answer.wishes.map((wish) => wishWords(wish, telling));
  const open = answer.cheaperUndecided.map((set) => {
    const words = changes(set, telling)
      .map(({ what }) => what)
      .join(', ');
    return `cheaper, not ruled out: ${words === '' ? 'as it stands' : words}`;
  });
  return [
    list('Beside', answers, ' | ', look, { least: 1, yields: 1 }),
    list('Wishes', wishes, ' | ', look, { least: 1, yields: 8 }),
    list('Open', open, ' | ', look, { least: 1, yields: 3 }),
  ];
}

function placed(label: string, placement: Placement | undefined, telling: Telling): string[] {
  if (placement === undefined) return [];
  if (placement.optimum.limits.some((limit) => !limit.met)) return [`${label}: misses a limit`];
  const standing =
    placement.optimum.fits && !placement.setting.fits ? placement.optimum : placement.setting;
  const said = marginWords(standing, telling.units);
  return [`${label}: ${said}${isOpen(placement) ? ' so far, undecided' : ''}`];
}

function isOpen(placement: Placement): boolean {
  return placement.fits === 'undecided' || placement.best === 'undecided';
}

function leastWork(answer: PlaceAnswer, telling: Telling): string[] {
  const { main, anyFits } = answer;
  const least = answer.leastWork;
  if (least === undefined) {
    if (anyFits === 'undecided') return ['Least work: undecided'];
    return anyFits === 'no' ? ['Least work: none fits'] : [];
  }
  if (least.options.join() === main.options.join()) return ['Least work: same'];
  const work = workWords(least.hours, least.cost);
  const label = changes(least.options, telling).length === 0 ? ' (none)' : ` (${work})`;
  return placed(`Least work${work === '' && label !== ' (none)' ? '' : label}`, least, telling);
}

function wishWords(wish: Wish, telling: Telling): string {
  const { standing, fits, aim } = wish;
  const soFar = wish.best === 'undecided' ? ' so far' : '';
  const title = { centre: 'Centred', low: 'Lowest', back: 'Rearmost' }[aim];
  if (aim !== 'centre') {
    if (fits === 'no') return `${title}: no place keeps every rule`;
    if (standing === undefined || fits === 'undecided') return `${title}: undecided`;
    return `${title} ${reachWords(aim, standing.position, telling)}${soFar}`;
  }
  if (standing === undefined) return `${title}: ${fits === 'no' ? 'no such place' : 'undecided'}`;
  const margin = settled(standing.margin);
  const said = marginWords({ ...standing, margin }, telling.units).replace(' to spare', '');
  const words = margin < 0 ? `${title}: ${said}` : `${title} leaves ${said}`;
  return fits === 'undecided' ? `${words} so far, undecided` : `${words}${soFar}`;
}

/** One coordinate moved along: a first line, a drawing, and the rules in charge, stretch by stretch. */

import type { Coordinate } from '../../model/scenario.js';
import { meetsLimits, shownOf } from '../../solver/explaining/compare.js';
import type { Slide, SlidePoint, Stretch } from '../../solver/explaining/slide.js';
import { captionPieces, datumOf, alongWords } from './case-words.js';
import { CAUTION, doPieces, FIRST_SCREEN } from './answer.js';
import type { Verdict } from './headline.js';
import { fold, list, paragraph, whole } from './lines.js';
import type { Line, Section } from './lines.js';
import { plot } from './plot.js';
import { columns } from '../../words/text.js';
import { whereWords } from '../../words/where.js';
import { countOf, pairWords, spare } from '../../words/words.js';
import type { Telling } from '../../words/words.js';
import { stoppedBy } from './stopped.js';

/** Undecided while any proof is open, else whether it fits anywhere along the slide. */
export function slideVerdict({ best, proved }: Slide): Verdict {
  if (!proved) return 'undecided';
  return best.placement.fits === 'yes' ? 'fits' : 'does not fit';
}

export function slideReport(told: Slide, warnings: readonly string[], telling: Telling): Line[] {
  const { look, units } = telling;
  const { along, best, points } = told;
  const flush = (text: string): Line => ({ label: '', text, flush: true });
  const drawing = plot(
    {
      line: points.map((point) => ({ x: point.at, y: marginAt(point) })),
      drawn: 'straight',
      marks: [{ x: best.at, y: marginAt(best), text: look.plain ? 'o' : '◆' }],
      xWords: (at) => sizeWords(at, along, telling),
      yWords: (margin) => spare(margin, units).replace(/ to spare$/, ''),
      xTitle: along === 'setback' || along === 'height' ? datumTitle(along, telling) : along,
    },
    look,
  );
  const where = whereWords(shownOf(best.placement).position, telling);
  const sections = [
    whole([headline(told, telling)]),
    whole(whyOpen(told, telling)),
    whole(drawing.map(flush)),
    list('Best', where, ', ', look, { least: 1, yields: 8 }),
    list('Do', doPieces(best.placement, telling), '; ', look, { least: 1, yields: 9 }),
    stretchSection(told.stretches, along, telling),
    whole([CAUTION]),
  ];
  const { shown, cut } = fold(sections, FIRST_SCREEN);
  const warned = warnings.flatMap((text, w) => paragraph(w === 0 ? 'Warning' : '', text, look));
  return [...shown, ...cut.flatMap((section) => section.lines), ...warned];
}

/** What a length along is taken from. */
function datumTitle(along: 'setback' | 'height', telling: Telling): string {
  return `${along}, ${captionPieces(telling)[along === 'setback' ? 0 : 1]!}`;
}

/** Millimetres to spare at the best place of a point; -Infinity where none meets the limits. */
function marginAt({ placement }: SlidePoint): number {
  return meetsLimits(placement) ? placement.optimum.margin : -Infinity;
}

function headline(told: Slide, telling: Telling): Line {
  const { along, best, fits, points } = told;
  const { units } = telling;
  const shown = shownOf(best.placement);
  const most = spare(marginAt(best) === -Infinity ? -Infinity : shown.margin, units);
  const at = sizeWords(shown.position[along], along, telling);
  if (slideVerdict(told) === 'undecided') {
    return { label: 'UNDECIDED.', text: `Best so far ${most}, at ${at}.`, tone: 'open' };
  }
  if (fits === undefined) {
    const isLimit = marginAt(best) === -Infinity;
    const text = isLimit ? 'no place meets the limits' : `${most} at best, at ${at}`;
    return { label: 'DOES NOT FIT', text: `along here: ${text}. Proved.`, tone: 'bad' };
  }
  const [from, to] = [
    sizeWords(fits.min, along, telling, 'up'),
    sizeWords(fits.max, along, telling, 'down'),
  ];
  const isAll = fits.min <= points[0]!.at && fits.max >= points.at(-1)!.at;
  const label = isAll ? 'FITS ALL ALONG' : 'FITS';
  const texts = [
    `from ${from} to ${to}; best ${at}, ${most}.`,
    `${from} to ${to}; best ${at}, ${most}.`,
    `${from} to ${to}; best ${at}.`,
  ];
  const room = telling.look.width - columns(label) - 1;
  const text = texts.find((one) => columns(one) <= room) ?? texts.at(-1)!;
  return { label, text, tone: 'good' };
}

function whyOpen(told: Slide, { look }: Telling): Line[] {
  if (slideVerdict(told) !== 'undecided') return [];
  const boxes = countOf(told.effort.boxes, 'box', 'boxes');
  const said = told.stopped
    ? `stopped ${stoppedBy(told.stopped)}`
    : 'a search ended with its proof open';
  return paragraph('Why', `${said}, after ${boxes}`, look);
}

/** Up to where which rules carry the margin, from one end to the other. */
function stretchSection(
  stretches: readonly Stretch[],
  along: Coordinate,
  telling: Telling,
): Section {
  const { look } = telling;
  const words = (most: number) =>
    stretches.map(({ range, rules }) => {
      const to = sizeWords(range.max, along, telling);
      const [first, ...others] = rules.map((rule) => pairWords(rule, telling));
      if (first === undefined) return `until ${to}: no place meets the limits`;
      const told = others.slice(0, most);
      const rest = others.length - told.length;
      const more = [...told, ...(rest > 0 ? [`${rest} more`] : [])];
      return `until ${to}: ${first}${more.length === 0 ? '' : ` with ${more.join('; ')}`}`;
    });
  const label = (n: number) => (n === 0 ? 'In charge' : '');
  const full = words(Infinity).flatMap((text, n) => paragraph(label(n), text, look));
  const short = words(0).map((text, n): Line => ({ label: label(n), text }));
  const shorter = (most: number): Line[] => {
    if (short.length <= most) return short;
    const kept = short.slice(0, Math.max(1, most - 1));
    return [...kept, { label: '', text: `${short.length - kept.length} more below` }];
  };
  return { lines: full, shorter, least: Math.min(4, full.length), yields: 1 };
}

/** `1 3/8 to passenger`, `20 13/16 back`, `3.1 deg tail-down`: to a mark, the nearest unless told which way. */
function sizeWords(
  at: number,
  along: Coordinate,
  telling: Telling,
  way: 'nearest' | 'up' | 'down' = 'nearest',
): string {
  const step = along === 'pitch' ? Math.PI / 1800 : telling.units === 'in' ? 25.4 / 16 : 1;
  const round = { nearest: Math.round, up: Math.ceil, down: Math.floor }[way];
  // From the datum, as it is told; a place on a mark stays there.
  const from = datumOf(along, telling);
  const slip = { nearest: 0, up: -1e-6, down: 1e-6 }[way];
  const value = from + round((at - from) / step + slip) * step;
  return alongWords(along, value, telling);
}

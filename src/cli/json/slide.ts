/** A slide and a trade, for programs: JSON, and a slide as CSV for a spreadsheet. */

import type { Coordinate } from '../../model/scenario.js';
import { meetsLimits } from '../../solver/explaining/compare.js';
import type { Frontier } from '../../solver/explaining/frontier.js';
import type { Slide, SlidePoint } from '../../solver/explaining/slide.js';
import type { Placement } from '../../solver/answer.js';
import { bindsJson } from './cases.js';
import { coordinateNumber, length, ratio } from './numbers.js';
import { optionsJson, placementJson, positionJson } from './placement.js';
import type { Numbers } from './numbers.js';
import { clean } from '../../words/text.js';

const WORDS = { fits: 'yes', 'does not fit': 'no', undecided: 'undecided' } as const;
type Verdict = keyof typeof WORDS;

/** The answer of `berth compare --frontier`, least work first. */
export function frontierJson(told: Frontier, verdict: Verdict, n: Numbers): object {
  return {
    title: n.scenario.title,
    units: n.units,
    fits: WORDS[verdict],
    best: told.best,
    bound: length(told.bound, 'up', n),
    tolerance: length(told.tolerance, 'up', n),
    frontier: told.points.map((point) => placeJson(point, n)),
    stopped: told.stopped ?? null,
    effort: told.effort,
  };
}

/** The answer of `berth slide`; `null` stands for a place that is not there. */
export function slideJson(told: Slide, verdict: Verdict, n: Numbers): object {
  const { along, best, fits } = told;
  const at = (value: number) => coordinateNumber(along, value, n);
  return {
    title: n.scenario.title,
    units: n.units,
    along,
    fits: WORDS[verdict],
    proved: told.proved,
    options: optionsJson(told.options, n.scenario),
    hours: told.hours,
    cost: told.cost,
    best: { at: at(best.at), ...placeJson(best.placement, n) },
    fitsFrom: fits === undefined ? null : at(fits.min),
    fitsTo: fits === undefined ? null : at(fits.max),
    points: told.points.map((point) => pointJson(point, at(point.at), n)),
    stretches: told.stretches.map(({ range, rules }) => ({
      from: at(range.min),
      to: at(range.max),
      rules: rules.map(({ between, measured, share }) => ({
        between,
        measured,
        share: share === undefined ? null : ratio(share),
      })),
    })),
    tolerance: length(told.tolerance, 'up', n),
    stopped: told.stopped ?? null,
    effort: told.effort,
  };
}

function placeJson(placement: Placement, n: Numbers): object {
  return { ...placementJson(placement, n), binds: bindsJson(placement) };
}

function pointJson({ placement }: SlidePoint, at: number, n: Numbers): object {
  const { optimum, fits, best, bound } = placement;
  const there = meetsLimits(placement);
  return {
    at,
    fits,
    best,
    margin: there ? length(optimum.margin, 'down', n) : null,
    bound: length(bound, 'up', n),
    position: there ? positionJson(optimum.position, n) : null,
    binds: there ? bindsJson(placement) : [],
  };
}

const COLUMNS = ['setback', 'offset', 'height', 'pitch'] as const satisfies readonly Coordinate[];

/** One line a point: lengths in the units printed, degrees, what binds last. */
export function slideCsv(told: Slide, n: Numbers): string {
  const lines = told.points.map(({ at, placement }) => {
    const { optimum, fits, best, bound } = placement;
    const there = meetsLimits(placement);
    const rules = optimum.readings.filter(({ share }) => share !== undefined);
    return [
      coordinateNumber(told.along, at, n),
      there ? length(optimum.margin, 'down', n) : '',
      length(bound, 'up', n) ?? '',
      fits,
      best,
      ...COLUMNS.map((one) => (there ? coordinateNumber(one, optimum.position[one], n) : '')),
      quoted(
        there ? rules.map(({ between }) => between.map(shownName).join(' - ')).join('; ') : '',
      ),
    ].join(',');
  });
  const head = ['at', 'margin', 'bound', 'fits', 'best', ...COLUMNS, 'binds'].join(',');
  return `${[head, ...lines].join('\n')}\n`;
}

/** A name as a report shows it: a spreadsheet has a terminal's tricks and some of its own. */
function shownName(text: string): string {
  return clean(text, { plain: false });
}

/** As RFC 4180 has it; a leading sign is kept from being read as a formula. */
function quoted(text: string): string {
  const safe = /^[=+\-@\t]/.test(text) ? ` ${text}` : text;
  return /[",\n]|^ /.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

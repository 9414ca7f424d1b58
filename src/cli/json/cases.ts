/** Cases side by side, for programs. */

import type { OptionRef } from '../../model/scenario.js';
import { meetsLimits } from '../../solver/explaining/compare.js';
import type { CaseAnswer, Comparison } from '../../solver/explaining/compare.js';
import { length, ratio } from './numbers.js';
import { optionsJson, placementJson } from './placement.js';
import type { Numbers } from './numbers.js';
import { casesVerdict, ranked } from '../report/case-words.js';

/** The answer of `berth compare`; `gain` is that of the setting, `null` where either has no place. */
export function comparisonJson(comparison: Comparison, n: Numbers): object {
  const { standing, cases, stopped, effort } = comparison;
  const best = ranked(cases.filter(({ clash }) => clash === undefined))[0];
  return {
    title: n.scenario.title,
    units: n.units,
    fits: { fits: 'yes', 'does not fit': 'no', undecided: 'undecided' }[casesVerdict(comparison)],
    best: best?.name ?? null,
    tolerance: length(comparison.tolerance, 'up', n),
    asItStands: caseJson(standing, n),
    cases: cases.map((one) => ({ name: one.name, ...caseJson(one, n) })),
    stopped: stopped ?? null,
    effort,
  };
}

function caseJson({ placement, clash, ...one }: CaseAnswer, n: Numbers): object {
  const place = placement && meetsLimits(placement) ? placement : undefined;
  return {
    fits: one.fits,
    wanted: length(one.wanted, 'up', n),
    gain: one.gain === undefined ? null : length(one.gain, 'down', n),
    options: optionsJson(one.options, n.scenario),
    needs: one.brought,
    apart: clash === undefined ? null : { option: refJson(clash.one), with: refJson(clash.other) },
    hours: one.hours,
    cost: one.cost,
    place: place === undefined ? null : { ...placementJson(place, n), binds: bindsJson(place) },
  };
}

/** The rules that carry the margin, by share. */
export function bindsJson({ optimum }: NonNullable<CaseAnswer['placement']>): object[] {
  return optimum.readings
    .filter(({ binding }) => binding)
    .map(({ between, measured, share }) => ({
      between,
      measured,
      share: share === undefined ? null : ratio(share),
    }));
}

function refJson({ choice, option }: OptionRef): object {
  return { choice, option };
}

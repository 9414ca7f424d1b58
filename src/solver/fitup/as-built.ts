/** What was built: where the engine really sits, every rule there, and whether to go on or set it again. */

import { lengthOf, TURN_ARM } from '../../geometry/adjusters/links.js';
import type { MeasuredReading } from '../../model/fitup/measured.js';
import { partUnder } from '../../model/options.js';
import type { OptionSet, Scenario } from '../../model/scenario.js';
import { STANCE_MOTIONS, stanceVector } from '../../model/stance.js';
import type { Stance } from '../../model/stance.js';
import type { Standing } from '../answer.js';
import { DECISION_SLACK } from '../decision.js';
import { compileBay } from '../measuring/compile.js';
import { readingsAt, standingAt } from '../measuring/measure.js';
import { Meter } from '../measuring/meter.js';
import { keyOf } from '../measuring/reading-key.js';
import { COVERAGE, deviationOf, DISAGREES, estimate } from './estimate.js';
import type { Estimate, Observed } from './estimate.js';
import { bestNext, candidates } from './next-readings.js';
import type { Candidate } from './next-readings.js';
import { expectedOf, observed, PairBook } from './observed.js';
import type { Wanted } from './observed.js';
import { builtLimits, builtRules, slopesOf } from './sureness.js';
import type { BuiltLimit, BuiltReading } from './sureness.js';
import { setUp } from './set-up.js';
import type { SetUp, StanceStep } from './set-up.js';

/** A part is off with these options; the two may touch; or no rule says which way it is taped. */
export type Unused = 'off' | 'may touch' | 'no such rule';

export type AsBuiltVerdict = 'go on' | 'set again' | 'in doubt' | 'undetermined';

export interface AsBuilt {
  readonly verdict: AsBuiltVerdict;
  readonly meant: Stance;
  readonly readings: readonly MeasuredReading[];
  /** Readings that tell nothing here, by index, and why. */
  readonly unused: readonly { readonly reading: number; readonly why: Unused }[];
  /** Readings that no other checks: a misread there would not show. */
  readonly unchecked: readonly number[];
  /** Indexes in it are those of `readings`. */
  readonly estimate: Estimate;
  /** Each motion is known to this much either way; Infinity where nothing tells it. */
  readonly within: StanceStep;
  /** Absent where the place is not determined. */
  readonly built?: {
    readonly standing: Standing;
    /** Tightest first. */
    readonly rules: readonly BuiltReading[];
    readonly limits: readonly BuiltLimit[];
    /** Broken rules that are not kept where it was meant either: setting it there mends none of them. */
    readonly missedAsMeant: readonly BuiltReading[];
    /** The adjusters set again from there to what was meant; absent without a mock-up. */
    readonly again?: SetUp;
  };
  /** What to tape next, the most telling first. */
  readonly next: readonly Wanted[];
}

/** As many readings as are told of at once. */
const MOST_NEXT = 3;

/** Where the readings put an engine that was meant to sit at `meant`. */
export function asBuilt(
  scenario: Scenario,
  set: OptionSet,
  meant: Stance,
  readings: readonly MeasuredReading[],
): AsBuilt {
  const book = new PairBook(scenario, set);
  const all = readings.map((reading) => observed(reading, scenario, book));
  const used = all.flatMap((one, i) => (one ? [i] : []));
  const found = named(
    estimate(
      used.map((i) => all[i]!),
      meant,
    ),
    used,
  );
  const { stance, open } = found;
  const within = withinOf(found);
  const base = {
    meant,
    readings,
    unused: all.flatMap((one, reading) =>
      one ? [] : [{ reading, why: whyUnused(readings[reading]!, scenario, set) }],
    ),
    unchecked: uncheckedBy(found, readings),
    estimate: found,
    within,
  };
  const done = new Set(readings.map(({ name }) => name));
  const could = () => candidates(scenario, book, stance, done);
  const rows = () => rowsOf(all, used, found);
  if (open.length > 0 || found.atOdds.length > 0) {
    const most = found.atOdds.length > 0 ? 1 : Math.max(open.length, 1);
    return { ...base, verdict: 'undetermined', next: bestNext(could(), rows(), most) };
  }
  const meter = new Meter(compileBay(scenario, { allowed: set.map((option) => [option]) }));
  const here = builtAt(meter, set, found);
  const elsewhere = found.rivals.map((rival) => builtAt(meter, set, { ...found, stance: rival }));
  const again = scenario.mockup && setAgain(scenario, scenario.mockup, set, stance, meant);
  const { verdict: own, ...rest } = here;
  const missedAsMeant = missedAt(meter, set, here.rules, meant);
  const built = { ...rest, missedAsMeant, ...(again && { again }) };
  // Where several places fit as well, what holds at all of them is told.
  const verdict = elsewhere.every((one) => one.verdict === own) ? own : 'undetermined';
  return { ...base, verdict, built, next: nextOf() };

  function nextOf(): readonly Wanted[] {
    const [rival] = found.rivals;
    if (rival) return tellingApart(could(), scenario, book, stance, rival);
    if (verdict !== 'in doubt') return [];
    const doubtful = here.rules.find((rule) => !isKept(rule) && rule.reading.slope);
    const slope = doubtful?.reading.slope;
    return slope ? bestNext(could(), rows(), MOST_NEXT, slopesOf(slope)) : [];
  }
}

/** Readings of which a gross misread would not stand out: the least that does grows as others tell less of it. */
function uncheckedBy(
  { residuals, doubtful, open }: Estimate,
  readings: readonly MeasuredReading[],
): readonly number[] {
  if (open.length > 0) return [];
  return residuals.flatMap(({ reading, checked }) => {
    const { of, error } = readings[reading]!;
    const shows = (deviationOf(error) * DISAGREES) / Math.sqrt(checked);
    const isSeen = shows <= MISREAD[of === 'angle' ? 'angle' : 'length'];
    return isSeen || doubtful.includes(reading) ? [] : [reading];
  });
}

/** A gross misread: half an inch, or a degree. */
const MISREAD = { length: 12.7, angle: Math.PI / 180 };

function whyUnused(reading: MeasuredReading, scenario: Scenario, set: OptionSet): Unused {
  if (reading.of !== 'gap') return 'off';
  const stands = reading.between.every((part) => partUnder(scenario, part, set) !== undefined);
  if (!stands) return 'off';
  return reading.measured === 'nearest' ? 'may touch' : 'no such rule';
}

/** Every rule and limit where the engine is taken to sit. */
function builtAt(meter: Meter, set: OptionSet, found: Estimate) {
  const standing = standingAt(meter, set, stanceVector(found.stance));
  const rules = builtRules(meter, set, standing, found);
  const limits = builtLimits(meter, set, standing, found);
  return { standing, rules, limits, verdict: verdictOf(rules, limits) };
}

/** Of the rules that are broken for sure, those that are not kept where the engine was meant to sit either. */
function missedAt(
  meter: Meter,
  set: OptionSet,
  rules: readonly BuiltReading[],
  meant: Stance,
): readonly BuiltReading[] {
  const broken = rules.filter(isBroken);
  const keys = new Set(broken.map(({ reading }) => keyOf(reading)));
  const there = readingsAt(meter, set, stanceVector(meant), (group) => keys.has(keyOf(group)));
  const still = new Set(there.filter(({ margin }) => margin < -DECISION_SLACK).map(keyOf));
  return broken.filter(({ reading }) => reading.fixed || still.has(keyOf(reading)));
}

/** The one reading that differs the most between two places, in its own standard deviations. */
function tellingApart(
  all: readonly Candidate[],
  scenario: Scenario,
  book: PairBook,
  here: Stance,
  there: Stance,
): readonly Wanted[] {
  const apart = all.map(({ wanted, deviation }) => {
    const expected = expectedOf(wanted, scenario, book)!;
    return Math.abs(expected(here).value - expected(there).value) / deviation;
  });
  const best = apart.reduce((a, value, k) => (value > apart[a]! ? k : a), 0);
  return apart[best]! > COVERAGE ? [all[best]!.wanted] : [];
}

/** An estimate by the readings that were used, as one by all of them. */
function named(found: Estimate, used: readonly number[]): Estimate {
  const back = (i: number) => used[i]!;
  return {
    ...found,
    residuals: found.residuals.map((one) => ({ ...one, reading: back(one.reading) })),
    doubtful: found.doubtful.map(back),
    atOdds: found.atOdds.map(back),
  };
}

function rowsOf(
  all: readonly (Observed | undefined)[],
  used: readonly number[],
  { stance, doubtful }: Estimate,
): number[][] {
  return used
    .filter((i) => !doubtful.includes(i))
    .map((i) => {
      const { expected, deviation } = all[i]!;
      return Array.from(expected(stance).slopes, (slope) => slope / deviation);
    });
}

function withinOf({ covariance, open }: Estimate): StanceStep {
  const isOpen = (k: number) =>
    open.some(({ motion, brings }) => {
      const name = STANCE_MOTIONS[k]!;
      return motion === name || brings.some((one) => one.motion === name);
    });
  const entries = STANCE_MOTIONS.map((motion, k) => {
    const own = COVERAGE * Math.sqrt(Math.max(0, covariance[k]![k]!));
    return [motion, isOpen(k) ? Infinity : k < 3 ? own : own / TURN_ARM] as const;
  });
  return Object.fromEntries(entries) as StanceStep;
}

/**
 * Set again where a rule or limit is broken for sure; go on where all are kept with what is not known taken off. A
 * limit missed by less than anyone sets an engine, and less than can be told, is let pass: engines are set on them.
 */
function verdictOf(rules: readonly BuiltReading[], limits: readonly BuiltLimit[]): AsBuiltVerdict {
  if (rules.some(isBroken) || limits.some(({ kept }) => kept === 'no')) return 'set again';
  return rules.every(isKept) && limits.every(({ kept }) => kept !== 'perhaps')
    ? 'go on'
    : 'in doubt';
}

/** Broken even with what is not known added. */
export function isBroken({ reading, within }: BuiltReading): boolean {
  return reading.margin + within < -DECISION_SLACK;
}

/** Kept even with what is not known taken off. */
export function isKept({ reading, within }: BuiltReading): boolean {
  return reading.margin - within >= -DECISION_SLACK;
}

/** The mock-up set from where it really is, its lengths now being those of that place. */
function setAgain(
  scenario: Scenario,
  mockup: NonNullable<Scenario['mockup']>,
  set: OptionSet,
  from: Stance,
  to: Stance,
): SetUp {
  const adjusters = mockup.adjusters.map((one) => ({ ...one, now: lengthOf(one, from) }));
  return setUp(scenario, { ...mockup, adjusters }, set, to, { order: false });
}

/** What was built: where the engine really sits, every rule there, and whether to go on or set it again. */

import {
  lengthOf,
  scaledSlopes,
  scaledStance,
  TURN_ARM,
  unscaledStance,
} from '../../geometry/adjusters/links.js';
import type { MeasuredReading } from '../../model/measured.js';
import type { OptionSet, Scenario } from '../../model/scenario.js';
import { STANCE_MOTIONS, stanceVector } from '../../model/stance.js';
import type { Stance } from '../../model/stance.js';
import type { LimitReading, Reading, Standing } from '../answer.js';
import { DECISION_SLACK } from '../decision.js';
import { compileBay } from '../measuring/bay.js';
import { limitValue } from '../measuring/limits.js';
import type { ReadyLimit } from '../measuring/limits.js';
import { standingAt } from '../measuring/measure.js';
import { Meter } from '../measuring/meter.js';
import { COVERAGE, estimate, quadratic } from './estimate.js';
import type { Estimate, Observed } from './estimate.js';
import { bestNext, candidates } from './next-readings.js';
import type { Candidate } from './next-readings.js';
import { expectedOf, observed, PairBook } from './observed.js';
import type { Wanted } from './observed.js';
import { setUp } from './set-up.js';
import type { SetUp, StanceStep } from './set-up.js';

export type AsBuiltVerdict = 'go on' | 'set again' | 'in doubt' | 'undetermined';

/** A rule where the engine is taken to sit. */
export interface BuiltReading {
  readonly reading: Reading;
  /** The margin may be off by this much, mm; 0 where no position changes it. */
  readonly within: number;
}

/** A limit where the engine is taken to sit: its value may be off by `within`. */
export interface BuiltLimit {
  readonly reading: LimitReading;
  readonly within: number;
  /** Missed by more than its value may be off. */
  readonly broken: boolean;
}

export interface AsBuilt {
  readonly verdict: AsBuiltVerdict;
  readonly meant: Stance;
  readonly readings: readonly MeasuredReading[];
  /** Readings of pairs that do not stand with these options, by index. */
  readonly unused: readonly number[];
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
    unused: all.flatMap((one, i) => (one ? [] : [i])),
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
  const built = { ...rest, ...(again && { again }) };
  // Where several places fit as well, what holds at all of them is told.
  const verdict = elsewhere.every((one) => one.verdict === own) ? own : 'undetermined';
  return { ...base, verdict, built, next: nextOf() };

  function nextOf(): readonly Wanted[] {
    const [rival] = found.rivals;
    if (rival) return tellingApart(could(), scenario, book, stance, rival);
    if (verdict !== 'in doubt') return [];
    const doubtful = here.rules.find(({ reading, within: by }) => Math.abs(reading.margin) < by);
    const slope = doubtful?.reading.slope;
    return slope ? bestNext(could(), rows(), MOST_NEXT, slopesOf(slope)) : [];
  }
}

/** Every rule and limit where the engine is taken to sit. */
function builtAt(meter: Meter, set: OptionSet, found: Estimate) {
  const standing = standingAt(meter, set, stanceVector(found.stance));
  const rules = standing.readings.map((reading) => builtReading(reading, found));
  const limits = builtLimits(meter, set, standing, found);
  return { standing, rules, limits, verdict: verdictOf(rules, limits) };
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

function builtReading(reading: Reading, { covariance }: Estimate): BuiltReading {
  const { slope } = reading;
  if (!slope) return { reading, within: 0 };
  const own = quadratic(covariance, slopesOf(slope));
  return { reading, within: COVERAGE * Math.sqrt(Math.max(0, own)) };
}

function slopesOf(slope: Stance): Float64Array {
  return scaledSlopes(stanceVector(slope));
}

/** Millimetres, and radians by TURN_ARM: steps for the slope of a limit's value. */
const STEP = 0.05;

/** Limits with how far their values may be off, by differences: some of them are no plain sum. */
function builtLimits(
  meter: Meter,
  set: OptionSet,
  { limits }: Standing,
  { covariance, stance }: Estimate,
): readonly BuiltLimit[] {
  const ready = meter.contactsOf(set).limits;
  const x = scaledStance(stance);
  const at = (limit: ReadyLimit, k: number, by: number): number => {
    const moved = unscaledStance(x.map((value, j) => (j === k ? value + by : value)));
    return limitValue(limit, set, stanceVector(moved))!;
  };
  return limits.map((reading): BuiltLimit => {
    const own = ready.find(({ limit }) => limit === reading.limit)!;
    const slopes = x.map((_, k) => (at(own, k, STEP) - at(own, k, -STEP)) / (2 * STEP));
    const within = COVERAGE * Math.sqrt(Math.max(0, quadratic(covariance, slopes)));
    const { min, max } = reading.limit;
    const past = Math.max(min - reading.value, reading.value - max);
    return { reading, within, broken: !reading.met && past > within };
  });
}

/**
 * Set again where a rule or limit is broken for sure; go on where every rule is kept with what is not known taken
 * off. A limit missed by less than its value may be off is let pass: engines are set right on them.
 */
function verdictOf(rules: readonly BuiltReading[], limits: readonly BuiltLimit[]): AsBuiltVerdict {
  const isBroken = ({ reading, within }: BuiltReading) => reading.margin + within < -DECISION_SLACK;
  if (rules.some(isBroken) || limits.some(({ broken }) => broken)) return 'set again';
  const isKept = ({ reading, within }: BuiltReading) => reading.margin - within >= -DECISION_SLACK;
  return rules.every(isKept) ? 'go on' : 'in doubt';
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
  return setUp(scenario, { ...mockup, adjusters }, set, to);
}

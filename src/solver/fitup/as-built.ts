/** What was built: where the engine really sits, every rule there, and whether to go on or set it again. */

import { lengthOf, scaledSlopes, TURN_ARM } from '../../geometry/adjusters/links.js';
import type { MeasuredReading } from '../../model/measured.js';
import type { OptionSet, Scenario } from '../../model/scenario.js';
import { STANCE_MOTIONS, stanceVector } from '../../model/stance.js';
import type { Stance } from '../../model/stance.js';
import type { Reading, Standing } from '../answer.js';
import { DECISION_SLACK } from '../decision.js';
import { measureAt } from '../measuring/measure.js';
import { COVERAGE, estimate, quadratic } from './estimate.js';
import type { Estimate, Observed } from './estimate.js';
import { bestNext, candidates } from './next-readings.js';
import { observed, PairBook } from './observed.js';
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
  const standing = measureAt(scenario, set, stance);
  const rules = standing.readings.map((reading) => builtReading(reading, found));
  const verdict = verdictOf(standing, rules);
  const again = scenario.mockup && setAgain(scenario, scenario.mockup, set, stance, meant);
  const built = { standing, rules, ...(again && { again }) };
  if (verdict !== 'in doubt') return { ...base, verdict, built, next: [] };
  const doubtful = rules.filter(({ reading, within: by }) => Math.abs(reading.margin) < by);
  const slope = doubtful[0]?.reading.slope;
  const next = slope ? bestNext(could(), rows(), MOST_NEXT, slopesOf(slope)) : [];
  return { ...base, verdict, built, next };
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

/** Go on where every rule is kept with what is not known taken off; set again where one is broken for sure. */
function verdictOf(standing: Standing, rules: readonly BuiltReading[]): AsBuiltVerdict {
  const isBroken = ({ reading, within }: BuiltReading) => reading.margin + within < -DECISION_SLACK;
  if (rules.some(isBroken) || standing.limits.some(({ met }) => !met)) return 'set again';
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

/** The mock-up set to a place: how long each adjuster is there, what to turn, and in which order. */

import { freedomOf, independentLinks } from '../../geometry/adjusters/freedom.js';
import type { FreeMotion } from '../../geometry/adjusters/freedom.js';
import {
  leastSquares,
  lengthOf,
  lengthSlopes,
  stanceOfLengths,
  TURN_ARM,
} from '../../geometry/adjusters/links.js';
import { dot } from '../../geometry/singular.js';
import type { Adjuster, Mockup } from '../../model/mockup.js';
import type { OptionSet, Scenario } from '../../model/scenario.js';
import { STANCE_MOTIONS } from '../../model/stance.js';
import type { Stance, StanceMotion } from '../../model/stance.js';
import { holdsAt, orderOfMoves } from './moves.js';
import type { Order } from './moves.js';
import { restingGap, restingMeetings } from './resting.js';

/** Parts of a turn that a hand sets. */
export const TURN_PARTS = 8;

/** Millimetres by which taped lengths may disagree before it is said. */
const AGREES = 1.5;

/** Millimetres: solids at rest this far inside one another touch. */
const TOUCHES = -1e-6;

/** What a step of one adjuster does: millimetres, and radians for turns. */
export type StanceStep = Readonly<Record<StanceMotion, number>>;

interface AdjusterSetting {
  readonly adjuster: Adjuster;
  /** From point to point where the engine is to be. */
  readonly length: number;
  readonly inRange: boolean;
  /** Turns from now, in eighths, longer positive; absent where it is not said how long it is now. */
  readonly turns?: number;
  /** What a quarter turn longer does there. */
  readonly quarter: StanceStep;
  /** What other adjusters must be turned with it, as shares of its own way: it binds otherwise. */
  readonly follows: readonly { readonly adjuster: number; readonly by: number }[];
}

export interface SetUp {
  readonly target: Stance;
  readonly adjusters: readonly AdjusterSetting[];
  /** Motions that no adjuster holds. */
  readonly free: readonly FreeMotion[];
  /** How many adjusters there are beyond those that are independent. */
  readonly spare: number;
  /** Pairs that touch where the engine is to be. */
  readonly touching: readonly (readonly [string, string])[];
  /** Where the engine is now, and what turning it comes to; absent where lengths now are not said. */
  readonly now?: {
    readonly stance: Stance;
    /** The most that a taped length is off the others, mm, where that is more than taping. */
    readonly off?: number;
    /** Where it is after turning, turns being eighths. */
    readonly lands: Stance;
    readonly order: Order;
  };
}

/** Sets the mock-up of a scenario to a stance, under one set of options. */
export function setUp(scenario: Scenario, mockup: Mockup, set: OptionSet, target: Stance): SetUp {
  const { adjusters } = mockup;
  const meetings = restingMeetings(scenario, set, [...mockup.off, ...mockup.without]);
  const rows = adjusters.map((one) => lengthSlopes(one, target));
  const settings = adjusters.map((adjuster, i) => settingOf(adjuster, i, rows, target));
  const touching = meetings
    .filter((one) => restingGap(one, target).lower < TOUCHES)
    .map(({ between }) => between);
  const known = adjusters.every(({ now }) => now !== undefined);
  return {
    target,
    adjusters: settings,
    free: freedomOf(adjusters, target).motions,
    spare: adjusters.length - independentLinks(rows).length,
    touching: unique(touching),
    ...(known && { now: fromNow() }),
  };

  function fromNow(): NonNullable<SetUp['now']> {
    const holds = holdsAt(adjusters, target);
    const lengths = adjusters.map(({ now }) => now!);
    const { stance, off } = stanceOfLengths(adjusters, lengths, target, holds);
    const turned = settings.map(({ turns, adjuster }) => adjuster.now! + turns! * adjuster.lead);
    const lands = stanceOfLengths(adjusters, turned, target, holds).stance;
    return {
      stance,
      ...(off > AGREES && { off }),
      lands,
      // Where it cannot sit there is no way to go.
      order:
        touching.length > 0
          ? { moves: [], found: false, looked: 0 }
          : orderOfMoves(adjusters, stance, lands, holds, meetings),
    };
  }
}

function settingOf(
  adjuster: Adjuster,
  index: number,
  rows: readonly Float64Array[],
  target: Stance,
): AdjusterSetting {
  const length = lengthOf(adjuster, target);
  const { range, lead, now } = adjuster;
  const { step, shares } = stepOf(index, lead / 4, rows);
  return {
    adjuster,
    length,
    inRange: length >= range.min && length <= range.max,
    ...(now !== undefined && { turns: turnsOf(length - now, adjuster) }),
    quarter: step,
    follows: shares.flatMap((by, other) => {
      return other === index || Math.abs(by) < BINDS ? [] : [{ adjuster: other, by }];
    }),
  };
}

/** A share of an adjuster's way that another has to give way by, to be worth telling. */
const BINDS = 0.02;

/** Turns, in eighths, that come nearest to so many millimetres. */
export function turnsOf(by: number, { lead }: Pick<Adjuster, 'lead'>): number {
  return Math.round((by / lead) * TURN_PARTS) / TURN_PARTS;
}

/**
 * What it does to lengthen one link by `by`: with P the projection on what lengths can be together, the others
 * go by P_ji / P_ii of it, which is nothing where all are independent; motions that no link holds stay.
 */
function stepOf(
  index: number,
  by: number,
  rows: readonly Float64Array[],
): { readonly step: StanceStep; readonly shares: readonly number[] } {
  const own = rows.map((_, i) => (i === index ? 1 : 0));
  const free = leastSquares(rows, own);
  const can = rows.map((row) => dot(row, free));
  const shares = can.map((share) => (can[index]! > 0 ? share / can[index]! : 0));
  const scaled = free.map((value) => (can[index]! > 0 ? (value / can[index]!) * by : 0));
  const entries = STANCE_MOTIONS.map((motion, k) => {
    return [motion, k < 3 ? scaled[k]! : scaled[k]! / TURN_ARM] as const;
  });
  return { step: Object.fromEntries(entries) as StanceStep, shares };
}

function unique(pairs: readonly (readonly [string, string])[]): (readonly [string, string])[] {
  return [...new Map(pairs.map((pair) => [pair.join('\u0000'), pair])).values()];
}

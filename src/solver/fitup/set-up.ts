/** The mock-up set to a place: how long each adjuster is there, what to turn, and in which order. */

import { BARELY, freedomOf, independentLinks } from '../../geometry/adjusters/freedom.js';
import type { FreeMotion } from '../../geometry/adjusters/freedom.js';
import {
  leastSquares,
  lengthOf,
  lengthSlopes,
  stanceOfLengths,
  TURN_ARM,
} from '../../geometry/adjusters/links.js';
import { dot } from '../../geometry/singular.js';
import { canBe } from '../../model/fitup/mockup.js';
import type { Adjuster, Mockup } from '../../model/fitup/mockup.js';
import type { OptionSet, Scenario } from '../../model/scenario.js';
import { STANCE_MOTIONS } from '../../model/stance.js';
import type { Stance, StanceMotion } from '../../model/stance.js';
import { holdsAt, orderOfMoves } from './moves.js';
import type { KeepOn, Move, Order } from './moves.js';
import { restingGap, restingMeetings } from './resting.js';

/** Parts of a turn that a hand sets. */
export const TURN_PARTS = 8;

/** Millimetres by which taped lengths may disagree before it is said. */
const AGREES = 1.5;

/** Millimetres: solids at rest this far inside one another touch. */
const TOUCHES = 1e-6;

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
    readonly order: TurnedOrder;
    /** Pairs that the lengths now would have inside one another by more than taping errs. */
    readonly impossible: readonly (readonly [string, string])[];
  };
}

/** A move in eighths of a turn, longer positive, the adjuster that leads first. */
export interface TurnedMove extends Omit<Move, 'turned'> {
  readonly turned: readonly { readonly adjuster: number; readonly turns: number }[];
}

interface TurnedOrder extends Omit<Order, 'moves'> {
  readonly moves: readonly TurnedMove[];
}

/** How a set-up is worked out: whether in which order, and for how long. */
export interface SetUpRequest {
  readonly order?: boolean;
  readonly keepOn?: KeepOn;
}

/** Sets the mock-up of a scenario to a stance, under one set of options. */
export function setUp(
  scenario: Scenario,
  mockup: Mockup,
  set: OptionSet,
  target: Stance,
  request: SetUpRequest = {},
): SetUp {
  const { adjusters } = mockup;
  const meetings = restingMeetings(scenario, set, [...mockup.off, ...mockup.without]);
  const rows = adjusters.map((one) => lengthSlopes(one, target));
  const settings = adjusters.map((adjuster, i) => settingOf(adjuster, i, rows, target));
  const inside = (stance: Stance, by: number) =>
    unique(meetings.filter((one) => restingGap(one, stance).lower < -by).map((one) => one.between));
  const base = {
    target,
    adjusters: settings,
    free: freedomOf(adjusters, target).motions,
    spare: adjusters.length - independentLinks(rows).length,
  };
  const touching = inside(target, TOUCHES);
  if (adjusters.some(({ now }) => now === undefined)) return { ...base, touching };
  const holds = holdsAt(adjusters, target);
  const fitted = (lengths: readonly number[]) => stanceOfLengths(adjusters, lengths, target, holds);
  const { stance, off } = fitted(adjusters.map(({ now }) => now!));
  const turned = settings.map(({ turns, adjuster }) => adjuster.now! + turns! * adjuster.lead);
  const lands = fitted(turned).stance;
  const impossible = off > AGREES ? [] : inside(stance, AGREES);
  // Turns are eighths: where they come to may touch though the place itself does not.
  const all = unique([...touching, ...inside(lands, TOUCHES)]);
  const canGo = all.length === 0 && impossible.length === 0 && off <= AGREES;
  const order =
    request.order === false || !canGo
      ? NO_ORDER
      : inTurns(orderOfMoves(adjusters, stance, lands, holds, meetings, request.keepOn), settings);
  return {
    ...base,
    touching: all,
    now: { stance, lands, order, impossible, ...(off > AGREES && { off }) },
  };
}

const NO_ORDER: TurnedOrder = { moves: [], found: false, looked: 0 };

/**
 * Moves told in eighths of a turn. Each rounds what has been turned so far, and the last move of an adjuster
 * comes to all that it is to be turned, so that the moves add up.
 */
function inTurns({ moves, ...order }: Order, settings: readonly AdjusterSetting[]): TurnedOrder {
  const last = settings.map((_, i) =>
    moves.findLastIndex(({ turned }) => turned.some(({ adjuster }) => adjuster === i)),
  );
  // Taped lengths may err by an eighth where the way has none to turn.
  const left = settings.flatMap(({ turns }, adjuster) =>
    last[adjuster] === -1 && turns !== 0 ? [{ adjuster, turns: turns! }] : [],
  );
  const by = settings.map(() => 0);
  const told = settings.map(() => 0);
  const inEighths = moves.map((move, m): TurnedMove => {
    const turned = move.turned.map(({ adjuster, by: mm }) => {
      const setting = settings[adjuster]!;
      by[adjuster]! += mm;
      const all =
        m === last[adjuster] ? setting.turns! : turnsOf(by[adjuster]!, setting.adjuster.lead);
      const turns = all - told[adjuster]!;
      told[adjuster] = all;
      return { adjuster, turns };
    });
    return { ...move, turned: [...turned, ...(m === moves.length - 1 ? left : [])] };
  });
  return { ...order, moves: inEighths };
}

function settingOf(
  adjuster: Adjuster,
  index: number,
  rows: readonly Float64Array[],
  target: Stance,
): AdjusterSetting {
  const length = lengthOf(adjuster, target);
  const { lead } = adjuster;
  const { step, shares } = stepOf(index, lead / 4, rows);
  return {
    adjuster,
    length,
    inRange: canBe(adjuster, length),
    ...(adjuster.now !== undefined && { turns: turnsWithin(adjuster, adjuster.now, length) }),
    quarter: step,
    follows: shares.flatMap((by, other) => {
      return other === index || Math.abs(by) < BINDS ? [] : [{ adjuster: other, by }];
    }),
  };
}

/** Turns from one length to another, the nearest eighths; an eighth less where they would leave the range. */
function turnsWithin(adjuster: Adjuster, now: number, length: number): number {
  const turns = turnsOf(length - now, adjuster.lead);
  if (!canBe(adjuster, length) || canBe(adjuster, now + turns * adjuster.lead)) return turns;
  return turns - Math.sign(length - (adjuster.range.min + adjuster.range.max) / 2) / TURN_PARTS;
}

/** A share of an adjuster's way that another has to give way by, to be worth telling. */
const BINDS = 0.02;

/** Turns, in eighths, that come nearest to so many millimetres. */
export function turnsOf(by: number, lead: number): number {
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
  const free = leastSquares(rows, own, BARELY);
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

/**
 * What the solver says, as plain data: millimetres and radians, no words.
 *
 * Verdicts have three values. `yes` and `no` are proved for the parts and sizes in the file;
 * `undecided` says that the search stopped first, and `PlaceAnswer.stopped` says why.
 */

import type {
  Box,
  Coordinate,
  Limit,
  Measure,
  OptionSet,
  Position,
  PositionRanges,
  Rule,
} from '../model/scenario.js';
import type { Seat, Stance } from '../model/stance.js';

export type Verdict = 'yes' | 'no' | 'undecided';

/** One rule measured at one position: what a tape reads, what use leaves, and what is needed. */
export interface Reading {
  /** The two parts, engine part first where the rule joins the two sides. */
  readonly between: readonly [string, string];
  readonly measured: Measure;
  readonly comingOut: boolean;
  /** The part that comes out, and the room it needs for that in its own frame. */
  readonly withdrawn?: { readonly part: string; readonly room: Box };
  readonly rule: Rule;
  readonly needed: number;
  /** Least gap over all motions; the lower end where a motion is bracketed. */
  readonly gap: number;
  readonly atRest: number;
  /** `gap - needed`. */
  readonly margin: number;
  /** True when no position can change it: a rule between parts of one side. */
  readonly fixed: boolean;
  readonly binding: boolean;
  /** Margin gained per unit of room given at this rule, where it binds; shares sum to 1. */
  readonly share?: number;
  /**
   * Where shares are not unique: room given at this rule alone gains the least, room taken costs the most.
   */
  readonly shareRange?: { readonly least: number; readonly most: number };
  /**
   * The way this rule wants the engine to go: change of its gap per millimetre (per radian for
   * pitch, roll and yaw). Absent where `fixed`.
   */
  readonly slope?: Stance;
  /** The margin in the worst case of the file's measuring errors; absent where it has none. */
  readonly guaranteed?: number;
  /** The same as drawn, where the worst case is what was measured. */
  readonly drawn?: Pick<Reading, 'gap' | 'atRest' | 'margin'>;
}

/** One limit at one position: millimetres, or radians where it limits pitch. */
export interface LimitReading {
  readonly limit: Limit;
  readonly value: number;
  readonly met: boolean;
}

/** One position measured: all its numbers are exact at `position`. */
export interface Standing {
  /** A stance where the engine was measured with roll or yaw. */
  readonly position: Seat;
  /** Least margin over every rule, fixed ones included; Infinity when there is no rule. */
  readonly margin: number;
  /** Whether every rule and limit is met at this very position. */
  readonly fits: boolean;
  /** Tightest first. */
  readonly readings: readonly Reading[];
  /** In the file's order, then those that options bring. */
  readonly limits: readonly LimitReading[];
  /** The least guaranteed margin; absent where the file has no measuring error. */
  readonly guaranteed?: number;
  /** The least margin as drawn, where the worst case is what was measured. */
  readonly drawn?: Pick<Standing, 'margin'>;
}

/** The best place found under one set of options, and what is proved of it. */
export interface Placement {
  readonly options: OptionSet;
  readonly hours: number;
  readonly cost: number;
  /** Whether any position fits under these options. */
  readonly fits: Verdict;
  /** `proved`: `bound - margin` is within the tolerance. */
  readonly best: 'proved' | 'undecided';
  /** The optimum, coordinates rounded to what is printed and measured there. */
  readonly optimum: Standing;
  /** The position as a builder sets it, with margins of its own. */
  readonly setting: Standing;
  /** No position within the limits exceeds this margin under these options. */
  readonly bound: number;
}

/** What keeps one side of the slack from growing. */
export type Stop =
  | {
      readonly by: 'rule';
      readonly rule: Pick<Reading, 'between' | 'measured' | 'comingOut'>;
    }
  | { readonly by: 'limit'; readonly limit: Limit }
  /** The end of the range searched. */
  | { readonly by: 'range' }
  /** Nothing: it was left there, and may go further. */
  | { readonly by: 'effort' };

/** How far a coordinate may go one way from the setting. */
export interface SlackSide {
  /** Millimetres, radians for pitch; 0 or more. */
  readonly room: number;
  readonly stop: Stop;
  /** A place one step further out where the stop's margin or limit is missed, where one was found. */
  readonly missedAt?: Position;
}

/**
 * Room to set it: every rule and limit is kept at every position whose coordinates lie within these of
 * the setting's, all at once. Grown evenly on all sides, so that no side has another step to give.
 */
export interface Slack {
  readonly down: Readonly<Record<Coordinate, SlackSide>>;
  readonly up: Readonly<Record<Coordinate, SlackSide>>;
}

/** Places as good as the answer that no way as good leads to. */
export interface OtherPlaces {
  /** The best first. */
  readonly places: readonly Placement[];
  /** Millimetres: the margin that counts as good. */
  readonly reach: number;
  /**
   * The box about the answer: outside it is elsewhere, for nothing on its faces is as good, save where they
   * are ends of the ranges searched.
   */
  readonly own: PositionRanges;
  /** Proved: there is no other, outside the boxes about these and the answer. */
  readonly complete: boolean;
}

export type Aim = 'margin' | 'centre' | 'low' | 'back';

/** What one wish would leave, with the options of the main answer. */
export interface Wish {
  readonly aim: Exclude<Aim, 'margin'>;
  /** Absent when no position within the ranges and limits was found. */
  readonly standing?: Standing;
  /** `no`: proved that no position meets every rule and this wish. */
  readonly fits: Verdict;
  /** `proved`: `bound` is within the tolerance of what the standing reaches. */
  readonly best: 'proved' | 'undecided';
  /**
   * `low` and `back`: the coordinate that no position keeping every rule can better; `centre`: the
   * bound on the margin at offset zero.
   */
  readonly bound: number;
}

/** How much was done for an answer: counted, so free of machine noise. */
export interface Effort {
  readonly boxes: number;
  readonly gaps: number;
  readonly lps: number;
}

/** Why a search was stopped before it was done. */
export type Stopped = 'time' | 'asked' | 'memory';

export interface PlaceAnswer {
  /** What the main answer is best at: `margin` where the aim asked for could not be had. */
  readonly aim: Aim;
  /** Why the aim asked for is not the answer: `no` place keeps the margin asked, or it is `undecided`. */
  readonly aimMissed?: 'no' | 'undecided';
  /** Millimetres: how close bound and margin had to come. */
  readonly tolerance: number;
  readonly main: Placement;
  /** No position under any combination of options exceeds this margin. */
  readonly bestBound: number;
  /** Cheaper option sets that the search could not rule out. */
  readonly cheaperUndecided: readonly OptionSet[];
  readonly asItStands?: Placement;
  /** The least work that meets every rule; absent when no option set does, or none was found. */
  readonly leastWork?: Placement;
  /** `no`: proved that no option set meets every rule. */
  readonly anyFits: Verdict;
  readonly wishes: readonly Wish[];
  /** About the main answer's setting; absent where that does not fit. */
  readonly slack?: Slack;
  /** Absent where the answer does not fit, or another aim than the margin was asked for. */
  readonly otherPlaces?: OtherPlaces;
  /** Why the search stopped before its proofs were done, if it did. */
  readonly stopped?: Stopped;
  readonly effort: Effort;
}

/** What a search is for. */
type Doing =
  | 'all options'
  | 'least work'
  | 'as it stands'
  | 'wishes'
  | 'room to set it'
  | 'other places'
  | 'cases'
  | 'slide'
  | 'reasons'
  | 'remedies'
  | 'certificate';

/** Best and bound so far, for a progress line. */
export interface Progress {
  readonly doing: Doing;
  /** Which of how many pieces, where there are several of a sort. */
  readonly count?: { readonly at: number; readonly of: number };
  /** Margins; absent while a search is for the least or greatest of a coordinate. */
  readonly best?: number;
  readonly bound?: number;
  readonly effort: Effort;
}

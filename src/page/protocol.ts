/** What the page and its worker say to each other: plain data, lengths in millimetres, angles in radians. */

import type { MeasuredReading } from '../model/fitup/measured.js';
import type { Coordinate, OptionSet, Position } from '../model/scenario.js';
import type { PlaceAnswer, Progress } from '../solver/answer.js';
import type { Comparison } from '../solver/explaining/compare.js';
import type { Slide } from '../solver/explaining/slide.js';
import type { WhyAnswer } from '../solver/explaining/why.js';
import type { AsBuilt } from '../solver/fitup/as-built.js';
import type { SetUp } from '../solver/fitup/set-up.js';
import type { ToTape } from '../solver/fitup/to-tape.js';
import type { Place } from './state.js';

/** Something to solve in the scenario of a text. */
export type Question =
  /** The best place, with the options allowed, by choice. */
  | { readonly kind: 'best'; readonly allowed: readonly (readonly number[])[] }
  /** Why wishes, as `--want` takes them, cannot be had. */
  | { readonly kind: 'why'; readonly want: string }
  /** The best place of every option set, beside the bay as it stands. */
  | {
      readonly kind: 'compare';
      readonly cases: readonly { readonly name: string; readonly set: OptionSet }[];
    }
  | {
      readonly kind: 'slide';
      readonly along: Coordinate;
      readonly allowed: readonly (readonly number[])[];
      readonly steps: number;
    }
  /** In which order to turn the mock-up's adjusters to a place. */
  | { readonly kind: 'mock-up'; readonly place: Place }
  /** What to tape once the engine hangs at a place. */
  | { readonly kind: 'to tape'; readonly place: Place }
  /** Where an engine meant for a place really sits. */
  | {
      readonly kind: 'as built';
      readonly place: Place;
      readonly readings: readonly MeasuredReading[];
    };

export interface Answers {
  readonly best: PlaceAnswer;
  readonly why: WhyAnswer;
  readonly compare: Comparison;
  readonly slide: Slide;
  readonly 'mock-up': SetUp;
  readonly 'to tape': readonly ToTape[];
  readonly 'as built': AsBuilt;
}

/** To the worker. `id` tells answers apart; a new question ends the one before. */
export type Order =
  | {
      readonly do: 'solve';
      readonly id: number;
      readonly text: string;
      readonly question: Question;
    }
  | { readonly do: 'stop'; readonly id: number };

/** From the worker. */
export type Report =
  | { readonly say: 'progress'; readonly id: number; readonly progress: Progress }
  | { readonly say: 'done'; readonly id: number; readonly answer: Answers[Question['kind']] }
  /** What was asked cannot be: the first thing wrong with it. */
  | { readonly say: 'refused'; readonly id: number; readonly message: string };

/** A place that an answer offers to take up. */
export interface Offer {
  readonly position: Position;
  readonly options: OptionSet;
  readonly depths?: readonly number[];
}

/**
 * A scenario made ready to solve, as plain data: every pair of parts that a rule joins, under every combination of
 * options that matters to that pair, as contacts between convex solids.
 *
 * Lowering is reversible: a contact knows its group, a group the two parts, a combo the rule the
 * person wrote. Millimetres and radians; engine shapes in the engine's own frame.
 */

import type { Limit, Measure, OptionSet, Rule, Scenario } from '../../model/scenario.js';
import type { Contact } from './contact.js';

/** What a pair's rule comes to under one combination of the options that matter to it. */
export interface Combo {
  /** Option index for each of `Group.choices`. */
  readonly options: readonly number[];
  /** Empty where the rule does not hold: a part is absent, or the pair is exempt. */
  readonly contacts: readonly number[];
  readonly rule?: Rule;
  readonly needed: number;
}

/** One pair of parts on opposite sides, in one measure. */
export interface Group {
  readonly id: number;
  /** Engine part first. */
  readonly between: readonly [string, string];
  readonly measured: Measure;
  readonly comingOut: boolean;
  /** Which of the two comes out, where it is the room for that. */
  readonly withdrawn?: string;
  readonly choices: readonly number[];
  readonly combos: readonly Combo[];
  /** Index of the combination that a complete option set picks, or -1. */
  readonly comboOf: (set: OptionSet) => number;
}

/** A pair of parts of one side: its gap depends on the options alone. */
export interface FixedCombo {
  readonly options: readonly number[];
  readonly holds: boolean;
  readonly rule?: Rule;
  readonly needed: number;
  /** Certified from below; `most` from above. */
  readonly gap: number;
  readonly most: number;
  readonly atRest: number;
}
export interface FixedGroup {
  readonly between: readonly [string, string];
  readonly measured: Measure;
  readonly choices: readonly number[];
  readonly combos: readonly FixedCombo[];
}

/** A limit, and the option that brings it, if one does. */
export interface BayLimit {
  readonly limit: Limit;
  readonly when?: { readonly choice: number; readonly option: number };
}

export interface Bay {
  readonly scenario: Scenario;
  /** Option indexes still allowed, per choice. */
  readonly domains: readonly (readonly number[])[];
  readonly contacts: readonly Contact[];
  readonly groups: readonly Group[];
  readonly fixed: readonly FixedGroup[];
  readonly limits: readonly BayLimit[];
}

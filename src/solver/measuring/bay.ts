/**
 * A scenario made ready to solve: every pair of parts that a rule joins, under every combination of
 * options that matters to that pair, as contacts between convex solids.
 *
 * Lowering is reversible: a contact knows its group, a group the two parts, a combo the rule the
 * person wrote. Millimetres and radians; engine shapes in the engine's own frame.
 */

import { facingBetween } from '../../model/facing.js';
import { liftBetween } from '../../model/lift.js';
import { choicesTouching, narrow, partNames, partUnder, sideOf } from '../../model/options.js';
import type { PartInPlace } from '../../model/options.js';
import { choicesRuling, pairRules } from '../../model/precedence.js';
import type { PairRule } from '../../model/precedence.js';
import type {
  Facing,
  Limit,
  Measure,
  OptionSet,
  Part,
  Rule,
  Scenario,
} from '../../model/scenario.js';
import { turns } from '../../geometry/motion/moving-pair.js';
import { engineSolidOf, motionOf, motionReach, moveTogether } from './motion.js';
import { solidsOf, solidsTogether } from './solids.js';
import type { Solids } from './solids.js';
import type { Contact } from './contact.js';
import { fixedGap } from './fixed.js';
import { comboIndex } from './combo-index.js';

/** What a pair's rule comes to under one combination of the options that matter to it. */
interface Combo {
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
interface FixedCombo {
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
interface BayLimit {
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

export interface BayRequest {
  /** Option indexes allowed per choice; every option of every choice when absent. */
  readonly allowed?: readonly (readonly number[])[];
}

interface Standing {
  readonly place: PartInPlace;
  readonly key: string;
}

/**
 * Compile a scenario. Throws only on a broken invariant: rules that tie, or a side that is unclear,
 * are found when the file is read.
 */
export function compileBay(scenario: Scenario, request: BayRequest = {}): Bay {
  return new Compiler(scenario, request).compile();
}

class Compiler {
  private readonly contacts: Contact[] = [];
  private readonly groups: Group[] = [];
  private readonly fixed: FixedGroup[] = [];
  private readonly domains: readonly (readonly number[])[];
  private readonly solids = new Map<string, Solids>();
  private readonly partIds = new Map<Part, number>();

  constructor(
    private readonly scenario: Scenario,
    private readonly request: BayRequest,
  ) {
    const allowed =
      request.allowed ?? scenario.choices.map((choice) => choice.options.map((_, index) => index));
    this.domains = narrow(scenario, allowed) ?? allowed.map(() => []);
  }

  compile(): Bay {
    const names = partNames(this.scenario);
    for (let i = 0; i < names.length; i++) {
      for (let j = i + 1; j < names.length; j++) this.pair(names[i]!, names[j]!);
    }
    return {
      scenario: this.scenario,
      domains: this.domains,
      contacts: this.contacts,
      groups: this.groups,
      fixed: this.fixed,
      limits: this.limits(),
    };
  }

  private limits(): BayLimit[] {
    const all: BayLimit[] = this.scenario.limits.map((limit) => ({ limit }));
    this.scenario.choices.forEach((choice, c) =>
      choice.options.forEach((option, o) => {
        if (!this.domains[c]!.includes(o)) return;
        for (const limit of option.limits) all.push({ limit, when: { choice: c, option: o } });
      }),
    );
    return all;
  }

  private pair(first: string, second: string): void {
    const oneSide = sideOf(this.scenario, first) === sideOf(this.scenario, second);
    const scenario = (oneSide ? this.scenario.oneSide : undefined) ?? this.scenario;
    const engineFirst = sideOf(scenario, first) === 'engine';
    const [a, b] = oneSide || engineFirst ? [first, second] : [second, first];
    const touching = new Set([
      ...choicesTouching(scenario, a),
      ...choicesTouching(scenario, b),
      ...this.ruling(a, b),
    ]);
    const choices = [...touching].filter((c) => this.domains[c]!.length > 1).sort((x, y) => x - y);
    const rows = new Map<string, Map<string, Matched>>();
    for (const options of this.combinations(choices)) {
      const set = this.setWith(choices, options);
      const pa = partUnder(scenario, a, set);
      const pb = partUnder(scenario, b, set);
      const rules = pa && pb ? pairRules(scenario, pa.part, pb.part, set).rules : [];
      for (const rule of rules) {
        const slot = `${rule.measured}/${rule.comingOut ? (rule.withdrawn ?? '') : 'in place'}`;
        const byCombo = rows.get(slot) ?? new Map<string, Matched>();
        byCombo.set(options.join(), { rule, pa: this.stand(pa!), pb: this.stand(pb!) });
        rows.set(slot, byCombo);
      }
    }
    for (const byCombo of rows.values()) {
      if (oneSide) this.addFixed(a, b, choices, byCombo);
      else this.addGroup(a, b, choices, byCombo);
    }
  }

  /** Choices whose options' rules may match the pair, by any of the parts that bear the names. */
  private ruling(a: string, b: string): number[] {
    const found = new Set<number>();
    for (const pa of this.bearers(a)) {
      for (const pb of this.bearers(b)) {
        for (const c of choicesRuling(this.scenario, pa, pb)) found.add(c);
      }
    }
    return [...found];
  }

  private readonly bearersOf = new Map<string, Part[]>();
  private bearers(name: string): readonly Part[] {
    let parts = this.bearersOf.get(name);
    if (!parts) {
      parts = this.scenario.parts.filter((part) => part.name === name);
      for (const choice of this.scenario.choices) {
        for (const option of choice.options) {
          parts.push(...[...option.add, ...option.replace].filter((part) => part.name === name));
        }
      }
      this.bearersOf.set(name, parts);
    }
    return parts;
  }

  private stand(place: PartInPlace): Standing {
    let id = this.partIds.get(place.part);
    if (id === undefined) this.partIds.set(place.part, (id = this.partIds.size));
    return { place, key: `${id}@${place.move.join()}` };
  }

  private readonly combinationsOf = new Map<string, readonly (readonly number[])[]>();

  /** Every combination of allowed options of these choices that some compatible set extends. */
  private combinations(choices: readonly number[]): readonly (readonly number[])[] {
    const key = choices.join();
    let all = this.combinationsOf.get(key);
    if (!all) this.combinationsOf.set(key, (all = [...this.extend(choices, [], this.domains)]));
    return all;
  }

  private *extend(
    choices: readonly number[],
    picked: readonly number[],
    domains: readonly (readonly number[])[],
  ): Generator<readonly number[]> {
    const choice = choices[picked.length];
    if (choice === undefined) {
      yield picked;
      return;
    }
    for (const option of domains[choice]!) {
      const decided = domains.map((domain, c) => (c === choice ? [option] : domain));
      const next = narrow(this.scenario, decided);
      if (next) yield* this.extend(choices, [...picked, option], next);
    }
  }

  private setWith(choices: readonly number[], options: readonly number[]): OptionSet {
    const set = this.domains.map((domain) => domain[0] ?? 0);
    choices.forEach((choice, i) => (set[choice] = options[i]!));
    return set;
  }

  private solidsOf({ place, key }: Standing): Solids {
    let solids = this.solids.get(key);
    if (!solids) this.solids.set(key, (solids = solidsOf(place)));
    return solids;
  }

  private addGroup(
    a: string,
    b: string,
    choices: readonly number[],
    byCombo: ReadonlyMap<string, Matched>,
  ): void {
    const id = this.groups.length;
    const known = new Map<string, number[]>();
    const combos: Combo[] = [];
    for (const options of this.combinations(choices)) {
      const found = byCombo.get(options.join());
      if (!found) {
        combos.push({ options, contacts: [], needed: 0 });
        continue;
      }
      const { rule, pa, pb } = found;
      const facing = this.facing(rule, pa, pb);
      const key = `${pa.key}|${pb.key}|${rule.needed}|${facing ?? ''}`;
      let contacts = known.get(key);
      if (!contacts) {
        contacts = this.addContacts(id, rule, pa, pb, facing);
        known.set(key, contacts);
      }
      combos.push({ options, contacts, rule: rule.rule, needed: rule.needed });
    }
    const slim = dropIdleChoices(choices, combos, (combo) => combo.contacts.join());
    const any = [...byCombo.values()][0]!.rule;
    this.groups.push({
      id,
      between: [a, b],
      measured: any.measured,
      comingOut: any.comingOut,
      ...(any.withdrawn && { withdrawn: any.withdrawn === 'a' ? a : b }),
      choices: slim.choices,
      combos: slim.combos,
      comboOf: comboIndex(slim.choices, slim.combos),
    });
  }

  private facing(rule: PairRule, pa: Standing, pb: Standing): Facing | undefined {
    if (rule.measured === 'nearest') return undefined;
    const facing = rule.swapped
      ? facingBetween(this.scenario, rule.rule, pb.place.part, pa.place.part)
      : facingBetween(this.scenario, rule.rule, pa.place.part, pb.place.part);
    if (!facing) throw new Error(`no side for a rule along an axis: ${pa.key} ${pb.key}`);
    return rule.swapped ? OPPOSITE[facing] : facing;
  }

  private addContacts(
    group: number,
    rule: PairRule,
    pa: Standing,
    pb: Standing,
    facing: Facing | undefined,
  ): number[] {
    const ea = this.solidsOf(pa);
    const cb = this.solidsOf(pb);
    const outA = rule.comingOut && rule.withdrawn === 'a';
    const outB = rule.comingOut && rule.withdrawn === 'b';
    const engine = rule.comingOut ? (outA ? ea.out : ea.still) : ea.moving;
    const chassis = rule.comingOut ? (outB ? cb.out : cb.still) : cb.moving;
    const { axis, sign } = axisOf(facing);
    const rock = rule.comingOut ? 0 : this.scenario.rock;
    const lift = rule.comingOut ? 0 : liftBetween(this.scenario, pa.place.part, pb.place.part);
    const ids: number[] = [];
    engine.forEach((one, i) =>
      chassis.forEach((other, j) => {
        ids.push(this.contacts.length);
        const motion = motionOf(one, other, rock, lift);
        const solid = engineSolidOf(turns(one) ? ea.still[i]! : one);
        this.contacts.push({
          id: this.contacts.length,
          group,
          engine: solid,
          chassis: turns(other) ? cb.still[j]! : other,
          engineStill: rule.comingOut ? solid : engineSolidOf(ea.still[i]!),
          chassisStill: rule.comingOut && !turns(other) ? other : cb.still[j]!,
          rock,
          ...(motion && { motion }),
          reach: motion ? motionReach(motion) : solid.reach(rock),
          axis,
          sign,
          needed: rule.needed,
        });
      }),
    );
    return ids;
  }

  private addFixed(
    a: string,
    b: string,
    choices: readonly number[],
    byCombo: ReadonlyMap<string, Matched>,
  ): void {
    const combos: FixedCombo[] = [];
    for (const options of this.combinations(choices)) {
      const found = byCombo.get(options.join());
      if (!found || found.rule.comingOut) {
        combos.push({ options, holds: false, needed: 0, ...APART });
        continue;
      }
      const { rule, pa, pb } = found;
      const { axis, sign } = axisOf(this.facing(rule, pa, pb));
      combos.push({
        options,
        holds: true,
        rule: rule.rule,
        needed: rule.needed,
        ...this.fixedGap(pa, pb, axis, sign),
        atRest: fixedGap(this.solidsOf(pa).still, this.solidsOf(pb).still, axis, sign, false).gap,
      });
    }
    if (!combos.some((combo) => combo.holds)) return;
    const slim = dropIdleChoices(
      choices,
      combos,
      (c) => `${c.holds} ${c.needed} ${c.gap} ${c.atRest}`,
    );
    const any = [...byCombo.values()][0]!.rule;
    this.fixed.push({
      between: [a, b],
      measured: any.measured,
      choices: slim.choices,
      combos: slim.combos,
    });
  }

  /** The gap over the motions of two parts of one side, which may move as one. */
  private fixedGap(
    pa: Standing,
    pb: Standing,
    axis: -1 | 0 | 1 | 2,
    sign: 1 | -1,
  ): { gap: number; most: number } {
    if (!moveTogether(this.scenario, pa.place.part, pb.place.part)) {
      return fixedGap(this.solidsOf(pa).moving, this.solidsOf(pb).moving, axis, sign, false);
    }
    const [a, b] = solidsTogether(pa.place, pb.place);
    return fixedGap(a, b, axis, sign, true);
  }
}

const APART = { gap: Infinity, most: Infinity, atRest: Infinity };

interface Matched {
  readonly rule: PairRule;
  readonly pa: Standing;
  readonly pb: Standing;
}

const OPPOSITE: Readonly<Record<Facing, Facing>> = {
  ahead: 'behind',
  behind: 'ahead',
  left: 'right',
  right: 'left',
  above: 'below',
  below: 'above',
};

/** Axis and sign for "the second part lies `facing` of the first": +1 when the first is larger. */
function axisOf(facing: Facing | undefined): { axis: -1 | 0 | 1 | 2; sign: 1 | -1 } {
  switch (facing) {
    case undefined:
      return { axis: -1, sign: 1 };
    case 'ahead':
      return { axis: 0, sign: 1 };
    case 'behind':
      return { axis: 0, sign: -1 };
    case 'left':
      return { axis: 1, sign: 1 };
    case 'right':
      return { axis: 1, sign: -1 };
    case 'below':
      return { axis: 2, sign: 1 };
    case 'above':
      return { axis: 2, sign: -1 };
  }
}

/** Leave out the choices that make no difference to a pair, and the combos that then repeat. */
function dropIdleChoices<C extends { readonly options: readonly number[] }>(
  choices: readonly number[],
  combos: readonly C[],
  print: (combo: C) => string,
): { choices: readonly number[]; combos: readonly C[] } {
  let keptChoices = [...choices];
  let kept = [...combos];
  for (const choice of choices) {
    const at = keptChoices.indexOf(choice);
    const merged = new Map<string, C>();
    let idle = true;
    for (const combo of kept) {
      const rest = combo.options.filter((_, i) => i !== at);
      const twin = merged.get(rest.join());
      if (!twin) merged.set(rest.join(), { ...combo, options: rest });
      else if (print(twin) !== print(combo)) idle = false;
    }
    if (idle) {
      keptChoices = keptChoices.filter((c) => c !== choice);
      kept = [...merged.values()];
    }
  }
  return { choices: keptChoices, combos: kept };
}

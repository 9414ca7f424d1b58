/** Lowers a scenario into a bay: pairs of parts, under the options that matter to them, into contacts. */

import { liftBetween } from '../../model/solids/lift.js';
import { choicesTouching, narrow, partNames, partUnder, sideOf } from '../../model/options.js';
import type { PartInPlace } from '../../model/options.js';
import { choicesRuling, pairRules } from '../../model/precedence.js';
import type { PairRule } from '../../model/precedence.js';
import type { Facing, Part, Scenario } from '../../model/scenario.js';
import { turns } from '../../geometry/motion/moving-pair.js';
import { axisOf, facingOf } from './along.js';
import type { Bay, BayLimit, Combo, FixedCombo, FixedGroup, Group } from './bay.js';
import { comboIndex } from './combo-index.js';
import { Combinations, dropIdleChoices } from './combinations.js';
import type { Contact } from './contact.js';
import { fixedGap } from './fixed.js';
import { engineSolidOf, motionOf, motionReach, moveTogether } from './motion.js';
import { solidsOf, solidsTogether } from './solids.js';
import type { Solids } from './solids.js';

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
  private readonly combinations: Combinations;
  private readonly solids = new Map<string, Solids>();
  private readonly partIds = new Map<Part, number>();

  constructor(
    private readonly scenario: Scenario,
    private readonly request: BayRequest,
  ) {
    const allowed =
      request.allowed ?? scenario.choices.map((choice) => choice.options.map((_, index) => index));
    this.domains = narrow(scenario, allowed) ?? allowed.map(() => []);
    this.combinations = new Combinations(scenario, this.domains);
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
    for (const options of this.combinations.of(choices)) {
      const set = this.combinations.setWith(choices, options);
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
    for (const options of this.combinations.of(choices)) {
      const found = byCombo.get(options.join());
      if (!found) {
        combos.push({ options, contacts: [], needed: 0 });
        continue;
      }
      const { rule, pa, pb } = found;
      const facing = facingOf(this.scenario, rule, pa.place.part, pb.place.part);
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
    for (const options of this.combinations.of(choices)) {
      const found = byCombo.get(options.join());
      if (!found || found.rule.comingOut) {
        combos.push({ options, holds: false, needed: 0, ...APART });
        continue;
      }
      const { rule, pa, pb } = found;
      const { axis, sign } = axisOf(facingOf(this.scenario, rule, pa.place.part, pb.place.part));
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

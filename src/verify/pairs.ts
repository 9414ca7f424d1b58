/**
 * What holds between two parts under the options still open in a leaf, worked out from the scenario alone.
 */

import type { CertifiedPair } from '../model/certificate.js';
import { facingBetween } from '../model/facing.js';
import { liftBetween } from '../model/solids/lift.js';
import { choicesTouching, narrow, partNames, partUnder, sideOf } from '../model/options.js';
import type { OptionDomains, PartInPlace } from '../model/options.js';
import { pairRules } from '../model/precedence.js';
import type { PairRule } from '../model/precedence.js';
import type { Facing, OptionSet, Part, Scenario, Vec3 } from '../model/scenario.js';
import { bodyOf, turnRange } from './bodies.js';
import type { Body, Use } from './bodies.js';

/** A pair of parts as some options have it, and what it needs. */
export interface Standing {
  readonly places: readonly [PartInPlace, PartInPlace];
  readonly uses: readonly [Use, Use];
  readonly needed: number;
  /** Unit direction from the second to the first along which the gap is measured; absent for the nearest. */
  readonly along?: Vec3;
  /** Whether both are on one side: no position moves them against each other. */
  readonly oneSide: boolean;
  /** Whether what they do on one side they do at the same share of their ranges. */
  readonly together: boolean;
  /** Radians each way, and millimetres up, that the engine may move by. */
  readonly rock: number;
  readonly lift: number;
  /** Tells it from others of the pair. */
  readonly key: string;
}

/** Looks pairs up in one scenario, remembering what it found. */
export class Pairs {
  private readonly known = new Map<string, readonly (Standing | undefined)[]>();
  private readonly ids = new Map<Part, number>();
  private readonly bodies = new Map<string, Body>();
  /** Choices any option of which brings rules: those may tell in any pair. */
  private readonly ruling: readonly number[];
  private readonly sides = new Map<string, 'engine' | 'chassis'>();

  constructor(readonly scenario: Scenario) {
    this.ruling = scenario.choices.flatMap(({ options }, c) =>
      options.some(({ rules }) => rules.length > 0) ? [c] : [],
    );
    for (const name of partNames(scenario)) this.sides.set(name, sideOf(scenario, name));
  }

  /** The names of all parts that any option lets stand. */
  get names(): readonly string[] {
    return [...this.sides.keys()];
  }

  isOneSide([a, b]: readonly [string, string]): boolean {
    return this.sides.get(a) === this.sides.get(b);
  }

  /** Whether the scenario has parts of both names, the engine's first where they are of two sides. */
  knows({ parts: [a, b] }: CertifiedPair): boolean {
    const [one, other] = [this.sides.get(a), this.sides.get(b)];
    if (one === undefined || other === undefined || a === b) return false;
    return one === other || one === 'engine';
  }

  /** One body of a standing pair at a moment of the part's own turn. */
  body(
    { places, uses, key }: Standing,
    end: 0 | 1,
    solid: number,
    angle: number,
  ): Body | undefined {
    const found = places[end].part.solids[solid];
    if (!found) return undefined;
    const id = `${key}/${end}/${solid}/${angle}`;
    let body = this.bodies.get(id);
    if (!body) this.bodies.set(id, (body = bodyOf(places[end], found, uses[end], angle)));
    return body;
  }

  /** The turns that either part makes by itself in this use. */
  turnsOf({ places, uses }: Standing): readonly { readonly min: number; readonly max: number }[] {
    return places.map(({ part }, end) =>
      uses[end] === 'in use' ? turnRange(part) : { min: 0, max: 0 },
    );
  }

  /**
   * Everything the pair may be under the open options, each different one once: undefined stands for
   * options under which no rule holds between the two.
   */
  under(pair: CertifiedPair, domains: OptionDomains): readonly (Standing | undefined)[] {
    const { parts, measured, out } = pair;
    const s = this.scenarioFor(parts);
    const touching = new Set([
      ...choicesTouching(s, parts[0]),
      ...choicesTouching(s, parts[1]),
      ...this.ruling,
    ]);
    const choices = [...touching].sort((a, b) => a - b);
    // Which options of these go together may turn on any choice, so all that is open tells.
    const open = choices.length > 0 && domains;
    const id = JSON.stringify([parts, measured, out ?? '', open]);
    let found = this.known.get(id);
    if (found) return found;
    const all = new Map<string, Standing | undefined>();
    for (const set of this.combinations(choices, domains)) {
      const standing = this.standing(s, pair, set);
      all.set(standing?.key ?? '', standing);
    }
    this.known.set(id, (found = [...all.values()]));
    return found;
  }

  /** Which pairs of measures hold under a complete set: what an answer must keep. */
  holding(names: readonly [string, string], set: OptionSet): readonly CertifiedPair[] {
    const s = this.scenarioFor(names);
    const places = names.map((name) => partUnder(s, name, set));
    const [a, b] = places;
    if (!a || !b) return [];
    return pairRules(s, a.part, b.part, set).rules.map((rule) => ({
      parts: names,
      measured: rule.measured,
      ...(rule.withdrawn && { out: names[rule.withdrawn === 'a' ? 0 : 1] }),
    }));
  }

  private scenarioFor(parts: readonly [string, string]): Scenario {
    return (this.isOneSide(parts) ? this.scenario.oneSide : undefined) ?? this.scenario;
  }

  private *combinations(choices: readonly number[], domains: OptionDomains): Generator<OptionSet> {
    const [choice, ...rest] = choices;
    if (choice === undefined) {
      yield domains.map((domain) => domain[0]!);
      return;
    }
    for (const option of domains[choice]!) {
      const decided = domains.map((domain, c) => (c === choice ? [option] : domain));
      const next = narrow(this.scenario, decided);
      if (next) yield* this.combinations(rest, next);
    }
  }

  private standing(s: Scenario, pair: CertifiedPair, set: OptionSet): Standing | undefined {
    const { parts, measured, out } = pair;
    const [a, b] = parts.map((name) => partUnder(s, name, set));
    if (!a || !b) return undefined;
    const rule = pairRules(s, a.part, b.part, set).rules.find(
      (one) =>
        one.measured === measured &&
        (one.withdrawn === undefined ? undefined : parts[one.withdrawn === 'a' ? 0 : 1]) === out,
    );
    if (!rule) return undefined;
    const oneSide = a.part.side === b.part.side;
    const along = measured === 'nearest' ? undefined : directionOf(s, rule, a.part, b.part);
    if (measured !== 'nearest' && !along) return undefined;
    const { comingOut } = rule;
    const use = (end: 'a' | 'b'): Use =>
      !comingOut ? 'in use' : rule.withdrawn === end ? 'on its way out' : 'at rest';
    const moving = !comingOut && !oneSide;
    const id = (place: PartInPlace): string => `${this.idOf(place.part)}@${place.move.join()}`;
    return {
      places: [a, b],
      uses: [use('a'), use('b')],
      needed: rule.needed,
      ...(along && { along }),
      oneSide,
      together: oneSide && s.together.some((names) => parts.every((name) => names.includes(name))),
      rock: moving ? s.rock : 0,
      lift: moving ? liftBetween(s, a.part, b.part) : 0,
      key: [id(a), id(b), rule.needed, along?.join() ?? '', out ?? ''].join('|'),
    };
  }

  private idOf(part: Part): number {
    let id = this.ids.get(part);
    if (id === undefined) this.ids.set(part, (id = this.ids.size));
    return id;
  }
}

const WAY: Readonly<Record<Facing, Vec3>> = {
  ahead: [1, 0, 0],
  behind: [-1, 0, 0],
  left: [0, 1, 0],
  right: [0, -1, 0],
  below: [0, 0, 1],
  above: [0, 0, -1],
};

/** From the second part to the first, by where the rule's second end lies as seen from its first. */
function directionOf(s: Scenario, rule: PairRule, a: Part, b: Part): Vec3 | undefined {
  const [first, second] = rule.swapped ? [b, a] : [a, b];
  const facing = facingBetween(s, rule.rule, first, second);
  if (!facing) return undefined;
  const way = WAY[facing];
  return rule.swapped ? [-way[0], -way[1], -way[2]] : way;
}

/**
 * What stands in the way of a wish, as a builder sees it: a chassis part with every rule against it, a
 * limit, or a rule within one side.
 *
 * Rules one by one would be too fine. Where the block is too near the firewall so are both heads, and
 * every mixture of such rules is a smallest set of its own: a bay of 30 parts has thousands. Of chassis
 * parts it has ten, and all of them can be told. The ends of the file's ranges hold throughout: they
 * say where the person lets the engine be. Which of them a set of rules rests on is asked afterwards.
 */

import type { OptionSet } from '../../model/scenario.js';
import type { Steps } from '../answering/searches.js';
import type { Decider } from './decider.js';
import { irreducible, irreducibleSets } from './irreducible.js';
import type { Irreducible, Oracle } from './irreducible.js';

/** A smallest set of obstacles that together prevent a wish. */
export interface Squeeze {
  /** The chassis parts among them. */
  readonly parts: readonly string[];
  /** All members of the set: rules, limits. */
  readonly members: readonly number[];
  /** False where leaving out one of the obstacles could not be decided. */
  readonly proved: boolean;
}

/** Decisions about whole sets that may be spent on finding every squeeze. */
const CHECKS = 300;

/** Nodes that one decision about a single rule or range end may take. */
const ASIDE_BOXES = 500;

export class Obstacles {
  readonly ends: readonly number[];
  private readonly obstacles: readonly Obstacle[];

  constructor(
    private readonly decider: Decider,
    private readonly set: OptionSet,
  ) {
    const all = decider.members.under(set);
    const byName = new Map<string, Obstacle>();
    for (const id of all) {
      const member = decider.members.all[id]!;
      if (member.kind === 'end') continue;
      const part = member.kind === 'rule' ? member.group.between[1] : undefined;
      const name = part ?? `\0${id}`;
      const known = byName.get(name);
      if (known) known.members.push(id);
      else byName.set(name, { ...(part !== undefined && { part }), members: [id] });
    }
    this.obstacles = [...byName.values()];
    this.ends = all.filter((id) => decider.members.all[id]!.kind === 'end');
  }

  /** Every smallest set of obstacles that prevents the wish, and whether these are all. */
  *squeezes(): Steps<{ squeezes: readonly Squeeze[]; complete: boolean }> {
    const numbers = [...this.obstacles.keys()];
    const oracle: Oracle = (kept) => this.decide(kept);
    const { sets, complete } = yield* irreducibleSets(numbers, oracle, CHECKS);
    return { squeezes: sets.map((one) => this.squeeze(one)), complete };
  }

  /**
   * One irreducible set of rules and limits among these, and the range ends it rests on.
   * @param members those to be kept rather than others first.
   */
  *rulesOf(members: readonly number[]): Steps<Irreducible> {
    const { decider, set, ends } = this;
    const whole = yield* decider.decide(set, [...members, ...ends]);
    const core = whole.possible === 'no' ? members.filter((id) => whole.by.includes(id)) : members;
    const rules = yield* irreducible(core, (kept) =>
      decider.decide(set, [...kept, ...ends], ASIDE_BOXES),
    );
    const needed = yield* irreducible(ends, (kept) =>
      decider.decide(set, [...rules.members, ...kept], ASIDE_BOXES),
    );
    return {
      members: [...rules.members, ...needed.members],
      proved: rules.proved && needed.proved,
    };
  }

  private squeeze({ members, proved }: Irreducible): Squeeze {
    const of = members.map((n) => this.obstacles[n]!);
    return {
      parts: of.flatMap(({ part }) => (part === undefined ? [] : [part])),
      members: of.flatMap((obstacle) => obstacle.members),
      proved,
    };
  }

  private *decide(kept: readonly number[]): ReturnType<Oracle> {
    const ids = kept.flatMap((n) => this.obstacles[n]!.members);
    const decision = yield* this.decider.decide(this.set, [...ids, ...this.ends]);
    if (decision.possible !== 'no') return decision;
    const by = new Set(decision.by);
    const carries = (n: number): boolean => this.obstacles[n]!.members.some((id) => by.has(id));
    return { possible: 'no', by: kept.filter(carries) };
  }
}

interface Obstacle {
  readonly part?: string;
  readonly members: number[];
}

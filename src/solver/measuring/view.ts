/**
 * What a node of the search sees of the bay when some choices are still open.
 *
 * A contact is firm when it holds under every open combination of its pair, so its rows hold whatever
 * is chosen; loose when its pair keeps some contact under every open combination, so that a row
 * above all of them holds; dormant when some open combination frees the pair.
 */

import { isCompatible, narrow, optionSets } from '../../model/options.js';
import type { OptionDomains } from '../../model/options.js';
import type { OptionSet, Scenario } from '../../model/scenario.js';
import type { Bay, FixedGroup, Group } from './bay.js';
import { readyLimit } from './limits.js';
import type { ReadyLimit } from './limits.js';
import { compareWork } from './work.js';
import type { Work } from './work.js';

export const CLOSED = 0;
export const FIRM = 1;
export const LOOSE = 2;
export const DORMANT = 3;

interface LooseGroup {
  readonly group: number;
  /** Contacts of each open combination. */
  readonly combos: readonly (readonly number[])[];
}

/** A pair whose contacts depend on an open choice. */
interface OpenGroup {
  readonly group: Group;
  /** Indexes into `group.combos` of the combinations still open. */
  readonly combos: readonly number[];
}

export interface View {
  readonly domains: OptionDomains;
  /** Per contact: CLOSED, FIRM, LOOSE or DORMANT. */
  readonly status: Uint8Array;
  readonly loose: readonly LooseGroup[];
  readonly open: readonly OpenGroup[];
  /** No option set in view has a greater margin than this in the rules that no position changes. */
  readonly cap: number;
  readonly limits: readonly ReadyLimit[];
  readonly undecided: readonly number[];
  readonly leastWork: Work;
  readonly mostWork: Work;
  /** How many combinations of open options there are, whether they go together or not. */
  readonly count: number;
  /** Every compatible set in view; kept once made, so ask only where `count` is small. */
  readonly sets: () => readonly OptionSet[];
  /** One compatible set, if any. */
  readonly someSet: () => OptionSet | undefined;
}

/** The views of a bay, each built once. */
export class Views {
  private readonly known = new Map<string, View | undefined>();

  constructor(private readonly bay: Bay) {}

  /** The view for these domains, narrowed to what can go together; undefined when nothing can. */
  of(domains: OptionDomains): View | undefined {
    const key = domains.map((d) => d.join('.')).join('|');
    if (!this.known.has(key)) this.known.set(key, this.narrowed(domains));
    return this.known.get(key);
  }

  private narrowed(domains: OptionDomains): View | undefined {
    const { scenario } = this.bay;
    const narrowed = narrow(scenario, domains);
    if (!narrowed) return undefined;
    const settled = narrowed.every((d) => d.length === 1);
    const one = narrowed.map((d) => d[0]!);
    return settled && !isCompatible(scenario, one) ? undefined : this.build(narrowed);
  }

  private build(domains: OptionDomains): View {
    const { bay } = this;
    const status = new Uint8Array(bay.contacts.length);
    const loose: LooseGroup[] = [];
    const open: OpenGroup[] = [];
    for (const group of bay.groups) {
      const combos = openCombos(group, domains);
      if (combos.length === 0) continue;
      const lists = distinct(combos.map((combo) => group.combos[combo]!.contacts));
      if (lists.length === 1) {
        for (const id of lists[0]!) status[id] = FIRM;
        continue;
      }
      open.push({ group, combos });
      const some = lists.some((list) => list.length === 0);
      for (const list of lists) {
        for (const id of list) {
          const always = lists.every((other) => other.includes(id));
          status[id] = always ? FIRM : some ? DORMANT : LOOSE;
        }
      }
      if (!some) loose.push({ group: group.id, combos: lists });
    }
    return {
      domains,
      status,
      loose,
      open,
      cap: fixedCap(bay.fixed, domains),
      limits: bay.limits
        .filter(({ when }) => !when || isDecided(domains[when.choice]!, when.option))
        .map(({ limit }) => readyLimit(bay.scenario, limit)),
      undecided: domains.flatMap((domain, c) => (domain.length > 1 ? [c] : [])),
      leastWork: extremeWork(bay.scenario, domains, 1),
      mostWork: extremeWork(bay.scenario, domains, -1),
      count: domains.reduce((n, domain) => n * domain.length, 1),
      sets: once(() => [...optionSets(bay.scenario, domains)]),
      someSet: once(() => {
        const next = optionSets(bay.scenario, domains).next();
        return next.done ? undefined : next.value;
      }),
    };
  }
}

/** Whether each of these choices may still take the option listed for it. */
export function isOpen(
  choices: readonly number[],
  options: readonly number[],
  domains: OptionDomains,
): boolean {
  return choices.every((choice, i) => domains[choice]!.includes(options[i]!));
}

/** The best that the options leave of the rules no position can change; Infinity without any. */
export function fixedCap(fixed: readonly FixedGroup[], domains: OptionDomains): number {
  let cap = Infinity;
  for (const group of fixed) {
    let best = -Infinity;
    for (const combo of group.combos) {
      if (!isOpen(group.choices, combo.options, domains)) continue;
      best = Math.max(best, combo.holds ? combo.most - combo.needed : Infinity);
    }
    if (best > -Infinity) cap = Math.min(cap, best);
  }
  return cap;
}

function openCombos(group: Group, domains: OptionDomains): number[] {
  const open: number[] = [];
  group.combos.forEach((combo, i) => {
    if (isOpen(group.choices, combo.options, domains)) open.push(i);
  });
  return open;
}

function isDecided(domain: readonly number[], option: number): boolean {
  return domain.length === 1 && domain[0] === option;
}

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => (made ??= { value: make() }).value;
}

/**
 * No set in view is less work than this (with `sign` 1), or more (-1): works add up in an ordered
 * group, so the extremes do too.
 */
function extremeWork(scenario: Scenario, domains: OptionDomains, sign: 1 | -1): Work {
  let hours = 0;
  let cost = 0;
  domains.forEach((domain, c) => {
    const works = domain.map((o) => scenario.choices[c]!.options[o]!);
    const end = works.reduce((a, b) => (sign * compareWork(b, a) < 0 ? b : a));
    hours += end.hours;
    cost += end.cost;
  });
  return { hours, cost };
}

/** The lists that differ. */
function distinct(lists: readonly (readonly number[])[]): (readonly number[])[] {
  if (lists.length === 1) return [lists[0]!];
  const seen = new Map(lists.map((list) => [list.join(), list]));
  return [...seen.values()];
}

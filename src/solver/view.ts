/**
 * What a node of the search sees of the bay when some choices are still open.
 *
 * A contact is firm when it holds under every open combination of its pair, so its rows hold whatever
 * is chosen; loose when its pair keeps some contact under every open combination, so that a row
 * above all of them holds; dormant when some open combination frees the pair.
 */

import { isCompatible, narrow, optionSets } from '../model/options.js';
import type { OptionSet, Scenario } from '../model/scenario.js';
import type { Bay, BayLimit, Combo, FixedGroup } from './bay.js';

/** Open option indexes per choice. */
export type Domains = readonly (readonly number[])[];

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
  readonly choices: readonly number[];
  readonly combos: readonly Combo[];
  /** Which of `combos` a complete set picks, or -1. */
  readonly indexOf: (set: OptionSet) => number;
}

export interface View {
  readonly domains: Domains;
  /** Per contact: CLOSED, FIRM, LOOSE or DORMANT. */
  readonly status: Uint8Array;
  readonly loose: readonly LooseGroup[];
  readonly open: readonly OpenGroup[];
  /** No option set in view has a greater margin than this in the rules that no position changes. */
  readonly cap: number;
  readonly limits: readonly BayLimit[];
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

/** Hours, then cost: compared in that order. */
export interface Work {
  readonly hours: number;
  readonly cost: number;
}

/** Money and hours closer than this are equal. */
const WORK_EPSILON = 1e-9;

/** Negative when `a` is less work than `b`, 0 when equal. */
export function compareWork(a: Work, b: Work): number {
  if (Math.abs(a.hours - b.hours) > WORK_EPSILON) return a.hours - b.hours;
  return Math.abs(a.cost - b.cost) > WORK_EPSILON ? a.cost - b.cost : 0;
}

export class Views {
  private readonly known = new Map<string, View | undefined>();

  constructor(private readonly bay: Bay) {}

  /** The view for these domains, narrowed to what can go together; undefined when nothing can. */
  of(domains: Domains): View | undefined {
    const key = domains.map((d) => d.join('.')).join('|');
    if (!this.known.has(key)) {
      const narrowed = narrow(this.bay.scenario, domains);
      const view =
        narrowed &&
        (narrowed.some((d) => d.length > 1) ||
          isCompatible(
            this.bay.scenario,
            narrowed.map((d) => d[0]!),
          ))
          ? this.build(narrowed)
          : undefined;
      this.known.set(key, view);
    }
    return this.known.get(key);
  }

  private build(domains: Domains): View {
    const { bay } = this;
    const status = new Uint8Array(bay.contacts.length);
    const loose: LooseGroup[] = [];
    const open: OpenGroup[] = [];
    for (const group of bay.groups) {
      const combos = group.combos.filter((combo) => isOpen(group.choices, combo.options, domains));
      if (combos.length === 0) continue;
      const lists = distinct(combos.map((combo) => combo.contacts));
      if (lists.length === 1) {
        for (const id of lists[0]!) status[id] = FIRM;
        continue;
      }
      open.push(openGroup(group.choices, combos));
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
      limits: bay.limits.filter(
        ({ when }) =>
          !when || (domains[when.choice]!.length === 1 && domains[when.choice]![0] === when.option),
      ),
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

export function isOpen(
  choices: readonly number[],
  options: readonly number[],
  domains: Domains,
): boolean {
  return choices.every((choice, i) => domains[choice]!.includes(options[i]!));
}

/** The best that the options leave of the rules no position can change; Infinity without any. */
function fixedCap(fixed: readonly FixedGroup[], domains: Domains): number {
  let cap = Infinity;
  for (const group of fixed) {
    let best = -Infinity;
    for (const combo of group.combos) {
      if (!isOpen(group.choices, combo.options, domains)) continue;
      best = Math.max(best, combo.holds ? combo.gap - combo.needed : Infinity);
    }
    if (best > -Infinity) cap = Math.min(cap, best);
  }
  return cap;
}

function openGroup(choices: readonly number[], combos: readonly Combo[]): OpenGroup {
  const byKey = new Map(combos.map((combo, i) => [keyOf(combo.options), i]));
  const picked: number[] = choices.map(() => 0);
  const indexOf = (set: OptionSet): number => {
    for (let i = 0; i < choices.length; i++) picked[i] = set[choices[i]!]!;
    return byKey.get(keyOf(picked)) ?? -1;
  };
  return { choices, combos, indexOf };
}

/** A number for a combination: options are few, so a base of 64 holds eight choices exactly. */
function keyOf(options: readonly number[]): number | string {
  if (options.length > 8) return options.join();
  let key = 1;
  for (const option of options) key = key * 64 + option;
  return key;
}

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => (made ??= { value: make() }).value;
}

/**
 * No set in view is less work than this (with `sign` 1), or more (-1): works add up in an ordered
 * group, so the extremes do too.
 */
function extremeWork(scenario: Scenario, domains: Domains, sign: 1 | -1): Work {
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

function distinct(lists: readonly (readonly number[])[]): (readonly number[])[] {
  const seen = new Map(lists.map((list) => [list.join(), list]));
  return [...seen.values()];
}

/**
 * Irreducible sets: members that together prevent something, none of which can be left out.
 *
 * What is asked of the decider: dropping a member never turns 'yes' into 'no'. Then the sets that
 * prevent it and the sets whose loss would cure it are each other's minimal hitting sets, so all of the
 * former are known once every minimal hitting set of those found is a cure (Reiter 1987; Liffiton and
 * Sakallah 2008, from memory).
 */

import type { Steps } from '../answering/searches.js';

type Verdict =
  | { readonly possible: 'yes' | 'undecided' }
  | { readonly possible: 'no'; readonly by: readonly number[] };

/** Decides with these members kept. */
export type Oracle = (kept: readonly number[]) => Steps<Verdict>;

export interface Irreducible {
  readonly members: readonly number[];
  /** False where leaving out one of them could not be decided. */
  readonly proved: boolean;
}

export interface AllIrreducible {
  readonly sets: readonly Irreducible[];
  /** Whether there are no others, proved. */
  readonly complete: boolean;
}

/**
 * Every irreducible set of `all` that prevents what the oracle decides; none where nothing does.
 * Members named first are kept before those named last.
 * @param checks decisions about whole sets to spend on completeness.
 */
export function* irreducibleSets(
  all: readonly number[],
  oracle: Oracle,
  checks: number,
): Steps<AllIrreducible> {
  const sets: Irreducible[] = [];
  const cured = new Set<string>();
  let hitting: (readonly number[])[] = [[]];
  let complete = true;
  for (let spent = 0; ; spent++) {
    const cure = hitting.find((one) => !cured.has(one.join()));
    if (cure === undefined) return smallestOf(sets, complete);
    if (spent >= checks) return smallestOf(sets, false);
    const kept = all.filter((id) => !cure.includes(id));
    const verdict = yield* oracle(kept);
    if (verdict.possible !== 'no') {
      cured.add(cure.join());
      complete &&= verdict.possible === 'yes';
      continue;
    }
    const found = yield* irreducible(
      kept.filter((id) => verdict.by.includes(id)),
      oracle,
    );
    sets.push(found);
    hitting = hittingWith(hitting, found.members);
  }
}

/**
 * The sets without those that turned out to hold another, as one whose members could not all be tried
 * may. Where none is missing, all that are left are irreducible: a smaller one would be among them.
 */
function smallestOf(sets: readonly Irreducible[], complete: boolean): AllIrreducible {
  const smallest = sets.filter(
    (one) => !sets.some((other) => other !== one && contains(one.members, other.members)),
  );
  return {
    sets: complete ? smallest.map((one) => ({ ...one, proved: true })) : smallest,
    complete,
  };
}

/** One irreducible set of members that together prevent it. */
export function* irreducible(members: readonly number[], oracle: Oracle): Steps<Irreducible> {
  const shrinking = new Shrinking(oracle);
  const kept = yield* shrinking.least([], false, members);
  return { members: [...kept].sort((a, b) => a - b), proved: shrinking.proved };
}

/** Junker's QuickXplain (2004, from memory): halves are left out before single members. */
class Shrinking {
  proved = true;

  constructor(private readonly oracle: Oracle) {}

  /** Of `members`, the fewest that prevent it beside those in `beside`; `changed` since last asked. */
  *least(
    beside: readonly number[],
    changed: boolean,
    members: readonly number[],
  ): Steps<readonly number[]> {
    if (changed) {
      const { possible } = yield* this.oracle(beside);
      if (possible === 'no') return [];
      this.proved &&= possible === 'yes';
    }
    if (members.length <= 1) {
      if (changed || members.length === 0 || beside.length > 0) return members;
      const { possible } = yield* this.oracle([]);
      return possible === 'no' ? [] : members;
    }
    const half = members.length >> 1;
    const [first, last] = [members.slice(0, half), members.slice(half)];
    const ofLast = yield* this.least([...beside, ...first], true, last);
    const ofFirst = yield* this.least([...beside, ...ofLast], ofLast.length > 0, first);
    return [...ofFirst, ...ofLast];
  }
}

/** The minimal hitting sets once one more set is to be hit (Berge's step), smallest first. */
function hittingWith(
  hitting: readonly (readonly number[])[],
  set: readonly number[],
): (readonly number[])[] {
  const hit = hitting.filter((one) => one.some((id) => set.includes(id)));
  const grown = hitting
    .filter((one) => !one.some((id) => set.includes(id)))
    .flatMap((one) => set.map((id) => [...one, id].sort((a, b) => a - b)));
  const fresh = grown.filter((one) => !hit.some((other) => contains(one, other)));
  const seen = new Set<string>();
  const minimal = fresh.filter((one) => {
    const isNew = !seen.has(one.join());
    seen.add(one.join());
    return isNew && !fresh.some((other) => other.length < one.length && contains(one, other));
  });
  return [...hit, ...minimal].sort((a, b) => a.length - b.length);
}

function contains(set: readonly number[], part: readonly number[]): boolean {
  return part.every((id) => set.includes(id));
}

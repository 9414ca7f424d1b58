/** Whether a claim's tree leaves nothing out, and whether each of its leaves is closed. */

import { minOf } from '../model/extremes.js';
import type { CertifiedPair, CertifiedRow, Claim, Four, Tree } from '../model/certificate.js';
import { isCompatible, narrow, workOf } from '../model/options.js';
import type { OptionDomains } from '../model/options.js';
import type { Option, OptionSet, Scenario } from '../model/scenario.js';
import { faultOfLimitRow } from './limit-row.js';
import { faultOfMarginRow } from './margin-row.js';
import type { Range4 } from './box.js';
import { add, exactly, mul, sub, ZERO } from './outward.js';
import type { Interval } from './outward.js';
import type { Pairs } from './pairs.js';

/** What was gone through, so that a reader sees how much a proof rests on. */
export interface Gone {
  leaves: number;
  rows: number;
}

/** Where a tree is no proof, as a way down it, and why. */
export interface Fault {
  readonly where: string;
  readonly why: string;
}

interface Checking {
  readonly scenario: Scenario;
  readonly pairs: Pairs;
  readonly named: readonly CertifiedPair[];
  readonly claim: Claim;
  readonly chosen: OptionSet;
  readonly gone: Gone;
  /** Once false, what is left is not looked at: its caller must ask the same again. */
  readonly keepOn: () => boolean;
}

/** The first fault of a claim over a range and the options allowed; undefined where it is proved. */
export function faultOfClaim(
  checking: Checking,
  box: Range4,
  domains: OptionDomains,
): Fault | undefined {
  return faultOf(checking, checking.claim.tree, box, domains, '');
}

function faultOf(
  checking: Checking,
  tree: Tree,
  box: Range4,
  domains: OptionDomains,
  where: string,
): Fault | undefined {
  const at = (why: string): Fault => ({ where: where || 'at the top', why });
  if (!checking.keepOn()) return at('it was stopped');
  if ('split' in tree) {
    const { split: k, at: cut, parts } = tree;
    if (!(cut >= box.lo[k] && cut <= box.hi[k])) return at('it is cut outside its box');
    const low = { lo: box.lo, hi: withOne(box.hi, k, cut) };
    const high = { lo: withOne(box.lo, k, cut), hi: box.hi };
    return (
      faultOf(checking, parts[0], low, domains, `${where}<`) ??
      faultOf(checking, parts[1], high, domains, `${where}>`)
    );
  }
  if ('choice' in tree) {
    const { choice, options } = tree;
    for (const option of domains[choice] ?? []) {
      const found = options.find(([o]) => o === option);
      if (!found) return at('an open option is left out');
      const next = domains.map((domain, c) => (c === choice ? [option] : domain));
      const fault = faultOf(checking, found[1], box, next, `${where}[${choice}:${option}]`);
      if (fault) return fault;
    }
    return domains[choice] ? undefined : at('there is no such choice');
  }
  checking.gone.leaves++;
  if ('none' in tree) {
    // Work closes a leaf of the claim that speaks of work, and of no other.
    const isNone =
      tree.none === 'work'
        ? checking.claim.about === 'less work' && !isLessWork(checking, domains)
        : !anyGoes(checking, domains);
    return isNone ? undefined : at('options are left out that count');
  }
  // What cannot stand beside any open option is out before rows are asked for.
  const open = narrow(checking.scenario, domains);
  if (!open) return undefined;
  const why = faultOfRows(checking, tree.rows, tree.shares, box, open);
  return why === undefined ? undefined : at(why);
}

function withOne(x: Four, k: number, value: number): Four {
  return x.map((one, i) => (i === k ? value : one)) as unknown as Four;
}

/** True unless it is certain that no set in the domains is compatible. */
function anyGoes({ scenario }: Checking, domains: OptionDomains): boolean {
  const open = narrow(scenario, domains);
  if (!open) return false;
  return (
    open.some((domain) => domain.length > 1) ||
    isCompatible(
      scenario,
      open.map(([o]) => o!),
    )
  );
}

/** Hours and money closer than this are the same. */
const SAME_WORK = 1e-9;

/**
 * True unless every set in the domains is at least as much work as the answer's: hours first, then money. A sum
 * of doubles, taken in the same order, never falls as one of them rises, so what is least is least of the sums.
 */
function isLessWork({ scenario, chosen }: Checking, domains: OptionDomains): boolean {
  const works = domains.map((domain, c) => domain.map((o) => scenario.choices[c]!.options[o]!));
  const own = workOf(scenario, chosen);
  const sum = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0);
  const fewest = works.map((list) => minOf(list.map(({ hours }) => hours)));
  if (!(sum(fewest) >= own.hours - SAME_WORK)) return true;
  // Of as many hours are only sets of options that can each be part of one; among those money tells.
  const costs = works.map((list, c) => {
    const isOf = ({ hours }: Option): boolean =>
      sum(fewest.map((least, d) => (d === c ? hours : least))) <= own.hours + SAME_WORK;
    return minOf(list.filter(isOf).map(({ cost }) => cost));
  });
  return sum(costs) < own.cost - SAME_WORK;
}

/** The rows are rows, and their shares leave no more than the claim says. */
function faultOfRows(
  { scenario, pairs, named, claim, gone, keepOn }: Checking,
  rows: readonly CertifiedRow[],
  shares: readonly number[],
  box: Range4,
  domains: OptionDomains,
): string | undefined {
  if (shares.length !== rows.length) return 'rows and shares do not pair up';
  let soft: Interval = ZERO;
  let value: Interval = ZERO;
  const slopes: Interval[] = [ZERO, ZERO, ZERO, ZERO];
  for (const [i, row] of rows.entries()) {
    const share = shares[i]!;
    if (!(share >= 0)) return 'a share is below 0';
    if (share === 0) continue;
    gone.rows++;
    if ('pair' in row) {
      const pair = named[row.pair];
      if (!pair || !pairs.knows(pair)) return 'there is no such pair';
      const fault = faultOfMarginRow(row, pairs, pair, domains, box, keepOn);
      if (fault !== undefined) return `${pair.parts.join(' - ')}: ${fault}`;
      soft = add(soft, exactly(share));
    } else {
      const fault = faultOfLimitRow(row, scenario, domains, box, keepOn);
      if (fault !== undefined) return `limit ${row.limit + 1}: ${fault}`;
    }
    value = add(value, mul(exactly(share), exactly(row.value)));
    row.slopes.forEach((slope, k) => {
      slopes[k] = add(slopes[k]!, mul(exactly(share), exactly(slope)));
    });
  }
  let most = value;
  for (const slope of slopes) most = add(most, exactly(Math.max(-slope.lo, slope.hi)));
  if (soft.hi === 0) return most.hi < 0 ? undefined : 'its limits can be kept';
  const allowed = mul(soft, exactly(claim.most));
  return sub(most, allowed).hi <= 0 ? undefined : 'its rows leave more than is claimed';
}

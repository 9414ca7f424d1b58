/** The part nobody drew is the one that hits: what a bay usually has and a file does not show. */

import { historyOf } from './part-history.js';
import { KINDS } from './kinds.js';
import type { Kind } from './kinds.js';
import type { Scenario } from './scenario.js';

/**
 * What nearly every running vehicle with a piston engine has near it, whatever its make: things on
 * one vehicle and not on the next (compressor, turbocharger, transfer case) are left out.
 */
const USUAL: readonly Kind[] = [
  'block',
  'valve cover',
  'intake',
  'air cleaner',
  'distributor',
  'pulley',
  'balancer',
  'water pump',
  'belt',
  'radiator',
  'hose',
  'alternator',
  'oil pan',
  'oil filter',
  'starter',
  'header',
  'exhaust',
  'bell housing',
  'transmission',
  'shifter',
  'driveshaft',
  'engine mount',
  'frame rail',
  'crossmember',
  'firewall',
  'tunnel',
  'floor',
  'hood',
  'inner fender',
  'heater',
  'steering box',
  'steering shaft',
  'steering linkage',
  'brake booster',
  'brake line',
  'fuel line',
  'wiring',
];

/** One of each of these is enough: a bay has the one or the other. */
const EITHER: readonly (readonly Kind[])[] = [
  ['mechanical fan', 'electric fan'],
  ['axle', 'suspension'],
];

/**
 * Kinds a bay usually has that the file neither draws, under any option, nor lists as not fitted,
 * in the rule book's order of kinds.
 */
export function notDrawn(s: Scenario): readonly Kind[] {
  const there = new Set<Kind>(s.notFitted);
  for (const { base, effects } of historyOf(s).values()) {
    const others = [...effects.values()].flatMap((byOption) => [...byOption.values()]);
    for (const part of [base, ...others.flatMap(({ add, replace }) => [add, replace])]) {
      if (part?.kind !== undefined) there.add(part.kind);
    }
  }
  const either = EITHER.filter((kinds) => !kinds.some((kind) => there.has(kind)));
  const alone = USUAL.filter((kind) => !EITHER.flat().includes(kind) && !there.has(kind));
  const missing = new Set([...alone, ...either.map(([first]) => first!)]);
  return KINDS.filter((kind) => missing.has(kind));
}

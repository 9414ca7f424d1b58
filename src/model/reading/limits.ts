/** Hard limits on quantities of the position. */

import type { Coordinate, Limit, Path, PositionRanges, Scenario } from '../scenario.js';
import type { RawLimit } from '../schema.js';
import type { Census } from './census.js';
import { readCoordinate } from './header.js';
import type { Reading } from './reading.js';
import { readMass } from './weight.js';

interface Known {
  readonly census: Census;
  readonly datums: Scenario['datums'];
  readonly position: Partial<PositionRanges>;
  /** Whether the file says what the vehicle weighs, well or badly. */
  readonly weighed: boolean;
}

/** Reads a list of limits; those with a problem are left out once it is said. */
export function readLimits(
  c: Reading,
  raw: readonly RawLimit[] | undefined,
  path: Path,
  known: Known,
): readonly Limit[] {
  return c.items(raw).flatMap((given, index) => {
    const at = [...path, index];
    const limit = c.faulty(at) ? undefined : readLimit(c, given, at, known);
    return limit === undefined ? [] : [limit];
  });
}

/** Limits that no position can meet beside earlier ones, each said at its own place. */
export function sayContradictions(
  c: Reading,
  limits: readonly Limit[],
  standing: readonly Limit[] = [],
): void {
  limits.forEach((limit, index) => {
    const earlier = [...standing, ...limits.slice(0, index)];
    if (earlier.every((other) => !sameQuantity(limit, other) || overlap(limit, other))) return;
    const message = 'this limit and an earlier one leave nothing between them';
    c.say('bad limit', limit.path ?? [], message);
  });
}

function sameQuantity(a: Limit, b: Limit): boolean {
  return JSON.stringify(a.quantity) === JSON.stringify(b.quantity);
}

function overlap(a: { min: number; max: number }, b: { min: number; max: number }): boolean {
  return Math.max(a.min, b.min) <= Math.min(a.max, b.max);
}

function readLimit(c: Reading, raw: RawLimit, path: Path, known: Known): Limit | undefined {
  const before = c.problems.length;
  const end = (key: 'min' | 'max', open: number) => {
    const given = raw[key];
    if (given === undefined) return open;
    const at = [...path, key];
    const { quantity } = raw;
    if (quantity === 'height above') return c.length(given, at) ?? open;
    if (quantity === 'front axle load') return readMass(c, given, at) ?? open;
    return readCoordinate(c, given, at, quantity) ?? open;
  };
  const min = end('min', -Infinity);
  const max = end('max', Infinity);
  const quantity = readQuantity(c, raw, path, known);
  if (raw.min === undefined && raw.max === undefined) {
    c.say('missing', path, 'the limit has neither min nor max', { expected: 'min, max or both' });
  } else if (min > max) {
    c.say('bad limit', [...path, 'min'], 'min is more than max', { expected: 'the lesser as min' });
  } else if (raw.quantity !== 'height above' && raw.quantity !== 'front axle load') {
    sayOutside(c, raw.quantity, { min, max }, path, known.position);
  }
  if (quantity === undefined || c.problems.length > before) return undefined;
  return { quantity, min, max, ...(raw.why === undefined ? {} : { why: raw.why }), path };
}

function sayOutside(
  c: Reading,
  of: Coordinate,
  limit: { min: number; max: number },
  path: Path,
  position: Partial<PositionRanges>,
): void {
  const range = position[of];
  if (range === undefined || overlap(limit, range)) return;
  const message = `the limit leaves nothing of the range that position gives ${of}`;
  c.say('bad limit', path, message, { expected: 'a limit that meets the range' });
}

function readQuantity(
  c: Reading,
  raw: RawLimit,
  path: Path,
  { census, datums, weighed }: Known,
): Limit['quantity'] | undefined {
  if (raw.quantity !== 'height above') {
    const extra = (['of', 'above'] as const).find((key) => raw[key] !== undefined);
    if (extra !== undefined) {
      c.say('bad limit', [...path, extra], `${extra} goes only with quantity: height above`);
      return undefined;
    }
    if (raw.quantity !== 'front axle load' || weighed) return { of: raw.quantity };
    const message = 'a limit on the front axle load needs the weights of the vehicle';
    c.say('missing', [...path, 'quantity'], message, {
      expected: 'weight: at the top of the file',
    });
    return undefined;
  }
  const what = readMeasured(c, raw, path, census, datums);
  const above = datums.chassis.find((datum) => datum.name === raw.above);
  if (raw.above === undefined) {
    c.say('missing', [...path, 'above'], "'above' is missing", { expected: 'a chassis datum' });
  } else if (above === undefined) {
    const names = datums.chassis.map((datum) => datum.name);
    c.sayUnknown([...path, 'above'], raw.above, names, 'a chassis datum');
  } else if (above.z === undefined) {
    const message = `the datum '${raw.above}' does not fix a height`;
    c.say('bad limit', [...path, 'above'], message, { expected: 'a datum with z' });
  } else if (what !== undefined) {
    return { of: 'height above', what, above: raw.above };
  }
  return undefined;
}

function readMeasured(
  c: Reading,
  raw: RawLimit,
  path: Path,
  census: Census,
  datums: Scenario['datums'],
): { readonly datum: string } | { readonly part: string } | undefined {
  const expected = 'an engine datum or an engine part';
  const at = [...path, 'of'];
  if (raw.of === undefined) {
    c.say('missing', at, "'of' is missing", { expected });
    return undefined;
  }
  const datum = datums.engine.find(({ name }) => name === raw.of);
  const part = census.parts.get(raw.of)?.[0]!.part;
  if (datum !== undefined) {
    if (datum.z !== undefined) return { datum: raw.of };
    const message = `the datum '${raw.of}' does not fix a height`;
    c.say('bad limit', at, message, { expected: 'a datum with z' });
  } else if (part?.side === 'engine') {
    return { part: raw.of };
  } else if (part !== undefined) {
    c.say('bad limit', at, `'${raw.of}' does not move with the engine`, { expected });
  } else {
    const engine = [...census.parts].filter(([, [first]]) => first!.part.side === 'engine');
    const names = [...datums.engine.map(({ name }) => name), ...engine.map(([name]) => name)];
    c.sayUnknown(at, raw.of, names, expected);
  }
  return undefined;
}

/** Arithmetic on closed intervals: the result holds every result of numbers within the operands. */

import { maxOf, minOf } from './extremes.js';
import type { Range } from './scenario.js';
import * as trig from './trig.js';

export const ZERO: Range = { min: 0, max: 0 };

export function exactly(value: number): Range {
  return { min: value, max: value };
}

export function sum(a: Range, b: Range): Range {
  return { min: a.min + b.min, max: a.max + b.max };
}

export function negative(a: Range): Range {
  return { min: -a.max, max: -a.min };
}

export function product(a: Range, b: Range): Range {
  const ends = [a.min * b.min, a.min * b.max, a.max * b.min, a.max * b.max];
  return { min: minOf(ends), max: maxOf(ends) };
}

/** Cosines of a range of angles. */
export function cosines(by: Range): Range {
  const ends = [trig.cos(by.min), trig.cos(by.max)];
  return {
    min: passes(by, Math.PI) ? -1 : minOf(ends),
    max: passes(by, 0) ? 1 : maxOf(ends),
  };
}

/** Sines of a range of angles. */
export function sines({ min, max }: Range): Range {
  return cosines({ min: min - Math.PI / 2, max: max - Math.PI / 2 });
}

/** Whether a range of angles holds an angle, give or take whole turns. */
function passes({ min, max }: Range, angle: number): boolean {
  const full = 2 * Math.PI;
  return Math.ceil((min - angle) / full) * full + angle <= max;
}

/** The furthest from 0. */
export function largest({ min, max }: Range): number {
  return Math.max(Math.abs(min), Math.abs(max));
}

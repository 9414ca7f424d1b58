/** Arithmetic on closed intervals: the result holds every result of numbers within the operands. */

import type { Range } from './scenario.js';

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
  return { min: Math.min(...ends), max: Math.max(...ends) };
}

/** Cosines of angles from -90 to 90 degrees. */
export function cosines({ min, max }: Range): Range {
  const least = Math.cos(Math.max(Math.abs(min), Math.abs(max)));
  const isLevel = min <= 0 && max >= 0;
  return { min: least, max: isLevel ? 1 : Math.cos(Math.min(Math.abs(min), Math.abs(max))) };
}

/** Sines of angles from -90 to 90 degrees. */
export function sines({ min, max }: Range): Range {
  return { min: Math.sin(min), max: Math.sin(max) };
}

/** The furthest from 0. */
export function largest({ min, max }: Range): number {
  return Math.max(Math.abs(min), Math.abs(max));
}

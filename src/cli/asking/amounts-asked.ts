/** Lengths, times, counts and words of a closed list, as typed. */

import { LENGTH_EXPECTED, parseLength } from '../../model/text/length.js';
import { nearestName } from '../../model/text/nearest.js';
import type { Units } from '../../model/text/tape.js';
import type { Aim } from '../../solver/answer.js';
import { mistake } from '../problems.js';
import { LEAST_MEMORY } from '../running/interrupt.js';
import { PAPERS } from '../sheet/style.js';
import type { PaperName } from '../sheet/style.js';

/** A whole number of points, two at the least. */
export function stepsAsked(option: string, text: string): number {
  const steps = /^\d+$/.test(text.trim()) ? Number(text) : NaN;
  if (steps >= 2 && steps <= MOST_STEPS) return steps;
  throw mistake(`${option} must be a whole number from 2 to ${MOST_STEPS}`, {
    code: 'bad number',
    read: text,
  });
}

/** Points along a slide: each is a search. */
const MOST_STEPS = 1000;

/** A length of an option, in millimetres. */
export function lengthAsked(
  option: string,
  text: string,
  units: Units,
  least: 'over 0' | '0 or more',
): number {
  const length = parseLength(text, units);
  if ('problem' in length) {
    throw mistake(`${option}: ${length.problem}`, {
      code: 'bad length',
      read: text,
      expected: LENGTH_EXPECTED,
    });
  }
  if (least === 'over 0' && length.mm <= 0) {
    throw mistake(`${option} must be more than 0`, { code: 'bad length', read: text });
  }
  if (length.mm < 0) {
    throw mistake(`${option} must be 0 or more`, { code: 'bad length', read: text });
  }
  return length.mm;
}

/** The paper to print on; the printer's own unless one is named. */
export function paperAsked(text: string | undefined): PaperName | undefined {
  const found = PAPERS.find((paper) => paper === text?.toLowerCase());
  if (text === undefined || found) return found;
  throw mistake(`--paper: there is no '${text}'`, { read: text, expected: PAPERS.join(' or ') });
}

/** Seconds. */
export function secondsAsked(option: string, text: string): number {
  const seconds = /^\d*\.?\d+$/.test(text.trim()) ? Number(text) : NaN;
  if (Number.isFinite(seconds) && seconds > 0) return seconds;
  throw mistake(`${option} must be a number of seconds more than 0`, {
    code: 'bad number',
    read: text,
    expected: 'seconds, such as 10 or 0.5',
  });
}

/** Whole MiB. */
export function mebibytesAsked(option: string, text: string): number {
  const size = /^\d{1,7}$/.test(text.trim()) ? Number(text) : NaN;
  if (size >= LEAST_MEMORY) return size;
  throw mistake(`${option} must be a whole number of MiB, ${LEAST_MEMORY} or more`, {
    code: 'bad number',
    read: text,
    expected: 'MiB, such as 512',
  });
}

const AIMS: Readonly<Record<string, Aim>> = {
  margin: 'margin',
  centre: 'centre',
  center: 'centre',
  low: 'low',
  back: 'back',
};

/** What to aim for. */
export function aimAsked(text: string): Aim {
  if (Object.hasOwn(AIMS, text)) return AIMS[text]!;
  const nearest = nearestName(text, Object.keys(AIMS));
  throw mistake(`--aim: there is no '${text}'`, {
    read: text,
    expected: 'margin, centre, low or back',
    ...(nearest === undefined ? {} : { nearest }),
  });
}

/** Exit statuses. */

import type { Verdict } from './report/headline.js';

export const STATUS: Readonly<Record<Verdict, number>> = {
  fits: 0,
  'does not fit': 1,
  undecided: 3,
};

export const BAD_INPUT = 2;

/** A fault in the program itself (EX_SOFTWARE of sysexits.h). */
export const FAULT = 70;

/** Nowhere to put the answer: a full disk (EX_IOERR of sysexits.h). */
export const CANNOT_WRITE = 74;

import type { Four } from '../model/certificate.js';
import type { Vec3 } from '../model/scenario.js';
import type { Interval } from './outward.js';

/** Where a row is to hold: setback, offset, height and pitch between two ends each. */
export interface Range4 {
  readonly lo: Four;
  readonly hi: Four;
}

/** One of the 8 ends of setback, offset and height. */
export interface Corner {
  readonly index: number;
  readonly signs: readonly number[];
  readonly x: Vec3;
  /** The row there, with what the pair needs and the balls added, at the least and the greatest pitch. */
  readonly row: readonly [Interval, Interval];
}

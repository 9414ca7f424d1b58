/** One row of the rule book: the kinds it joins, the gap it asks for, and why. */

import type { Kind } from '../kinds.js';
import type { Facing, Measure, Side } from '../scenario.js';

/** How far a source may be trusted: the words in front of a printed source name the print. */
export type Source = 'common practice, no source' | 'our default' | `in print: ${string}`;

/** What an end of a row speaks of: kinds, every one of which it joins, or a whole side. */
export type RowEnd = readonly Kind[] | Side;

export interface Row {
  /** First ends, second ends: every kind of the one is joined with every kind of the other. */
  readonly between: readonly [RowEnd, RowEnd];
  /** Millimetres, or `ignore` for kinds that are joined to each other. */
  readonly gap: number | 'ignore';
  /** `nearest` unless said. */
  readonly measured?: Measure;
  readonly facing?: Facing;
  /** True when the gap is to the room a part needs to come out. */
  readonly comingOut?: true;
  readonly why: string;
  readonly source: Source;
}

/** Millimetres in an inch (NIST SP 811). */
export const INCH = 25.4;

export const PRACTICE = 'common practice, no source';
export const OURS = 'our default';
/** A club's how-to: gaps around engine and radiator by engine size. */
export const CLUB: Source = "in print: 'Well Spaced Out', club how-to";
/** A federation's guide: engine and gearbox to everything 10 to 15 mm. */
export const FEDERATION: Source = "in print: Australian Street Rod Federation, 'So Let's Be Clear'";
/** A fan maker: 1 in fore and aft, tips 3/4 in from a shroud the engine moves against. */
export const FAN_MAKER: Source = "in print: fan maker's installation notes";
/** Modification rules: brake and fuel lines 3 in or more from a heat source unless shielded. */
export const LINES: Source = 'in print: modification rules on brake and fuel lines';

/** Parts that burn what they touch. */
export const HOT: readonly Kind[] = ['header', 'exhaust', 'turbocharger'];
/** Parts that steer. */
export const STEERING: readonly Kind[] = [
  'steering valve',
  'steering box',
  'steering shaft',
  'steering linkage',
];
/** Parts that move with the wheels. */
export const RUNNING_GEAR: readonly Kind[] = ['axle', 'suspension', 'spring'];

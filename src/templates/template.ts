/** What a template is: the sizes that scale it, and how it is drawn at them. */

import type { Kind } from '../model/kinds.js';
import type { DrawnPart } from './drawing.js';
import type { BaySize, EngineSize, SizeRanges, Sizes, Sump, TransmissionSize } from './sizes.js';

/** Two parts of the engine that touch, or run into each other, on purpose. */
export type Contact = readonly [string, string];

export interface EngineTemplate {
  readonly sizes: SizeRanges<EngineSize>;
  /** Where the sump usually is. */
  readonly sump: Sump;
  /** What the height is taken up to, as a datum of the file. */
  readonly top: 'carb pad' | 'intake top' | 'valve cover top';
  readonly contacts: readonly Contact[];
  /** Kinds that such an engine has not. */
  readonly lacks: readonly Kind[];
  /** The engine, all of it ahead of the rear face of the block; a part named `fan` among it. */
  draw(sizes: Sizes<EngineSize>, sump: Sump): readonly DrawnPart[];
}

export interface TransmissionTemplate {
  readonly sizes: SizeRanges<TransmissionSize>;
  readonly contacts: readonly Contact[];
  readonly lacks: readonly Kind[];
  /** Bell housing to driveshaft, all of it behind the rear face of the block. */
  draw(sizes: Sizes<TransmissionSize>): readonly DrawnPart[];
}

/** The sizes of a bay, and the sizes that are not asked for but differ from bay to bay. */
export interface BayTemplate {
  readonly sizes: SizeRanges<BaySize>;
  /** Degrees, tail down: how far the search may go. */
  readonly pitch: readonly [number, number];
  /** Crank above rail top: how far the search may go. */
  readonly height: readonly [number, number];
  readonly lacks: readonly Kind[];
  /**
   * The chassis, from the front axle centreline, the frame's middle and the top of the rails.
   * @param driver -1 with the driver on the left, 1 on the right.
   */
  draw(sizes: Sizes<BaySize>, driver: -1 | 1): readonly DrawnPart[];
}

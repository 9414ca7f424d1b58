/** The pieces of a mount of plates and tube, in the vehicle frame. */

import type { Gusset } from './gusset.js';
import type { Plate } from './plate.js';
import type { CutTube } from './tube.js';

/** The pieces, once the two plates face each other. */
export interface MountPieces {
  readonly base: Plate;
  readonly upper: Plate;
  readonly tube: CutTube;
  readonly gussets: readonly Gusset[];
  /** Radians that the upper plate is tilted to the base plate. */
  readonly tilt: number;
}

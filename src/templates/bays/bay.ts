/** A bay put together from its regions. */

import type { DrawnPart } from '../drawing.js';
import type { BaySize, Sizes } from '../sizes.js';
import type { BayTemplate } from '../template.js';
import { cooling } from './cooling.js';
import type { Cooling } from './cooling.js';
import { frame } from './rails.js';
import type { Frame } from './rails.js';
import type { Travel } from './running.js';
import { sheetMetal } from './sheet.js';
import type { Sheet } from './sheet.js';
import { steering } from './steering.js';
import type { Steering } from './steering.js';

/** What differs from bay to bay beyond the sizes that are asked for. Inches. */
interface Regions extends Omit<BayTemplate, 'draw'> {
  readonly cooling: Cooling;
  readonly frame: Frame;
  readonly steering: Steering;
  readonly wheels: {
    readonly carriedBy: (sizes: Sizes<BaySize>, half: number, travel: Travel) => DrawnPart[];
    /** Half the length of what carries them. */
    readonly half: number;
  };
  readonly travel: Travel;
  readonly sheet: Sheet;
}

export function bay(regions: Regions): BayTemplate {
  const { sizes: ranges, pitch, height, lacks, wheels, travel } = regions;
  return {
    sizes: ranges,
    pitch,
    height,
    lacks,
    draw: (sizes, driver) => [
      ...cooling(sizes, regions.cooling),
      ...frame(sizes, driver, regions.frame),
      ...steering(sizes, driver, regions.steering, travel),
      ...wheels.carriedBy(sizes, wheels.half, travel),
      ...sheetMetal(sizes, driver, regions.sheet),
    ],
  };
}

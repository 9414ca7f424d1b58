/** What moves with the wheels: a beam axle, a driven axle, or arms; and springs. */

import { box, cylinder, part } from '../drawing.js';
import type { DrawnPart, DrawnSolid } from '../drawing.js';
import type { BaySize, Sizes } from '../sizes.js';
import { insideAt } from './rails.js';

export interface Travel {
  readonly bump: number;
  readonly droop: number;
}

const NOTE = 'swept from droop to bump; its top at bump is the answer';
const MEASURED = { measuredBy: ['axle'] } as const;

/** A beam from wheel to wheel. */
export function beamAxle(sizes: Sizes<BaySize>, half: number, travel: Travel): DrawnPart[] {
  const tubeAcross = across(-sizes.axle - travel.bump, 3.5, half);
  return [
    part('front axle', 'axle', tubeAcross, { ...MEASURED, ...swept(travel), note: NOTE }),
    leafSpring(sizes, travel),
  ];
}

/** A driven axle: its highest point is the differential, to the left of the middle. */
export function drivenAxle(sizes: Sizes<BaySize>, half: number, travel: Travel): DrawnPart[] {
  const top = -sizes.axle - travel.bump;
  const housing = box([-5, 5], [-11, -3], [top - 8, top]);
  const solids = [housing, across(top - 2, 3.5, half)];
  return [
    part('front axle', 'axle', solids, { ...MEASURED, ...swept(travel), note: NOTE }),
    leafSpring(sizes, travel),
  ];
}

/** Lower arms to each side, their inner ends below the rails, with a coil standing on each. */
export function arms(sizes: Sizes<BaySize>, half: number, travel: Travel): DrawnPart[] {
  const top = -sizes.axle - travel.bump;
  const inner = insideAt(sizes, 0);
  const arm = box([-6, 6], [-half, -inner + 3], [top - 2, top]);
  const coil = cylinder('z', [top, 2], [0, -inner - 5.5], 5);
  return [
    part('left arm', 'suspension', arm, {
      mirror: 'right arm',
      ...MEASURED,
      ...swept(travel),
      note: NOTE,
    }),
    part('left coil', 'spring', coil, { mirror: 'right coil' }),
  ];
}

function across(top: number, diameter: number, half: number): DrawnSolid {
  return cylinder('y', [-half, half], [0, top - diameter / 2], diameter);
}

function leafSpring(sizes: Sizes<BaySize>, travel: Travel): DrawnPart {
  const y = insideAt(sizes, 0) + 1;
  const top = -sizes.axle + 1.5;
  return part('left spring', 'spring', box([-22, 22], [-y - 2.5, -y], [top - 2.5, top]), {
    mirror: 'right spring',
    sweep: { z: [-travel.droop, 0] },
  });
}

function swept({ bump, droop }: Travel) {
  return { sweep: { z: [-droop, bump] } } as const;
}

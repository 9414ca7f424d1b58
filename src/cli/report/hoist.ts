/** Whether the engine goes in along the hoist path, and where it is caught. */

import { inUnits, tapeSize } from '../../model/text/tape.js';
import { leanOf, leans, stanceOf } from '../../model/stance.js';
import type { Seat } from '../../model/stance.js';
import type { Hoist } from '../../solver/measuring/hoist.js';
import { paragraph, whole } from './lines.js';
import type { Section } from './lines.js';
import { name } from '../../words/text.js';
import { whereWords } from '../../words/where.js';
import { spare } from '../../words/words.js';
import type { Telling } from '../../words/words.js';

/** Radians in the step of an angle finder. */
const FINDER_STEP = Math.PI / 1800;

/** Said whole where the engine may be caught; gives way where it goes in. */
export function hoistSection(hoist: Hoist | undefined, telling: Telling): Section {
  if (hoist === undefined) return whole([]);
  const lines = paragraph('Hoist', hoistWords(hoist, telling), telling.look);
  if (hoist.fits !== 'yes') return whole(lines);
  return { lines, shorter: () => lines.slice(0, 1), least: 1, yields: 5 };
}

/**
 * `goes in with 3/8 to spare: oil pan - crossmember, at position 2`; `caught: oil pan - crossmember,
 * short 1 1/4, on the way from position 1 to 2 (near 16 back of front axle, ...)`.
 */
function hoistWords({ fits, margin, worst }: Hoist, telling: Telling): string {
  if (worst === undefined) return 'goes in: there is nothing in its way';
  const left = spare(margin, telling.units);
  const pair = worst.between.map((part) => name(part, telling.look)).join(' - ');
  const where = placeWords(worst.leg, telling);
  if (fits === 'yes') return `goes in with ${left}: ${pair}, ${where}`;
  const near = whereWords(onMarks(worst.position, telling), telling).join(', ');
  const caught = fits === 'no' ? 'caught' : 'may be caught';
  return `${caught}: ${pair}, ${left}, ${where} (near ${near})`;
}

/** Positions are counted as the file lists them, from 1. */
function placeWords([from, to]: readonly [number, number], { scenario }: Telling): string {
  const last = scenario.hoistPath?.through.length ?? 0;
  if (from === to) return from === last ? 'in its place' : `at position ${from + 1}`;
  return `on the way from position ${from + 1} to ${to === last ? 'its place' : to + 1}`;
}

/** To the nearest marks of tape and angle finder. */
function onMarks(position: Seat, { units }: Telling): Seat {
  const mark = (mm: number) => tapeSize(mm, units, { round: 'nearest' }) / inUnits(1, units);
  const step = (angle: number) => Math.round(angle / FINDER_STEP) * FINDER_STEP;
  const { setback, offset, height, pitch } = position;
  const level = {
    setback: mark(setback),
    offset: mark(offset),
    height: mark(height),
    pitch: step(pitch),
  };
  if (!leans(position)) return level;
  const { roll, yaw } = leanOf(position);
  return stanceOf(level, step(roll), step(yaw));
}

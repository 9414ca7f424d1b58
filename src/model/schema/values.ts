/** What the sections of a scenario file have in common: lengths, names, points, ranges. */

import { z } from 'zod';
import { KINDS } from '../kinds.js';
import { ANGLE_EXPECTED, LENGTH_EXPECTED } from '../text/length.js';
import { PLACE_EXPECTED } from '../text/places.js';

export const lengthSchema = z
  .union([z.number(), z.string()], { error: LENGTH_EXPECTED })
  .meta({ id: 'length' })
  .describe('A length: a number or tape fraction in the units of the file, or with its own unit.');
export const place = z
  .union([z.number(), z.string()], { error: PLACE_EXPECTED })
  .meta({ id: 'place' })
  .describe(
    'Where along an axis: a length from the origin, or a place such as 9 ahead of front axle ' +
      '(ahead of, behind, left of, right of, above, below; a datum of the same side); ' +
      'with its measuring error after +-.',
  );
export const angleSchema = z
  .union([z.number(), z.string()], { error: ANGLE_EXPECTED })
  .meta({ id: 'angle' })
  .describe('Degrees.');
/** What rock may look like, for messages. */
export const ROCK_EXPECTED = 'degrees, or a length at a part: { by: 1/2, at: valve cover }';
export const text = z.string({ error: 'words' });
export const name = z.string({ error: 'a name, in quotes where it is a number' });
const amount = z.number({ error: 'a number, 0 or more' });
export const hours = amount.optional().describe('Hours of work; 0 unless given.');
export const cost = amount.optional().describe('Money; 0 unless given.');
export const axis = z
  .enum(['x', 'y', 'z'], { error: 'x, y or z' })
  .describe('An axis: x rearward, y to the right, z up.');
export const kind = z
  .enum(KINDS, { error: 'a kind from the rule book' })
  .meta({ id: 'kind' })
  .describe('What the part is; the rule book speaks of kinds.');

/** Two of a kind, from and to; `what` begins the words for what was expected. */
export function range<T extends z.ZodType>(of: T, what: string) {
  return z.tuple([of, of], { error: `${what} [from, to]` });
}
const lengthRange = range(lengthSchema, 'a range of two lengths,').describe(
  'A range of lengths: [from, to], the lesser first.',
);
export const placeRange = range(place, 'a range of two lengths,').describe(
  'A range along an axis: [from, to], the lesser first.',
);
export const point3 = z
  .tuple([place, place, place], { error: 'a point [x, y, z]' })
  .describe('A point: [x, y, z].');
export const point2 = z
  .tuple([place, place], {
    error: 'two lengths, along the two remaining axes in x, y, z order',
  })
  .describe('Two lengths, along the two remaining axes in x, y, z order.');

export const facing = z.enum(['ahead', 'behind', 'left', 'right', 'above', 'below'], {
  error: 'ahead, behind, left, right, above or below',
});

/** From where to where along each axis, where that matters at all. */
export const stretchSchema = z.strictObject(
  { x: placeRange.optional(), y: placeRange.optional(), z: placeRange.optional() },
  { error: 'x, y or z ranges' },
);
/** How far along each axis, where it is free to go at all. */
export const motionSchema = z.strictObject(
  { x: lengthRange.optional(), y: lengthRange.optional(), z: lengthRange.optional() },
  { error: 'x, y or z ranges' },
);

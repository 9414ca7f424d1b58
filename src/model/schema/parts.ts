/** A part: its solids, and how it moves. */

import { z } from 'zod';
import { shapes, solidSchema } from './solids.js';
import { angleSchema, axis, kind, motionSchema, name, point3, range } from './values.js';

const turnSchema = z
  .strictObject(
    {
      about: axis,
      at: point3.describe('A point that the axis runs through: the pivot.'),
      by: range(angleSchema, 'a range of two angles,').describe(
        'From one angle to another, the lesser first; 0 is as drawn.',
      ),
    },
    { error: 'about, at and by' },
  )
  .describe('The part turns in use: by every angle of a range, right-handed about an axis.');

export const partSchema = z
  .strictObject(
    {
      kind: kind.optional(),
      guess: z
        .boolean({ error: 'true or false' })
        .optional()
        .describe('true: its sizes are guessed, and every answer that rests on them says so.'),
      ...shapes,
      solids: z
        .array(solidSchema, { error: 'a list of solids' })
        .optional()
        .describe('Several solids that make one part.'),
      mirror: name
        .optional()
        .describe("Name of a second part: this one's mirror image across the centre, y negated."),
      turn: turnSchema.optional(),
      sweep: motionSchema
        .optional()
        .describe('The part moves in use by every amount in these ranges.'),
      'comes out': motionSchema.optional().describe('The room the part needs to be withdrawn.'),
    },
    { error: 'a part, with a solid' },
  )
  .meta({ id: 'part' });
/** Parts by name, as a side lists them. */
export const parts = z.record(name, partSchema, { error: 'parts by name' });

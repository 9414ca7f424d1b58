/** A part: its solids, and how it moves. */

import { z } from 'zod';
import { shapes, solidSchema } from './solids.js';
import { kind, motionSchema, name } from './values.js';

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

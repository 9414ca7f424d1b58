/** What the vehicle weighs, what comes out of it and what goes in. */

import { z } from 'zod';
import { MASS_EXPECTED } from '../text/mass.js';
import { name, place, point3 } from './values.js';

export const massSchema = z
  .union([z.number(), z.string()], { error: MASS_EXPECTED })
  .meta({ id: 'weight' })
  .describe(
    'A weight in lb or kg; a bare number is in lb in a file in inches, in kg in one in mm.',
  );

const outSchema = z.strictObject(
  {
    weight: massSchema,
    at: point3.describe('Its centre of gravity where it was, from the chassis datum: [x, y, z].'),
  },
  { error: 'what comes out: weight, at' },
);
const inSchema = z.strictObject(
  {
    weight: massSchema,
    at: point3.describe('Its centre of gravity, from the datum of its side: [x, y, z].'),
    side: z
      .enum(['engine', 'chassis'], { error: 'engine or chassis' })
      .optional()
      .describe('Which it rides with; the side of its part where it names one.'),
    part: name
      .optional()
      .describe('The part that it is: there only while that stands, and moved with it.'),
  },
  { error: 'what goes in: weight, at, side' },
);

export const weightSchema = z
  .strictObject(
    {
      axles: z
        .strictObject({ front: place, rear: place }, { error: 'front and rear' })
        .describe('Where the axles stand: X, from the chassis datum.'),
      before: z
        .strictObject(
          { front: massSchema, rear: massSchema.optional() },
          { error: 'front, and rear' },
        )
        .describe('What each axle weighed with all of `out` still in the vehicle.'),
      out: z
        .record(name, outSchema, { error: 'what comes out, by name' })
        .optional()
        .describe('What comes out.'),
      in: z.record(name, inSchema, { error: 'what goes in, by name' }).describe('What goes in.'),
    },
    { error: 'the weight: axles, before, out, in' },
  )
  .describe('Weights and centres of gravity, for the load on the front axle.');

/** How the engine goes in. */

import { z } from 'zod';
import { angleSchema, lengthSchema, name, place } from './values.js';

const names = z.array(name, { error: 'a list of parts, groups or kinds' });
const stopSchema = z
  .strictObject(
    {
      setback: place.describe('How far back the engine datum is.'),
      offset: place.describe('How far to the right it is.'),
      height: place.describe('How high it is.'),
      pitch: angleSchema,
    },
    { error: 'a position: setback, offset, height and pitch' },
  )
  .describe('A position on the way in; it may lie outside the ranges of position.');

export const hoistSchema = z
  .strictObject(
    {
      off: names
        .optional()
        .describe('Chassis parts, groups or kinds that are off while the engine goes in.'),
      without: names
        .optional()
        .describe('Engine parts, groups or kinds that are put on afterwards.'),
      gap: lengthSchema.optional().describe('The gap needed on the way in; 0 unless given.'),
      through: z
        .array(stopSchema, { error: 'a list of positions' })
        .describe('Positions, first to last; the last leg goes on to where the engine sits.'),
    },
    { error: 'a hoist path: through, a list of positions' },
  )
  .describe('How the engine goes in, checked at rest along straight legs between positions.');

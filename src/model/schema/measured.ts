/** The file of readings that `berth asbuilt` takes: what was taped on the engine as it hangs. */

import { z } from 'zod';
import { angleSchema, lengthSchema, name, place } from './values.js';

const gapSchema = z.strictObject(
  {
    between: z
      .tuple([name, name], { error: 'two parts [one, other]' })
      .describe('A part of the engine and one of the chassis.'),
    measured: z
      .enum(['nearest', 'fore-aft', 'side-to-side', 'up-down'], {
        error: 'nearest, fore-aft, side-to-side or up-down',
      })
      .optional()
      .describe('How it was taped; nearest unless given.'),
    reads: lengthSchema.describe('What the tape reads, at rest; its error may follow +-.'),
  },
  { error: 'a gap: between and reads' },
);

const pointSchema = z.strictObject(
  {
    of: name.describe('A datum of the engine.'),
    at: z
      .tuple([place, place, place], { error: 'a point [x, y, z]' })
      .optional()
      .describe('Where on it, from the engine datum; on the crankshaft line unless given.'),
    is: z
      .string({ error: "a place such as '2 7/8 behind core face'" })
      .describe('Where that point is, from a datum of the chassis; its error may follow +-.'),
  },
  { error: 'a point: of and is' },
);

export const measuredSchema = z.strictObject(
  {
    measured: z.literal(1, { error: '1' }).describe('The format of this file.'),
    units: z.enum(['in', 'mm'], { error: 'in or mm' }).optional(),
    error: lengthSchema.optional().describe('By how much a tape may be off; 1/16 in unless given.'),
    'angle error': angleSchema
      .optional()
      .describe('By how many degrees an angle finder may be off; 0.1 unless given.'),
    gaps: z.array(gapSchema, { error: 'a list of gaps' }).optional(),
    points: z.array(pointSchema, { error: 'a list of points' }).optional(),
    angles: z
      .strictObject(
        {
          pitch: angleSchema.optional().describe('Degrees, tail-down.'),
          roll: angleSchema.optional().describe('Degrees, right side up.'),
          on: z.enum(['frame', 'floor'], { error: 'frame or floor' }).optional(),
        },
        { error: 'pitch, roll, on' },
      )
      .optional(),
    adjusters: z
      .record(name, lengthSchema, { error: 'adjusters by name' })
      .optional()
      .describe('How long adjusters of the mock-up are, from point to point.'),
  },
  { error: 'a file of readings: measured, gaps, points, angles, adjusters' },
);

export type RawMeasured = z.infer<typeof measuredSchema>;

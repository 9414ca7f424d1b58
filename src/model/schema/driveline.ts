/** The driveline behind the engine. */

import { z } from 'zod';
import { angleSchema, lengthSchema, place, point3 } from './values.js';

const pinionSchema = z
  .strictObject(
    {
      at: point3.describe("The centre of the pinion's joint: [x, y, z]."),
      up: angleSchema.describe('Degrees that the nose of the pinion points up.'),
      right: angleSchema
        .optional()
        .describe('Degrees that it points to the right; 0 unless given.'),
    },
    { error: 'a pinion: at and up' },
  )
  .describe("The rear axle's pinion.");

const ratio = z.number({ error: 'a ratio, more than 0' });
const rpm = z.number({ error: 'revolutions a minute' });

export const drivelineSchema = z
  .strictObject(
    {
      output: z
        .strictObject(
          {
            at: z
              .tuple([place, place, place], { error: 'a point [x, y, z]' })
              .describe("The centre of the shaft's front joint, from the engine datum."),
            down: angleSchema
              .optional()
              .describe('Degrees that the output shaft points down from the crankshaft line.'),
            right: angleSchema.optional().describe('Degrees that it points to the right of it.'),
          },
          { error: 'the output: at' },
        )
        .describe('Where the transmission ends.'),
      joints: z
        .enum(['two', 'one', 'constant velocity'], { error: 'two, one or constant velocity' })
        .optional()
        .describe('two unless given; constant velocity: such a joint at the front.'),
      pinion: z
        .strictObject(
          { ride: pinionSchema, bump: pinionSchema.optional(), droop: pinionSchema.optional() },
          { error: 'the pinion at ride, bump and droop' },
        )
        .describe('The pinion at ride height, at full bump and at full droop.'),
      tube: z
        .strictObject(
          { diameter: lengthSchema, wall: lengthSchema },
          { error: 'the tube: diameter and wall' },
        )
        .optional()
        .describe('The steel tube of the shaft.'),
      slip: z
        .strictObject({ in: lengthSchema, out: lengthSchema }, { error: 'in and out' })
        .optional()
        .describe('How far the slip joint goes in, and out, from where it stands at ride height.'),
      gears: z
        .strictObject(
          {
            transmission: z
              .array(ratio, { error: 'a list of ratios' })
              .describe('Ratios of the transmission, lowest gear first.'),
            axle: ratio.optional().describe('Ratio of the axle.'),
          },
          { error: 'gears: transmission, and axle' },
        )
        .optional()
        .describe('Gear ratios.'),
      'top speed': z
        .strictObject(
          {
            shaft: rpm.optional().describe('Of the shaft, revolutions a minute.'),
            engine: rpm
              .optional()
              .describe('Of the engine; the shaft turns at that over the least ratio.'),
          },
          { error: 'shaft or engine' },
        )
        .describe('The greatest speed.'),
      angles: z
        .strictObject(
          {
            least: angleSchema.optional().describe('Degrees at the least; 1/2 unless given.'),
            most: angleSchema
              .optional()
              .describe("Degrees at the most; by the shaft's speed unless given."),
            within: angleSchema
              .optional()
              .describe('Degrees that the two joints may differ by; 1 unless given.'),
          },
          { error: 'least, most or within' },
        )
        .optional()
        .describe('What the joints may work at.'),
      'critical share': z
        .number({ error: 'a share between 0 and 1' })
        .optional()
        .describe('The share of its critical speed that a shaft is used to; 0.75 unless given.'),
    },
    { error: 'a driveline: output, pinion, top speed' },
  )
  .describe('The shaft from the transmission to the rear axle, for `berth driveline`.');

/** Engine mounts: those to make, other supports, what must stay open, and the loads. */

import { z } from 'zod';
import { TORQUE_EXPECTED } from '../text/force.js';
import { shapes, solidSchema } from './solids.js';
import { angleSchema, lengthSchema, name, place, point3, text } from './values.js';
import { massSchema } from './weight.js';

const direction = z.tuple([z.number(), z.number(), z.number()], { error: 'a direction [x, y, z]' });
const size2 = z.tuple([lengthSchema, lengthSchema], { error: 'two lengths, along and across' });
const factor = z.number({ error: 'a number, more than 0' });
const bossHole = z.tuple([place, place, place], { error: 'a point [x, y, z]' });

const socketSchema = z
  .strictObject({ diameter: lengthSchema, length: lengthSchema }, { error: 'diameter, length' })
  .optional()
  .describe(
    'The room that a socket on each bolt needs, out from the plate on the side of the tube.',
  );

const bossSchema = z
  .strictObject(
    {
      holes: z
        .array(bossHole, { error: 'a list of points' })
        .describe('Centres of the bolt holes in its face, from the engine datum; 2 to 4 or more.'),
      normal: direction
        .optional()
        .describe('Out of the block, square to the face; from three holes unless given.'),
      hole: lengthSchema.describe('Diameter of the holes in the upper plate.'),
      socket: socketSchema,
      on: name.optional().describe('The engine part that the boss is of.'),
    },
    { error: 'a boss: holes and hole' },
  )
  .describe('Where the mount is bolted to the block.');

const padSchema = z
  .strictObject(
    {
      at: point3.describe("The middle of the base plate, on the frame's face."),
      face: z
        .union([z.enum(['top', 'inside', 'outside']), direction], {
          error: 'top, inside, outside, or a direction out of the frame [x, y, z]',
        })
        .describe('Which face of the frame it is.'),
      on: name.optional().describe('The chassis part that it is on.'),
    },
    { error: 'a pad: at and face' },
  )
  .describe('Where the mount stands on the frame.');

const basePlateSchema = z
  .strictObject(
    {
      size: size2.describe('Back along the frame, and across (up, on a side face).'),
      thick: lengthSchema.optional(),
      holes: z
        .array(size2, { error: 'a list of points' })
        .optional()
        .describe("From the pad's point: back, and to the right (up, on a side face)."),
      hole: lengthSchema.optional().describe('Their diameter.'),
      socket: socketSchema,
    },
    { error: 'a base plate: size' },
  )
  .describe('The plate on the frame; welded on unless it has holes.');

const upperPlateSchema = z
  .strictObject(
    {
      size: size2.optional().describe("About the boss's centre; by the margin unless given."),
      margin: lengthSchema
        .optional()
        .describe("From a hole's centre to the edge; 1 in or 25 mm unless given."),
      thick: lengthSchema.optional(),
    },
    { error: 'size, margin or thick' },
  )
  .describe('The plate under the boss.');

const gussetsSchema = z
  .strictObject(
    {
      count: z.number({ error: 'a whole number' }).describe('How many at an end of the tube.'),
      ends: z
        .enum(['base', 'upper', 'both'], { error: 'base, upper or both' })
        .optional()
        .describe('At which end; base unless given.'),
      'on plate': lengthSchema.describe('How far along the plate.'),
      'on tube': lengthSchema.describe('How far along the tube.'),
      thick: lengthSchema.optional(),
      first: angleSchema
        .optional()
        .describe('Degrees round the tube from its front to the first, anticlockwise from above.'),
    },
    { error: 'gussets: count, on plate, on tube' },
  )
  .describe('Triangles between the tube and its plates, evenly round it.');

const mountSchema = z.strictObject(
  {
    boss: bossSchema,
    pad: padSchema,
    tube: z
      .strictObject(
        { diameter: lengthSchema, wall: lengthSchema },
        { error: 'the tube: diameter and wall' },
      )
      .describe('The tube between the two plates.'),
    insulator: z
      .strictObject({ height: lengthSchema, diameter: lengthSchema }, { error: 'height, diameter' })
      .optional()
      .describe('The rubber between upper plate and boss; a solid mount has none.'),
    'base plate': basePlateSchema,
    'upper plate': upperPlateSchema.optional(),
    gussets: gussetsSchema.optional(),
    'in place of': z
      .array(name, { error: 'a list of parts' })
      .optional()
      .describe('Parts drawn that it takes the place of.'),
    mirror: name.optional().describe('Name of a second mount: the mirror image across the centre.'),
  },
  { error: 'a mount: boss, pad, tube, base plate' },
);

const supportSchema = z.strictObject(
  {
    at: bossHole.describe('Where it holds the engine, from the engine datum.'),
    pad: point3.optional().describe('Where it stands on the chassis.'),
  },
  { error: 'a support: at' },
);

const passageSchema = z.strictObject(
  {
    ...shapes,
    solids: z
      .array(solidSchema, { error: 'a list of solids' })
      .optional()
      .describe('Several solids that make one passage.'),
    gap: lengthSchema.optional().describe('What every mount must leave it; 0 unless given.'),
    why: text.optional().describe('What it is for, for the reader.'),
  },
  { error: 'a passage, with a solid' },
);
const passages = z.record(name, passageSchema, { error: 'passages by name' });

const torque = z.union([z.number(), z.string()], { error: TORQUE_EXPECTED });

const loadsSchema = z
  .strictObject(
    {
      torque: torque
        .optional()
        .describe("The engine's, in lbf ft in a file in inches, in N m in one in mm."),
      gear: factor.optional().describe("The lowest gear; the driveline's unless given."),
      cylinders: z
        .number({ error: 'a whole number' })
        .optional()
        .describe('By which the load factor goes.'),
      'load factor': factor
        .optional()
        .describe('On the mean torque; by the cylinders unless given.'),
      braking: factor.optional().describe('In g; 1 unless given.'),
      bump: factor.optional().describe('In g; 3 unless given.'),
      side: factor.optional().describe('In g; 1.33 unless given.'),
    },
    { error: 'torque, gear, cylinders, load factor, braking, bump or side' },
  )
  .describe('What the engine does to its mounts.');

export const mountsSchema = z
  .strictObject(
    {
      make: z
        .record(name, mountSchema, { error: 'mounts by name' })
        .describe('Plate-and-tube mounts, by name.'),
      supports: z
        .record(name, supportSchema, { error: 'supports by name' })
        .optional()
        .describe('What else holds the engine, such as a rear mount under the transmission.'),
      plate: lengthSchema
        .optional()
        .describe('Thickness of plates that do not say their own; 1/4 in or 6 mm unless given.'),
      gap: lengthSchema
        .optional()
        .describe('What a mount must leave to parts that it is not fixed to; 0 unless given.'),
      passages: z
        .strictObject(
          {
            engine: passages.optional().describe('From the engine datum, riding with the engine.'),
            chassis: passages.optional().describe('From the chassis datum.'),
          },
          { error: 'engine and chassis passages' },
        )
        .optional()
        .describe('Room that must stay open beside every mount, by what it rides with.'),
      supported: z
        .strictObject(
          {
            weight: massSchema,
            at: bossHole.describe('Its centre of gravity, from the engine datum.'),
          },
          { error: 'weight and at' },
        )
        .optional()
        .describe(
          'What the mounts carry; by `weight`, what goes in and rides with the engine, unless given.',
        ),
      loads: loadsSchema.optional(),
    },
    { error: 'mounts: make' },
  )
  .describe('Engine mounts, for `berth mounts`.');

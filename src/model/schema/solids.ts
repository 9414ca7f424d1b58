/** A solid as the file draws it: one key for its shape, and how it is tilted. */

import { z } from 'zod';
import {
  angleSchema,
  axis,
  facing,
  lengthSchema,
  place,
  placeRange,
  point2,
  point3,
} from './values.js';

const boxSchema = z
  .strictObject({ x: placeRange, y: placeRange, z: placeRange }, { error: 'x, y and z ranges' })
  .describe('A box: a range along each axis.');
const cylinderSchema = z
  .strictObject(
    { axis, from: place, to: place, center: point2, diameter: lengthSchema },
    { error: 'axis, from, to, center and diameter' },
  )
  .describe('A cylinder along an axis; center uses the two remaining axes in x, y, z order.');
const prismSchema = z
  .strictObject(
    {
      axis,
      from: place,
      to: place,
      profile: z
        .array(point2, { error: 'a list of corners' })
        .describe('The corners of a convex outline, in order, either way round.'),
    },
    { error: 'axis, from, to and profile' },
  )
  .describe('A convex profile drawn out along an axis; corners in order, either way round.');
const hullSchema = z
  .strictObject(
    {
      points: z
        .array(point3, { error: 'a list of points' })
        .describe('Four points or more, not all in one plane.'),
    },
    { error: 'points' },
  )
  .describe('The smallest convex solid that holds the points.');
const ballSchema = z
  .strictObject({ center: point3, diameter: lengthSchema }, { error: 'center and diameter' })
  .describe('A ball.');
const tubeSchema = z
  .strictObject(
    {
      through: z
        .array(point3, { error: 'a list of points' })
        .describe('Two points or more along the middle of the tube.'),
      diameter: lengthSchema,
    },
    { error: 'through and diameter' },
  )
  .describe('A round-ended tube through points, one solid a leg.');
const panelSchema = z
  .strictObject(
    {
      corners: z
        .array(point3, { error: 'a list of corners' })
        .describe('Three corners or more where the tape touches, in order round the panel.'),
      thick: lengthSchema.describe('The thickness of the metal.'),
      behind: facing
        .optional()
        .describe('The side of the touched face that the metal is on; else half to either side.'),
    },
    { error: 'corners and thick' },
  )
  .describe('A sloping sheet: a firewall, a hood, the wall of a tunnel.');
const stationSchema = z
  .strictObject(
    {
      x: place.describe('How far back.'),
      inside: place.describe('From the centre to the inner face; below 0 for a left rail.'),
      outside: place.describe('From the centre to the outer face.'),
      top: place.describe('Height of the top.'),
      bottom: place.describe('Height of the bottom.'),
    },
    { error: 'x, inside, outside, top and bottom' },
  )
  .describe('Where the rail was measured.');
const railSchema = z
  .strictObject(
    {
      stations: z
        .array(stationSchema, { error: 'a list of stations' })
        .describe('Two stations or more, from front to back.'),
    },
    { error: 'stations' },
  )
  .describe('A tapering frame rail, as measured on the right; mirror gives the left one.');
const tiltSchema = z
  .strictObject({ about: axis, by: angleSchema, at: point3 }, { error: 'about, by and at' })
  .describe('Turns the solid in place: by degrees, right-handed about an axis through a point.');

/** The keys that draw a solid. */
export const shapes = {
  box: boxSchema.optional(),
  cylinder: cylinderSchema.optional(),
  prism: prismSchema.optional(),
  hull: hullSchema.optional(),
  ball: ballSchema.optional(),
  tube: tubeSchema.optional(),
  panel: panelSchema.optional(),
  rail: railSchema.optional(),
  tilt: tiltSchema.optional(),
};
/** The shapes a solid can have; it has one of them. */
export const SHAPES = [
  'box',
  'cylinder',
  'prism',
  'hull',
  'ball',
  'tube',
  'panel',
  'rail',
] as const;

export const solidSchema = z
  .strictObject(shapes, { error: 'a solid' })
  .meta({ id: 'solid' })
  .describe('One solid.');

/** Clearance rules, and limits on the position. */

import { z } from 'zod';
import { MEASURES } from '../scenario.js';
import { facing, kind, lengthSchema, name, place, text } from './values.js';

const ruleEnd = z
  .union(
    [
      name,
      z.strictObject({
        part: name.optional().describe('A part of this name, and nothing else.'),
        group: name.optional().describe('A group of this name, and nothing else.'),
        kind: kind.optional(),
        side: z
          .enum(['engine', 'chassis'], { error: 'engine or chassis' })
          .optional()
          .describe('Every part of a side.'),
      }),
    ],
    { error: 'a part, a group, a kind, engine or chassis; or { kind: ... } to force one' },
  )
  .describe('Names a part, else a group, else a kind, else a side; { kind: radiator } forces one.');
export const ruleSchema = z
  .strictObject(
    {
      between: z
        .tuple([ruleEnd, ruleEnd], { error: 'the two that the rule is between' })
        .describe('The two that the rule is between.'),
      gap: lengthSchema.describe('The gap needed, or ignore for a pair that is meant to touch.'),
      measured: z
        .enum(MEASURES, { error: MEASURES.join(', ') })
        .optional()
        .describe('nearest unless given; along an axis, the gap is between the two extents.'),
      side: facing
        .optional()
        .describe('Where the second part lies as seen from the first, where that is not clear.'),
      'coming out': z
        .boolean({ error: 'true or false' })
        .optional()
        .describe('true: the rule speaks of the room a part needs to come out.'),
      why: text.optional().describe('The reason; required with gap: ignore.'),
    },
    { error: 'a rule: between, gap' },
  )
  .meta({ id: 'rule' });

const limitEnds = {
  min: place.optional().describe('A length, degrees for pitch, a weight for front axle load.'),
  max: place.optional().describe('A length, degrees for pitch, a weight for front axle load.'),
  why: text.optional().describe('The reason.'),
};
export const limitSchema = z
  .strictObject(
    {
      quantity: z
        .enum(['setback', 'offset', 'height', 'pitch', 'height above', 'front axle load'], {
          error: 'setback, offset, height, pitch, height above or front axle load',
        })
        .describe(
          'What is limited: a coordinate of the position, a height above a datum, or a load.',
        ),
      of: name.optional().describe('With height above: an engine datum, or an engine part.'),
      above: name.optional().describe('With height above: a chassis datum that fixes z.'),
      ...limitEnds,
    },
    { error: 'a limit: quantity, min or max' },
  )
  .meta({ id: 'limit' });

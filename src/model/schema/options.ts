/** What may be changed: the options of a choice, and trims. */

import { z } from 'zod';
import { parts } from './parts.js';
import { limitSchema, ruleSchema } from './rules.js';
import { cost, hours, lengthSchema, name, stretchSchema } from './values.js';

const named = z.record(name, name, { error: 'options by choice' });
export const optionSchema = z
  .strictObject(
    {
      remove: z
        .array(name, { error: 'a list of parts' })
        .optional()
        .describe('Parts that are taken away.'),
      add: z
        .strictObject(
          {
            engine: parts.optional().describe('Parts that ride with the engine.'),
            chassis: parts.optional().describe('Parts that ride with the chassis.'),
          },
          { error: 'engine or chassis, with parts' },
        )
        .optional()
        .describe('Parts that are added.'),
      replace: parts.optional().describe('Whole parts that take the place of those of that name.'),
      move: z
        .record(
          name,
          z.strictObject(
            {
              x: lengthSchema.optional(),
              y: lengthSchema.optional(),
              z: lengthSchema.optional(),
            },
            { error: 'x, y or z, and by how much' },
          ),
          { error: 'parts by name, and by how much' },
        )
        .optional()
        .describe('Parts or groups that are moved, and by how much.'),
      rules: z
        .array(ruleSchema, { error: 'a list of rules' })
        .optional()
        .describe('Clearance rules that the option brings.'),
      limits: z
        .array(limitSchema, { error: 'a list of limits' })
        .optional()
        .describe('Limits that the option brings.'),
      needs: named.optional().describe('Options of other choices that this one needs.'),
      'rules out': named.optional().describe('Options of other choices that cannot go with it.'),
      hours,
      cost,
    },
    { error: 'what the option does; {} for nothing' },
  )
  .nullable()
  .meta({ id: 'option' });

export const trimSchema = z.strictObject(
  {
    part: name.describe('The chassis part that is cut.'),
    cut: z
      .enum(['down', 'up', 'ahead', 'back', 'left', 'right', 'outward'], {
        error: 'down, up, ahead, back, left, right or outward',
      })
      .describe('The way the face is cut back.'),
    over: stretchSchema.optional().describe('Only this stretch is cut: a notch.'),
    'up to': lengthSchema.describe('The deepest cut.'),
    hours,
    cost,
    plus: z
      .strictObject({ hours, cost, per: lengthSchema }, { error: 'hours or cost, and per' })
      .optional()
      .describe('What each further length of cut adds.'),
  },
  { error: 'a trim: part, cut, up to' },
);

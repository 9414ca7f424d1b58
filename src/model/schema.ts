/**
 * The raw scenario file, as a zod schema: which keys there are, what each may hold, and what an
 * editor says about them. Whether the values make sense together is `read.ts`'s business.
 *
 * Each leaf's `error` is what was expected there, as the problem report has it.
 *
 * The sections of the file are in `schema/`.
 */

import { z } from 'zod';
import { casesSchema } from './schema/cases.js';
import { drivelineSchema } from './schema/driveline.js';
import { hoistSchema } from './schema/hoist.js';
import { mountsSchema } from './schema/mounts.js';
import { mockupSchema } from './schema/mockup.js';
import { optionSchema, trimSchema } from './schema/options.js';
import { parts, type partSchema } from './schema/parts.js';
import { limitSchema, ruleSchema } from './schema/rules.js';
import type { solidSchema } from './schema/solids.js';
import {
  angleSchema,
  kind,
  lengthSchema,
  type motionSchema,
  name,
  place,
  placeRange,
  range,
  ROCK_EXPECTED,
  text,
} from './schema/values.js';
import { weightSchema } from './schema/weight.js';
import type { massSchema } from './schema/weight.js';

export { SHAPES } from './schema/solids.js';

const datumSchema = z.strictObject(
  { x: place.optional(), y: place.optional(), z: place.optional() },
  { error: 'x, y or z of the datum' },
);
const datums = z.record(name, datumSchema, { error: 'datums by name' });
const coordinate = z
  .union([place, placeRange], { error: 'a range [from, to], or one length that pins it' })
  .describe('How far the search may go; one length pins it.');
const pitch = z
  .union([angleSchema, range(angleSchema, 'a range of two angles,')], {
    error: 'a range [from, to] in degrees, or one angle that pins it',
  })
  .describe('Degrees, positive with the tail down; one angle pins it.');

const rockAtPartSchema = z
  .strictObject(
    {
      by: lengthSchema.describe('How far each way, at the point farthest from the crankshaft.'),
      at: name.describe('The engine part at which that was measured.'),
    },
    { error: 'by and at' },
  )
  .describe('How far a part of the engine moves each way.');
const rock = z
  .union([angleSchema, rockAtPartSchema], { error: ROCK_EXPECTED })
  .describe('How far the engine rolls each way under torque: degrees, or a length at a part.');

export const scenarioSchema = z
  .strictObject(
    {
      berth: z.literal(1, { error: '1' }).describe('The format of this file.'),
      title: text.optional().describe('What the job is, for the reader.'),
      units: z
        .enum(['in', 'mm'], { error: 'in or mm' })
        .describe('Numbers and fractions without a unit are in it.'),
      driver: z.enum(['left', 'right'], { error: 'left or right' }).describe("The driver's side."),
      origin: text.optional().describe('The chassis datum, in words for the reader.'),
      datums: z
        .strictObject(
          {
            chassis: datums.optional().describe('From the chassis datum.'),
            engine: datums.optional().describe('From the engine datum.'),
          },
          { error: 'chassis and engine datums' },
        )
        .optional()
        .describe('Named planes and points that a tape can touch.'),
      'measuring error': lengthSchema
        .optional()
        .describe('By how much a tape may be off, where a length does not say; 0 unless given.'),
      rake: angleSchema.optional().describe('Degrees, nose down.'),
      position: z
        .strictObject(
          { setback: coordinate, offset: coordinate, height: coordinate, pitch },
          { error: 'setback, offset, height and pitch' },
        )
        .describe('Where the engine datum may go, from the chassis datum.'),
      engine: parts.describe('Parts that ride with the engine, from the engine datum, no pitch.'),
      rock: rock.optional(),
      lift: lengthSchema
        .optional()
        .describe(
          'How far a failed mount lets the engine rise, towards brakes, steering, throttle.',
        ),
      together: z
        .array(z.array(name, { error: 'a list of parts' }), { error: 'lists of parts' })
        .optional()
        .describe('Lists of parts of one side that turn and sweep in step.'),
      chassis: parts.describe('Parts that ride with the chassis, from the chassis datum.'),
      groups: z
        .record(name, z.array(name, { error: 'a list of parts' }), { error: 'groups by name' })
        .optional()
        .describe('Names for several parts, for rules and options to use.'),
      rulebook: z
        .enum(['common practice', 'none'], { error: 'common practice or none' })
        .optional()
        .describe('Which rules by kind apply below the rules of the file; none unless given.'),
      rules: z
        .array(ruleSchema, { error: 'a list of rules' })
        .optional()
        .describe('Clearance rules; the more specific one wins.'),
      limits: z
        .array(limitSchema, { error: 'a list of limits' })
        .optional()
        .describe('Hard limits on the position.'),
      choices: z
        .record(name, z.record(name, optionSchema, { error: 'options by name' }), {
          error: 'choices by name',
        })
        .optional()
        .describe('Decisions and their options; the first option is the bay as it stands.'),
      trims: z
        .array(trimSchema, { error: 'a list of trims' })
        .optional()
        .describe('Chassis faces that may be cut back.'),
      worth: lengthSchema
        .optional()
        .describe('A change must buy at least this much margin; 1/8 in unless given.'),
      'not fitted': z
        .array(kind, { error: 'a list of kinds' })
        .optional()
        .describe('Kinds that this vehicle does not have.'),
      'hoist path': hoistSchema.optional(),
      driveline: drivelineSchema.optional(),
      mounts: mountsSchema.optional(),
      'mock-up': mockupSchema.optional(),
      weight: weightSchema.optional(),
      cases: casesSchema.optional(),
    },
    { error: 'a scenario: berth, units, driver, position, engine, chassis' },
  )
  .describe('A Berth scenario: one vehicle, one engine, the rules, the choices.');

/** The file once its structure is known to be right; the names are the file's own. */
export type RawScenario = z.infer<typeof scenarioSchema>;
export type RawPart = z.infer<typeof partSchema>;
export type RawSolid = z.infer<typeof solidSchema>;
export type RawRule = z.infer<typeof ruleSchema>;
export type RawRockAtPart = z.infer<typeof rockAtPartSchema>;
export type RawLimit = z.infer<typeof limitSchema>;
export type RawOption = NonNullable<z.infer<typeof optionSchema>>;
export type RawHoist = z.infer<typeof hoistSchema>;
export type RawDriveline = z.infer<typeof drivelineSchema>;
export type RawMounts = z.infer<typeof mountsSchema>;
export type RawMockup = z.infer<typeof mockupSchema>;
export type RawWeight = z.infer<typeof weightSchema>;
export type RawMass = z.infer<typeof massSchema>;
export type RawTrim = z.infer<typeof trimSchema>;
export type RawLength = z.infer<typeof lengthSchema>;
export type RawMotion = z.infer<typeof motionSchema>;

/** The JSON Schema of a scenario file, by which an editor completes and checks it. */
export function jsonSchema(): object {
  return z.toJSONSchema(scenarioSchema, { io: 'input' });
}

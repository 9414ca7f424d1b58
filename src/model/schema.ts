/**
 * The raw scenario file, as a zod schema: which keys there are, what each may hold, and what an
 * editor says about them. Whether the values make sense together is read.ts's business.
 *
 * Each leaf's `error` is what was expected there, as the problem report has it.
 */

import { z } from 'zod';
import { KINDS } from './kinds.js';
import { ANGLE_EXPECTED, LENGTH_EXPECTED } from './length.js';
import { PLACE_EXPECTED } from './places.js';
import { MEASURES } from './scenario.js';

const lengthSchema = z
  .union([z.number(), z.string()], { error: LENGTH_EXPECTED })
  .meta({ id: 'length' })
  .describe('A length: a number or tape fraction in the units of the file, or with its own unit.');
const place = z
  .union([z.number(), z.string()], { error: PLACE_EXPECTED })
  .meta({ id: 'place' })
  .describe(
    'Where along an axis: a length from the origin, or a place such as 9 ahead of front axle ' +
      '(ahead of, behind, left of, right of, above, below; a datum of the same side); ' +
      'with its measuring error after +-.',
  );
const angleSchema = z
  .union([z.number(), z.string()], { error: ANGLE_EXPECTED })
  .meta({ id: 'angle' })
  .describe('Degrees.');
const text = z.string({ error: 'words' });
const name = z.string({ error: 'a name, in quotes where it is a number' });
const amount = z.number({ error: 'a number, 0 or more' });
const hours = amount.optional().describe('Hours of work; 0 unless given.');
const cost = amount.optional().describe('Money; 0 unless given.');
const axis = z
  .enum(['x', 'y', 'z'], { error: 'x, y or z' })
  .describe('An axis: x rearward, y to the right, z up.');
const kind = z
  .enum(KINDS, { error: 'a kind from the rule book' })
  .meta({ id: 'kind' })
  .describe('What the part is; the rule book speaks of kinds.');

function range<T extends z.ZodType>(of: T, what: string) {
  return z.tuple([of, of], { error: `${what} [from, to]` });
}
const lengthRange = range(lengthSchema, 'a range of two lengths,').describe(
  'A range of lengths: [from, to], the lesser first.',
);
const placeRange = range(place, 'a range of two lengths,').describe(
  'A range along an axis: [from, to], the lesser first.',
);
const point3 = z
  .tuple([place, place, place], { error: 'a point [x, y, z]' })
  .describe('A point: [x, y, z].');
const point2 = z
  .tuple([place, place], {
    error: 'two lengths, along the two remaining axes in x, y, z order',
  })
  .describe('Two lengths, along the two remaining axes in x, y, z order.');

const boxSchema = z
  .strictObject({ x: placeRange, y: placeRange, z: placeRange }, { error: 'x, y and z ranges' })
  .describe('A box: a range along each axis.');
const motionSchema = z.strictObject(
  { x: lengthRange.optional(), y: lengthRange.optional(), z: lengthRange.optional() },
  { error: 'x, y or z ranges' },
);
const stretchSchema = z.strictObject(
  { x: placeRange.optional(), y: placeRange.optional(), z: placeRange.optional() },
  { error: 'x, y or z ranges' },
);
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
const facing = z.enum(['ahead', 'behind', 'left', 'right', 'above', 'below'], {
  error: 'ahead, behind, left, right, above or below',
});
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

const shapes = {
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

const solidSchema = z
  .strictObject(shapes, { error: 'a solid' })
  .meta({ id: 'solid' })
  .describe('One solid.');
const partSchema = z
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
const parts = z.record(name, partSchema, { error: 'parts by name' });

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
const ruleSchema = z
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
  min: place.optional().describe('A length, or degrees for pitch.'),
  max: place.optional().describe('A length, or degrees for pitch.'),
  why: text.optional().describe('The reason.'),
};
const limitSchema = z
  .strictObject(
    {
      quantity: z
        .enum(['setback', 'offset', 'height', 'pitch', 'height above'], {
          error: 'setback, offset, height, pitch or height above',
        })
        .describe('What is limited: a coordinate of the position, or a height above a datum.'),
      of: name.optional().describe('With height above: an engine datum, or an engine part.'),
      above: name.optional().describe('With height above: a chassis datum that fixes z.'),
      ...limitEnds,
    },
    { error: 'a limit: quantity, min or max' },
  )
  .meta({ id: 'limit' });

const named = z.record(name, name, { error: 'options by choice' });
const optionSchema = z
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

const trimSchema = z.strictObject(
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

const datumSchema = z.strictObject(
  { x: place.optional(), y: place.optional(), z: place.optional() },
  { error: 'x, y or z of the datum' },
);
const datums = z.record(name, datumSchema, { error: 'datums by name' });
const coordinate = z
  .union([place, placeRange], { error: 'a range [from, to], or one length that pins it' })
  .describe('How far the search may go; one length pins it.');
const turn = z
  .union([angleSchema, range(angleSchema, 'a range of two angles,')], {
    error: 'a range [from, to] in degrees, or one angle that pins it',
  })
  .describe('Degrees, positive with the tail down; one angle pins it.');

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
          { setback: coordinate, offset: coordinate, height: coordinate, pitch: turn },
          { error: 'setback, offset, height and pitch' },
        )
        .describe('Where the engine datum may go, from the chassis datum.'),
      engine: parts.describe('Parts that ride with the engine, from the engine datum, no pitch.'),
      rock: angleSchema.optional().describe('Degrees each way about the crankshaft, under torque.'),
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
    },
    { error: 'a scenario: berth, units, driver, position, engine, chassis' },
  )
  .describe('A Berth scenario: one vehicle, one engine, the rules, the choices.');

/** The file once its structure is known to be right; the names are the file's own. */
export type RawScenario = z.infer<typeof scenarioSchema>;
export type RawPart = z.infer<typeof partSchema>;
export type RawSolid = z.infer<typeof solidSchema>;
export type RawRule = z.infer<typeof ruleSchema>;
export type RawLimit = z.infer<typeof limitSchema>;
export type RawOption = NonNullable<z.infer<typeof optionSchema>>;
export type RawTrim = z.infer<typeof trimSchema>;
export type RawLength = z.infer<typeof lengthSchema>;
export type RawMotion = z.infer<typeof motionSchema>;

/** The JSON Schema of a scenario file, by which an editor completes and checks it. */
export function jsonSchema(): object {
  return z.toJSONSchema(scenarioSchema, { io: 'input' });
}

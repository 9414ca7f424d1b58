/** The adjustable mounts of a mock-up. */

import { z } from 'zod';
import { THREAD_EXPECTED } from '../fitup/threads.js';
import { lengthSchema, name, point3, range } from './values.js';

const names = z.array(name, { error: 'a list of parts, groups or kinds' });
const adjusterSchema = z
  .strictObject(
    {
      frame: point3.describe('Where it holds on to the frame, from the chassis datum: [x, y, z].'),
      engine: point3.describe('Where it holds on to the engine, from the engine datum: [x, y, z].'),
      thread: z
        .string({ error: THREAD_EXPECTED })
        .describe('Its thread: 3/4-10, 5/8 UNF, M16 or M16x1.5.'),
      hand: z
        .enum(['right', 'left', 'turnbuckle'], { error: 'right, left or turnbuckle' })
        .optional()
        .describe('Hand of the thread, right unless given; a turnbuckle has one of each.'),
      range: range(lengthSchema, 'the shortest and the longest,').describe(
        'Shortest and longest, from point to point.',
      ),
      now: lengthSchema.optional().describe('How long it is now, from point to point.'),
    },
    { error: 'an adjuster: frame, engine, thread, range' },
  )
  .describe('A threaded link, with a joint at each end.');

export const mockupSchema = z
  .strictObject(
    {
      adjusters: z
        .record(name, adjusterSchema, { error: 'adjusters by name' })
        .describe('Any number of them, by name.'),
      off: names.optional().describe('Chassis parts, groups or kinds that are off meanwhile.'),
      without: names.optional().describe('Engine parts, groups or kinds that are not on yet.'),
    },
    { error: 'a mock-up: adjusters' },
  )
  .describe('The adjustable mounts on which the engine hangs for its mock-up, for `berth mockup`.');

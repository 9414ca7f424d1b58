/** Cases to compare, kept in the file. */

import { z } from 'zod';
import { place, placeRange, text } from './values.js';

const wish = z
  .union([place, placeRange], { error: "an option's name, a length or a range [from, to]" })
  .describe('An option by its name; a coordinate or a margin by a length, >= or <= before it.');

export const casesSchema = z
  .record(
    text,
    z.union([text, z.record(text, wish)], {
      error: "wishes by name, or a text such as 'oil filter=remote; offset=0'",
    }),
    { error: 'cases by name' },
  )
  .describe('Named changes to the bay as it stands, for `berth compare`.');

/** `berth schema`: the JSON Schema of a scenario, for an editor. */

import { jsonSchema } from '../../model/schema.js';
import type { Io } from '../io.js';
import { jsonText } from '../writing/told.js';

/** Prints the schema; returns the exit status. */
export function runSchema(io: Io): number {
  io.out(jsonText(jsonSchema()));
  return 0;
}

/** `berth schema`: the JSON Schema of a scenario, for an editor. */

import { jsonSchema } from '../../model/schema.js';
import type { Io } from '../io.js';

/** Prints the schema; returns the exit status. */
export function runSchema(io: Io): number {
  io.out(`${JSON.stringify(jsonSchema(), null, 2)}\n`);
  return 0;
}

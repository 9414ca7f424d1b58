/** Set-up of a watched run: writes down which of the drawn changes a test file reached, and its time. */

import { appendFileSync } from 'node:fs';
import { afterAll, beforeAll, expect } from 'vitest';

interface Counts {
  readonly mutantCoverage?: { readonly static?: Readonly<Record<string, number>> };
}

/** The name under which the instrumented sources count (INSTRUMENTER_CONSTANTS.NAMESPACE). */
const COUNTS = '__stryker__';

let start = 0;
beforeAll(() => {
  start = Date.now();
});

afterAll(() => {
  const counts = (globalThis as Record<string, unknown>)[COUNTS] as Counts | undefined;
  const line = {
    file: expect.getState().testPath,
    seconds: (Date.now() - start) / 1000,
    reached: Object.keys(counts?.mutantCoverage?.static ?? {}),
  };
  appendFileSync(process.env['WATCHED']!, `${JSON.stringify(line)}\n`);
});

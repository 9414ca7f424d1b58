/** Set-up of a watched run: writes down which of the drawn changes a test file reached, and its time. */

import { appendFileSync } from 'node:fs';
import { performance } from 'node:perf_hooks';
import { afterAll, beforeAll, expect } from 'vitest';

/** What is written down of a test file. */
export interface Watched {
  readonly file: string;
  readonly seconds: number;
  /** Numbers of the changes. */
  readonly reached: readonly string[];
}

interface Counts {
  readonly mutantCoverage?: { readonly static?: Readonly<Record<string, number>> };
}

/** The name under which the instrumented sources count (INSTRUMENTER_CONSTANTS.NAMESPACE). */
const COUNTS = '__stryker__';

let start = 0;
beforeAll(() => {
  start = performance.now();
});

afterAll(() => {
  const counts = (globalThis as Record<string, unknown>)[COUNTS] as Counts | undefined;
  const line: Watched = {
    file: expect.getState().testPath!,
    seconds: (performance.now() - start) / 1000,
    reached: Object.keys(counts?.mutantCoverage?.static ?? {}),
  };
  appendFileSync(process.env['WATCHED']!, `${JSON.stringify(line)}\n`);
});

import { defineConfig } from 'vitest/config';

/** Where `.ci/run` reads the counts of the tests from. */
const REPORT = 'node_modules/.cache/berth/tests.json';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    pool: 'forks',
    // No file leaves anything behind, so that the libraries are loaded twice and not once a file.
    isolate: false,
    maxWorkers: 2,
    testTimeout: 240_000,
    hookTimeout: 60_000,
    reporters: process.env['CI'] ? ['default', ['json', { outputFile: REPORT }]] : ['default'],
  },
});

import { defineConfig } from 'vitest/config';

/** Longer campaigns, by `npm run campaign`: the same properties over many more cases. */
export default defineConfig({
  test: {
    include: ['campaign/**/*.campaign.ts'],
    pool: 'forks',
    maxWorkers: 2,
    testTimeout: 3_600_000,
    reporters: ['default'],
  },
});

import { BaseSequencer, type TestSpecification } from 'vitest/node';
import { defineConfig } from 'vitest/config';

/** The test files in the order that ORDER names them. */
class AsNamed extends BaseSequencer {
  override sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const order = (process.env['ORDER'] ?? '').split(',');
    const rank = ({ moduleId }: TestSpecification) =>
      order.findIndex((name) => moduleId.endsWith(`/${name}`));
    return Promise.resolve([...files].sort((a, b) => rank(a) - rank(b)));
  }
}

const watching = process.env['WATCHED'] !== undefined;

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    // Each file by itself while it is written down what it reaches.
    isolate: watching,
    setupFiles: watching ? ['campaign/mutants/watching.ts'] : [],
    maxWorkers: 1,
    bail: 1,
    testTimeout: 240_000,
    sequence: { sequencer: AsNamed },
    reporters: [['json', { outputFile: process.env['REPORT'] ?? 'report.json' }]],
  },
});

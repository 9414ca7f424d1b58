/**
 * Prints `N passed, N failed` from vitest's JSON report, and fails unless tests ran and all passed.
 * A test file that could not be loaded counts as one failure: its tests are not in the counts.
 */
import { readFileSync } from 'node:fs';

let passed = 0;
let failed = 0;
try {
  const report = JSON.parse(readFileSync(process.argv[2], 'utf8'));
  passed = report.numPassedTests;
  failed = report.numFailedTests;
  for (const { status, assertionResults } of report.testResults) {
    if (status === 'failed' && assertionResults.length === 0) failed += 1;
  }
} catch {
  console.error('the tests left no report: none ran');
}
console.log(`${passed} passed, ${failed} failed`);
process.exit(passed > 0 && failed === 0 ? 0 : 1);

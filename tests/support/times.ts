/**
 * How many cases a property is tried on: as many as the whole suite has time for, or TIMES as many, as in
 * `TIMES=10 npx vitest run tests/solver/search-oracle.test.ts`.
 */
export function cases(count: number): number {
  return Math.round(count * Number(process.env['TIMES'] ?? 1));
}

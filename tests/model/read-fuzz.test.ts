import fc from 'fast-check';
import { expect, it } from 'vitest';
import { readScenario } from '../../src/model/read.js';
import type { Problem } from '../../src/model/text/problem.js';
import { ORCHARD } from './orchard.js';

/** Every change that a slip of the hand makes, and some that none does. */
const CHANGE = fc.record({
  at: fc.nat({ max: ORCHARD.length - 1 }),
  what: fc.oneof(
    fc.record({ cut: fc.integer({ min: 1, max: 60 }) }),
    fc.record({ put: fc.string({ maxLength: 6 }) }),
    fc.record({
      put: fc.constantFrom(
        '{',
        '}',
        '[',
        ']',
        ':',
        ': ',
        ',',
        '\n',
        '- ',
        '&a ',
        '*a',
        '!x ',
        '"',
        "'",
        '#',
        '-',
        '/0',
        '.inf',
        '.nan',
        '1e999',
        '~',
        'true',
        '<<: ',
        '__proto__: ',
        'constructor: ',
        'toString',
        ' ahead of front axle',
        '+-',
        '\t',
        '\u0000',
        '\ud800',
        'block',
        'engine',
        '0',
        '-1',
      ),
    }),
    fc.record({ swap: fc.nat({ max: ORCHARD.length - 1 }) }),
  ),
});

type Change = typeof CHANGE extends fc.Arbitrary<infer T> ? T : never;

function changed(text: string, { at, what }: Change): string {
  if ('cut' in what) return text.slice(0, at) + text.slice(at + what.cut);
  if ('put' in what) return text.slice(0, at) + what.put + text.slice(at);
  // One token for another: the word at one place put where another stood.
  const word = /[^\s,:{}[\]]+/.exec(text.slice(what.swap))?.[0] ?? 'x';
  return text.slice(0, at) + text.slice(at).replace(/[^\s,:{}[\]]+/, () => word);
}

const isPlaced = ({ line, column }: Problem) => (line ?? 0) > 0 && (column ?? 0) > 0;

it('any spoilt file gives a scenario, or errors with a place each; never an exception', () => {
  const count = { good: 0, bad: 0, deep: 0 };
  fc.assert(
    fc.property(fc.array(CHANGE, { minLength: 1, maxLength: 3 }), (changes) => {
      const text = changes.reduce(changed, ORCHARD);
      const { scenario, problems } = readScenario(text, 'auto');
      const errors = problems.filter(({ severity }) => severity === 'error');
      expect(scenario === undefined).toBe(errors.length > 0);
      expect(problems.every(isPlaced)).toBe(true);
      expect(problems.every(({ message }) => message !== '')).toBe(true);
      count[scenario === undefined ? 'bad' : 'good']++;
      if (errors.some(({ code }) => code !== 'syntax')) count.deep++;
    }),
    { numRuns: 1000, seed: 20 },
  );
  // All three ways must have been taken often, or the property says little.
  expect(Math.min(count.good, count.bad, count.deep)).toBeGreaterThan(100);
}, 240_000);

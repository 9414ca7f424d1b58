import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { readScenario } from '../../src/model/read.js';
import { withCase } from '../../src/model/text/with-case.js';
import { ORCHARD } from './orchard.js';

const WANTS = 'offset=0; setback>=1';

function added(text: string, name = 'low', wants = WANTS): string {
  const made = withCase(text, name, wants);
  if ('problems' in made) throw new Error(made.problems.map(({ message }) => message).join());
  return made.text;
}

function refusal(text: string, name = 'low', wants = WANTS): string {
  const made = withCase(text, name, wants);
  if ('text' in made) throw new Error(`written: ${made.text}`);
  return made.problems.map(({ message }) => message).join();
}

describe('a file without cases', () => {
  it.each([
    ['a: 1 # one\n', "a: 1 # one\n\ncases:\n  low: 'offset=0; setback>=1'\n"],
    ['a: 1', "a: 1\n\ncases:\n  low: 'offset=0; setback>=1'\n"],
    [
      'a:\n    b: 1\n# the end\n',
      "a:\n    b: 1\n# the end\n\ncases:\n    low: 'offset=0; setback>=1'\n",
    ],
    ['a: 1\r\nb: 2\r\n', "a: 1\r\nb: 2\r\n\r\ncases:\r\n  low: 'offset=0; setback>=1'\r\n"],
    [
      '---\na: 1\n...\n# after\n',
      "---\na: 1\n\ncases:\n  low: 'offset=0; setback>=1'\n...\n# after\n",
    ],
    ['  a: 1\n  b: 2\n', "  a: 1\n  b: 2\n\n  cases:\n    low: 'offset=0; setback>=1'\n"],
    // An empty line would belong to the text that keeps them.
    ['a: |+\n  x\n\n', "a: |+\n  x\n\ncases:\n  low: 'offset=0; setback>=1'\n"],
    ['{"a": 1}', '{"a": 1, "cases": { "low": "offset=0; setback>=1" }}'],
    ['{\n  "a": 1\n}\n', '{\n  "a": 1,\n  "cases": {\n    "low": "offset=0; setback>=1"\n  }\n}\n'],
    [
      '{\r\n\t"a": {\r\n\t\t"b": 1\r\n\t}\r\n}',
      '{\r\n\t"a": {\r\n\t\t"b": 1\r\n\t},\r\n\t"cases": {\r\n\t\t"low": "offset=0; setback>=1"\r\n\t}\r\n}',
    ],
  ])('%j', (text, wanted) => {
    expect(added(text)).toBe(wanted);
  });
});

describe('a file with cases', () => {
  it.each([
    [
      'cases: # mine\n  one: x # first\n  # the last\n\nz: 1 # z\n',
      "cases: # mine\n  one: x # first\n  low: 'offset=0; setback>=1'\n  # the last\n\nz: 1 # z\n",
    ],
    [
      'cases:\n  one:\n    offset: 0',
      "cases:\n  one:\n    offset: 0\n  low: 'offset=0; setback>=1'\n",
    ],
    ['cases:\n  # none yet\nz: 1\n', "cases:\n  low: 'offset=0; setback>=1'\n  # none yet\nz: 1\n"],
    ['cases: ~ # none\nz: 1\n', "cases: # none\n  low: 'offset=0; setback>=1'\nz: 1\n"],
    ['cases: {}\nz: 1\n', "cases: { low: 'offset=0; setback>=1' }\nz: 1\n"],
    ['cases: { a: b, }\n', "cases: { a: b, low: 'offset=0; setback>=1', }\n"],
    ['{"cases": null}', '{"cases": { "low": "offset=0; setback>=1" }}'],
    [
      '{"cases": {\n  "a": "b"\n}, "z": 1}',
      '{"cases": {\n  "a": "b",\n  "low": "offset=0; setback>=1"\n}, "z": 1}',
    ],
    [
      'cases:\n  a: |\n    x\n    y\nz: 1\n',
      "cases:\n  a: |\n    x\n    y\n  low: 'offset=0; setback>=1'\nz: 1\n",
    ],
  ])('%j', (text, wanted) => {
    expect(added(text)).toBe(wanted);
  });
});

describe('a case that is there already', () => {
  it.each([
    ['cases:\n  low: x # why\n  b: y\n', "cases:\n  low: 'offset=0; setback>=1' # why\n  b: y\n"],
    [
      'cases:\n  low:  # why\n    offset: 0\n    pitch: 1 # gone\n  # of b\n  b: y\n',
      "cases:\n  low: 'offset=0; setback>=1'  # why\n  # of b\n  b: y\n",
    ],
    ['cases:\n  low:\n  b: y\n', "cases:\n  low: 'offset=0; setback>=1'\n  b: y\n"],
    [
      'cases:\n  low: >-\n    a\n    b\n  b: y\n',
      "cases:\n  low: 'offset=0; setback>=1'\n  b: y\n",
    ],
    ['cases:\n  "low": { offset: 0 }\n', 'cases:\n  "low": \'offset=0; setback>=1\'\n'],
    ['cases: { b: y, low: x }\n', "cases: { b: y, low: 'offset=0; setback>=1' }\n"],
    ['cases: { low }\n', "cases: { low: 'offset=0; setback>=1' }\n"],
    ['{"cases": {"low": {"offset": 0}}}', '{"cases": {"low": "offset=0; setback>=1"}}'],
  ])('%j', (text, wanted) => {
    expect(added(text)).toBe(wanted);
  });
});

describe('what cannot be done', () => {
  it.each([
    ['', 'no scenario'],
    ['- 1\n', 'no scenario'],
    ['a: [1\n', ''],
    ['a: 1\ncases: x\n', 'by hand'],
    ['a: &c { x: y }\ncases: *c\n', 'by hand'],
    // The other name of the same map would grow too.
    ['cases: &c { x: y }\nb: *c\n', 'by hand'],
    // What stands elsewhere under this name would be lost.
    ['cases:\n  low: &l offset=0\n  b: *l\n', ''],
  ])('%j', (text, words) => {
    expect(refusal(text)).toContain(words);
  });

  it.each(['', ' ', ' low', '__proto__', '<<', 'a\nb', 'a\u2028b', 'a\ud800', 'x'.repeat(81)])(
    'the name %j',
    (name) => {
      expect(refusal('a: 1\n', name)).not.toBe('');
    },
  );

  it.each(['', ' ; '.trim().slice(1), 'a\nb'])('the wishes %j', (wants) => {
    expect(refusal('a: 1\n', 'low', wants)).not.toBe('');
  });
});

const NAME = fc
  .oneof(
    fc.string({ minLength: 1, maxLength: 20, unit: 'grapheme' }),
    fc.constantFrom(
      'true',
      'null',
      '~',
      'constructor',
      'toString',
      'hasOwnProperty',
      '350',
      '1.5',
      '- a',
      '? b',
      "it's",
      '"',
      "'",
      '# no',
      'a: b',
      'a # b',
      '&a',
      '*a',
      '!x',
      '{',
      '}',
      '[',
      ']',
      ',',
      '%',
      '@',
      '`',
      '|',
      '>',
      '</script><img src=x onerror=alert(1)>',
      'Größe №5',
      '\\',
      '$&',
      "$'",
      'cases',
      '...',
      '---',
    ),
  )
  .map((name) => name.trim())
  .filter((name) => !/[\p{Cc}\p{Cs}\p{Zl}\p{Zp}\ufeff]/u.test(name))
  .filter((name) => name !== '' && name !== '__proto__' && name !== '<<');

const TEXTS = [
  'scenarios/orchard-hauler.yaml',
  'tests/bays/study.json',
  'tests/bays/grader.yaml',
].map((path) => readFileSync(path, 'utf8'));
const WITH_CASES = [
  `${ORCHARD}cases: # mine\n  first: 'offset=0' # one\n\n  second: # two\n    offset: 0\n`,
  `cases: { first: 'offset=0', second: x }\n${ORCHARD}`,
];

describe('any name', () => {
  it.each([...TEXTS, ...WITH_CASES].map((text) => [text.slice(0, 40), text]))(
    'in %j stands in the cases, and every other line stays',
    (_start, text) => {
      fc.assert(
        fc.property(NAME, fc.boolean(), (name, crlf) => {
          const before = crlf ? text.replaceAll(/\r?\n/g, '\r\n') : text;
          const once = added(before, name);
          // The notation's own reader, without ours between.
          const { cases, ...rest } = parse(once) as Record<string, Record<string, unknown>>;
          const { cases: old = {}, ...restBefore } = parse(before) as typeof rest;
          expect(cases![name]).toBe(WANTS);
          expect(rest).toEqual(restBefore);
          expect({ ...cases, [name]: 0 }).toEqual({ ...old, [name]: 0 });
          const lines = before.split('\n');
          const kept = new Set(once.split('\n'));
          const lost = lines.filter((line) => !kept.has(line) && !kept.has(`${line}\r`));
          // Braces take a comma after what was last; a case of this name gives way.
          expect(lost.length).toBeLessThanOrEqual(Object.hasOwn(old, name) ? 2 : 1);
          if (!text.startsWith('{') && !text.startsWith('cases: {') && !Object.hasOwn(old, name)) {
            expect(lost.filter((line) => line !== '')).toEqual([]);
          }
          // Saved again it changes nothing; saved otherwise it gives way.
          expect(added(once, name)).toBe(once);
          expect((parse(added(once, name, 'pitch=1')) as typeof rest)['cases']![name]).toBe(
            'pitch=1',
          );
        }),
        { numRuns: text.length > 10_000 ? 6 : 20 },
      );
    },
  );

  it('is read as a case with those wishes', () => {
    const { scenario, problems } = readScenario(added(ORCHARD, "it's low", 'offset=0'), 'yaml');
    expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(scenario!.cases).toMatchObject([
      { name: "it's low", ranges: { offset: { min: 0, max: 0 } } },
    ]);
  });
});

it('spoils no text that can be read, however it is written', () => {
  const value = fc.constantFrom(
    'x',
    "'x'",
    '"x"',
    '|\n    x',
    '>-\n    x',
    '[a, b]',
    '{ a: b }',
    '',
    '&n x',
    '!!str x',
  );
  const comment = fc.constantFrom('', ' # c', '\n# c', '\n\n  # c');
  const line = fc.tuple(fc.constantFrom('a', 'b', '? c\n', '"d"', 'cases'), value, comment);
  let written = 0;
  fc.assert(
    fc.property(fc.uniqueArray(line, { selector: ([key]) => key, maxLength: 4 }), (lines) => {
      const text = lines.map(([key, v, c]) => `${key}: ${v}${c}\n`).join('');
      const made = withCase(text, 'low', WANTS);
      if ('problems' in made) return;
      written++;
      const { cases, ...rest } = parse(made.text) as Record<string, Record<string, unknown>>;
      const { cases: _old, ...before } = (parse(text) ?? {}) as typeof rest;
      expect(rest).toEqual(before);
      expect(cases!['low']).toBe(WANTS);
      const comments = (one: string) => (one.match(/# c/g) ?? []).length;
      expect(comments(made.text)).toBe(comments(text));
    }),
    { numRuns: 300 },
  );
  expect(written).toBeGreaterThan(100);
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MAX_FILE_BYTES, readDocument } from '../../src/model/text/document.js';
import { jsonFault } from '../../src/model/text/json-fault.js';

describe('what YAML leaves as text', () => {
  it.each(['3/8', '3 3/4', '-3 5/8', '19-1/4"', "2'", '4:30', '2024-01-01', 'yes', 'no', '1_000'])(
    '%s',
    (text) => {
      expect(readDocument(`a: ${text}`).value).toEqual({ a: text });
    },
  );
  it('also under a directive that asks for YAML 1.1', () => {
    expect(readDocument('%YAML 1.1\n---\na: yes\nb: 4:30').value).toEqual({ a: 'yes', b: '4:30' });
  });
});

describe('what is refused, with its code and place', () => {
  it.each([
    ['a broken list', 'a:\n  b: [1, 2\nc: 3', 'syntax', 3],
    ['bad indentation', 'a:\n  b: 1\n   c: 2', 'syntax', 2],
    ['tabs', 'a:\n\tb: 1', 'syntax', 2],
    ['two documents', 'a: 1\n---\nb: 2', 'syntax', 2],
    ['merge keys', 'a: &a { x: 1 }\nb:\n  <<: *a', 'syntax', 3],
    ['own tags', 'a: 1\nb: !inches 3', 'syntax', 2],
    ['binary', 'a: !!binary aGk=', 'syntax', 1],
    ['a list as a key', '? [a, b]\n: 1', 'syntax', 1],
    ['the same key twice', 'a: 1\nb: 2\na: 3', 'duplicate', 3],
    ['an unknown alias', 'a: 1\nb: *x', 'alias', 2],
    ['an alias inside itself', 'a: &a [*a]', 'alias', 1],
    ['nesting without end', '['.repeat(20_000), 'syntax', 1],
    ['lists in lists on one line', '- '.repeat(20_000), 'syntax', 1],
    [
      'ever deeper lines',
      Array.from({ length: 500 }, (_, n) => `${' '.repeat(n)}a:`).join('\n'),
      'syntax',
      1,
    ],
    ['the prototype as a name', '__proto__: { polluted: 1 }', 'unknown key', 1],
  ])('%s', (_, text, code, line) => {
    const { problems } = readDocument(text);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({ code, line, severity: 'error' });
    expect(problems[0]!.column).toBeGreaterThan(0);
  });

  it('a file of 10 MB, at once', () => {
    expect(readDocument('x'.repeat(10_000_000)).problems).toMatchObject([{ code: 'too large' }]);
    expect(readDocument('\u00e9'.repeat(MAX_FILE_BYTES / 2 + 1)).problems).toMatchObject([
      { code: 'too large' },
    ]);
    const text = `a: ${'x'.repeat(MAX_FILE_BYTES - 3)}`;
    expect(readDocument(text).problems).toEqual([]);
  });

  it('an alias bomb, and not many honest aliases', () => {
    const names = 'abcdefghij'.split('');
    const bomb = names.map((name, i) =>
      i === 0
        ? `${name}: &${name} [x, x, x, x, x, x, x, x, x]`
        : `${name}: &${name} [${Array(9)
            .fill(`*${names[i - 1]}`)
            .join(', ')}]`,
    );
    expect(readDocument(bomb.join('\n')).problems).toMatchObject([{ code: 'alias' }]);
    const honest = `why: &why driveline\nlist: [${Array(500).fill('*why').join(', ')}]`;
    expect(readDocument(honest).problems).toEqual([]);
  });

  it('JSON that only YAML allows, when JSON was asked for', () => {
    const text = '{"a": 1, "b": [1, 2,]}';
    expect(readDocument(text, 'yaml').problems).toEqual([]);
    expect(readDocument(text, 'json').problems).toMatchObject([{ code: 'syntax', line: 1 }]);
    expect(readDocument('{\n\t"a": [\n\t\t1\n\t]\n}', 'json').value).toEqual({ a: [1] });
  });
});

describe('a colon in text without quotes', () => {
  it.each([
    ['title: Swap: V8 in', "title: 'Swap: V8 in'"],
    ['rules:\n  - why: it rubs: bad', "why: 'it rubs: bad'"],
    ["origin: the mechanic's mark: axle", "origin: 'the mechanic''s mark: axle'"],
  ])('%j', (text, expected) => {
    const { problems } = readDocument(text);
    expect(problems).toMatchObject([
      { code: 'syntax', message: "text that holds ': ' must be in quotes", expected },
    ]);
    expect(readDocument(expected).problems).toEqual([]);
  });

  it('is not seen where a line is indented too far', () => {
    const { problems } = readDocument('a: 1\n  b: 2');
    expect(problems[0]!.message).toContain('indented');
  });
});

describe('text that is not JSON', () => {
  it.each([
    ['{"berth": 1,\n', 2, 1, 'it ends too early'],
    ['{"berth": 1', 1, 12, 'it ends too early'],
    ['', 1, 1, 'it ends too early'],
    ['// my bay\n{"berth": 1}', 1, 1, 'no comments'],
    ['{\n  # axle\n}', 2, 3, 'no comments'],
    ['{"a": "x\n}', 1, 7, 'no end'],
    ['{"a": 1,}', 1, 9, "'}' cannot stand here"],
    ['{"a": 3/8}', 1, 8, "'/' cannot stand here"],
    ['[1] [2]', 1, 5, "'[' cannot stand here"],
    ['{"a" 1}', 1, 6, "'1' cannot stand here"],
    ['[1}', 1, 3, "'}' cannot stand here"],
  ])('%j', (text, line, column, words) => {
    const [problem, ...more] = readDocument(text, 'json').problems;
    expect(more).toEqual([]);
    expect(problem).toMatchObject({ code: 'syntax', line, column });
    expect(problem!.message).toMatch(/^this is not JSON: /);
    expect(problem!.message).toContain(words);
  });

  it('is told from JSON as JSON.parse tells it', () => {
    let good = 0;
    let bad = 0;
    const piece = fc.constantFrom(...'{}[],:-0123.eE"\\ntrufals /#'.split(''), '"a"', 'null', 'é');
    const spoilt = fc
      .tuple(fc.json(), fc.nat(), fc.nat(3), fc.oneof(fc.constant(''), piece))
      .map(([text, at, cut, put]) => {
        const from = at % (text.length + 1);
        return text.slice(0, from) + put + text.slice(from + cut);
      });
    fc.assert(
      fc.property(spoilt, (text) => {
        let parses = true;
        try {
          JSON.parse(text);
        } catch {
          parses = false;
        }
        if (parses) good++;
        else bad++;
        expect(jsonFault(text) === undefined).toBe(parses);
      }),
      { numRuns: 3000 },
    );
    expect(Math.min(good, bad)).toBeGreaterThan(100);
  });
});

it('leaves the prototype alone', () => {
  const { value } = readDocument('constructor: 1\n__proto__: { polluted: 1 }\ntoString: 2');
  expect(Object.keys(value as object)).toEqual(['constructor', 'toString']);
  expect(({} as { polluted?: number }).polluted).toBeUndefined();
});

describe('places', () => {
  const text = 'a: 1\nb:\n  - x\n  - { y: 350, 7: z }\nc: &c { k: v }\nd: *c\n';
  const document = readDocument(text);
  it.each<[(string | number)[], 'key' | 'value', number, number]>([
    [['a'], 'key', 1, 1],
    [['a'], 'value', 1, 4],
    [['b', 0], 'value', 3, 5],
    [['b', 1, 'y'], 'key', 4, 7],
    [['b', 1, 'y'], 'value', 4, 10],
    [['b', 1, 'nowhere'], 'value', 4, 5],
    [['d', 'k'], 'value', 5, 12],
    [['nowhere', 'at', 'all'], 'value', 1, 1],
  ])('%j %s', (path, what, line, column) => {
    expect(document.locate(path, what)).toEqual({ line, column });
  });
  it('the file as written, and its order of names', () => {
    expect(document.source(['b', 1])).toBe('{ y: 350, 7: z }');
    expect(document.keys(['b', 1])).toEqual(['y', '7']);
    expect(document.keys(['d'])).toEqual(['k']);
  });
});

/** Files made to break a reader: bombs, numbers past all bounds, notations that other readers run. */

import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { MAX_FILE_BYTES } from '../../src/model/text/document.js';
import { nearestName } from '../../src/model/text/nearest.js';
import { ORCHARD } from '../model/orchard.js';
import { berth } from '../cli/world.js';
import { expectCleanPrototypes, expectPlainText } from './harmless.js';

const BAY = readFileSync(fileURLToPath(new URL('bay.yaml', import.meta.url)), 'utf8');

/** Checks a file as it is piped in: it ends as the command does, in plain words. */
async function checked(file: string | Uint8Array) {
  const { status, out, err } = await berth(['check', '-'], { stdin: file });
  expect([0, 2], err).toContain(status);
  expectPlainText(out + err, 'check');
  expectCleanPrototypes();
  return { status, said: out + err };
}

/** The bay with one stretch of it another; it must be there. */
function instead(from: string | RegExp, to: string): string {
  const text = ORCHARD.replace(from, () => to);
  expect(text).not.toBe(ORCHARD);
  return text;
}

const bomb = (levels: number) =>
  Array.from({ length: levels }, (_, i) =>
    i === 0
      ? 'a0: &a0 [x, x, x, x, x, x, x, x, x]'
      : `a${i}: &a${i} [${Array(9)
          .fill(`*a${i - 1}`)
          .join(', ')}]`,
  ).join('\n');

describe('a file that means harm is refused with its place', () => {
  it.each<[string, string | Uint8Array, RegExp]>([
    [
      'a tag that makes code',
      instead('title: ', 'title: !!js/function '),
      /:2:\d+ {2}tags are not read: /,
    ],
    ['a tag of bytes', instead('origin: ', 'origin: !!binary '), /:\d+:\d+ {2}tags are not read: /],
    ['a tag with a sequence', `a: !<\u001b[31m> 1\n${ORCHARD}`, /:1:\d+ /],
    [
      'a merge key',
      instead('rock: 2', 'x: &x { rock: 2 }\n<<: *x'),
      /:\d+:1 {2}merge keys are not read/,
    ],
    [
      'a merge key in a part',
      instead('block: {', 'block: { <<: { kind: fan },'),
      /merge keys are not read/,
    ],
    [
      'a prototype',
      `${ORCHARD}__proto__: { polluted: 1 }\n`,
      /:\d+:1 {2}'__proto__' cannot be a name/,
    ],
    [
      'a prototype as a part',
      instead('block: {', '__proto__: {'),
      /:\d+:\d+ {2}'__proto__' cannot be a name/,
    ],
    [
      'a key of all objects',
      `${ORCHARD}constructor: { prototype: { polluted: 1 } }\n`,
      /:\d+:1 {2}'constructor' is not read here/,
    ],
    [
      'a kind of all objects',
      instead('kind: block', 'kind: constructor'),
      /:\d+:\d+ {2}'constructor' is not known here/,
    ],
    [
      'a part that every object has',
      instead('[fan, radiator]', '[toString, radiator]'),
      /:\d+:\d+ {2}there is nothing called 'toString'/,
    ],
    [
      'a datum that every object has',
      instead('setback: [20, 32]', 'setback: [20 behind constructor, 32]'),
      /:\d+:\d+ /,
    ],
    [
      'the same key twice',
      instead('rock: 2', 'rock: 2\nrock: 3'),
      /:\d+:1 {2}'rock' is given twice/,
    ],
    [
      'the same key twice, written otherwise',
      instead('rock: 2', 'rock: 2\n"\\x72ock": 3'),
      /:\d+:1 {2}'rock' is given twice/,
    ],
    [
      'a bomb of aliases',
      `${bomb(40)}\n${ORCHARD}`,
      /:\d+:\d+ {2}the file unfolds to far more values/,
    ],
    ['an alias of itself', `a: &a { b: *a }\n${ORCHARD}`, /:1:\d+ {2}this alias holds itself/],
    ['a deep map', `${ORCHARD}x: ${'{a: '.repeat(50_000)}1${'}'.repeat(50_000)}\n`, /:\d+:\d+ /],
    ['deep JSON', `{"a":${'['.repeat(100_000)}${']'.repeat(100_000)}}`, /:\d+:\d+ /],
    ['a large file', new Uint8Array(MAX_FILE_BYTES + 1).fill(0x20), /too large/],
    ['bytes that are no text', Uint8Array.of(0x61, 0x3a, 0x20, 0xff, 0xfe, 0x0a), /not UTF-8/],
    [
      'half a letter in bytes',
      Uint8Array.of(0x61, 0x3a, 0x20, 0xed, 0xa0, 0x80, 0x0a),
      /not UTF-8/,
    ],
    ['a raw sequence', instead('title: O', 'title: "\u001b[31m" O'), /:\d+:\d+ /],
    [
      'a sequence where a name should be',
      instead('[fan, radiator]', '["\\e]0;x\\a\\u202efan", radiator]'),
      /:\d+:\d+ {2}there is nothing called 'fan' here/,
    ],
    ['a sequence as a key', `${ORCHARD}"\\e[2J\\x9b31m": 1\n`, /:\d+:1 {2}'' is not read here/],
    [
      'a long name',
      instead('[fan, radiator]', `[${'x'.repeat(100_000)}, radiator]`),
      /:\d+:\d+ {2}there is nothing called 'x+/,
    ],
  ])('%s', async (_what, file, said) => {
    const told = await checked(file);
    expect(told).toMatchObject({ status: 2 });
    expect(told.said).toMatch(said);
    expect(told.said.length).toBeLessThan(3000);
  });
});

it('two long names are not compared letter by letter', () => {
  const began = performance.now();
  expect(nearestName('x'.repeat(200_000), ['y'.repeat(200_000)])).toBeUndefined();
  expect(nearestName('fna', ['y'.repeat(200_000), 'fan'])).toBe('fan');
  // The product of their lengths takes minutes.
  expect(performance.now() - began).toBeLessThan(5000);
});

describe('a number past all bounds is refused with its place, wherever it stands', () => {
  const places: [string, string | RegExp, (number: string) => string][] = [
    ['a range', 'setback: [20, 32]', (n) => `setback: [${n}, 32]`],
    ['an angle', 'pitch: [0, 5]', (n) => `pitch: [0, ${n}]`],
    ['a corner', 'x: [-22, 0]', (n) => `x: [-22, ${n}]`],
    ['a diameter', 'diameter: 17', (n) => `diameter: ${n}`],
    ['a datum', 'floor: { z: -24 }', (n) => `floor: { z: ${n} }`],
    ['a gap', 'gap: 2,', (n) => `gap: ${n},`],
    ['rock', 'rock: 2', (n) => `rock: ${n}`],
  ];
  const numbers = [
    '1e308',
    '-1e308',
    '1e400',
    '.inf',
    '-.inf',
    '.nan',
    '99999999999999999999',
    '9'.repeat(400),
    "'1e308'",
    '0x7fffffffffffffffffff',
  ];
  it.each(places)('%s', async (_what, from, to) => {
    for (const number of numbers) {
      const { status, said } = await checked(instead(from, to(number)));
      expect([status, number], said).toEqual([2, number]);
      expect(said).toMatch(/^standard input:\d+:\d+ /m);
      expect(said).not.toMatch(/NaN|Infinity|undefined|\[object/);
    }
    for (const number of ['1e-320', '-0', '5e-324', '0.00000000000000000000000001']) {
      const { said } = await checked(instead(from, to(number)));
      expect(said).not.toMatch(/NaN|Infinity|undefined|\[object/);
    }
  });
});

describe('a file that only looks odd is read', () => {
  it.each<[string, string | Uint8Array]>([
    ['with a mark of its encoding', `\ufeff${BAY}`],
    ['with the lines of another system', BAY.replaceAll('\n', '\r\n')],
    ['with both', `\ufeff${BAY.replaceAll('\n', '\r\n')}`],
  ])('%s', async (_what, file) => {
    expect((await checked(file)).said).toMatch(/^(?:.*\n)*GOOD\./);
  });
});

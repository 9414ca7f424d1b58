/** Changes to the letters of a file, whatever they mean. */

import type { Random } from '../../tests/geometry/random.js';
import { below, oneOf } from './pick.js';
import { KEYS, NUMBERS, TOKENS } from './tokens.js';

type Change = (text: string, random: Random) => string;

/** Puts `put` where `cut` letters stood. */
function spliced(text: string, at: number, cut: number, put: string): string {
  return text.slice(0, at) + put + text.slice(at + cut);
}

/** Where a pattern is found, one of its places, or undefined. */
function found(text: string, pattern: RegExp, random: Random): RegExpExecArray | undefined {
  const all = [...text.matchAll(pattern)];
  return all.length === 0 ? undefined : oneOf<RegExpExecArray>(random, all);
}

function replaced(pattern: RegExp, by: (old: string, random: Random) => string): Change {
  return (text, random) => {
    const one = found(text, pattern, random);
    return one ? spliced(text, one.index, one[0].length, by(one[0], random)) : text;
  };
}

function onLines(change: (lines: string[], at: number, random: Random) => void): Change {
  return (text, random) => {
    const lines = text.split('\n');
    change(lines, below(random, lines.length), random);
    return lines.join('\n');
  };
}

const NUMBER = /-?\d+(?:\.\d+)?(?: \d+\/\d+|\/\d+)?/g;
const WORD = /[A-Za-z][A-Za-z ]*[A-Za-z]/g;
const KEY = /[A-Za-z][A-Za-z -]*(?=: )/g;

/** One letter of a word wrong, doubled, left out, or two of them changed over. */
function misspelt(word: string, random: Random): string {
  const at = below(random, word.length);
  const kind = below(random, 6);
  if (kind === 0) return spliced(word, at, 1, '');
  if (kind === 1) return spliced(word, at, 0, word[at]!);
  if (kind === 2) return spliced(word, at, 1, oneOf(random, [...'aeioxz 1']));
  if (kind === 3) return spliced(word, at, 2, [...word.slice(at, at + 2)].reverse().join(''));
  return kind === 4 ? word.toUpperCase() : `${word[0]!.toUpperCase()}${word.slice(1)}`;
}

export const TEXT_CHANGES: Readonly<Record<string, Change>> = {
  'a letter': (text, random) =>
    spliced(text, below(random, text.length), 1, String.fromCharCode(below(random, 256))),
  'a bit': (text, random) => {
    const at = below(random, text.length);
    return spliced(text, at, 1, String.fromCharCode(text.charCodeAt(at) ^ (1 << below(random, 8))));
  },
  'a cut': (text, random) => spliced(text, below(random, text.length), 1 + below(random, 60), ''),
  'the end off': (text, random) => text.slice(0, below(random, text.length)),
  'a token': (text, random) => spliced(text, below(random, text.length), 0, oneOf(random, TOKENS)),
  'a token over': (text, random) =>
    spliced(text, below(random, text.length), 1 + below(random, 12), oneOf(random, TOKENS)),
  'a number': replaced(NUMBER, (_, random) => oneOf(random, NUMBERS)),
  'a digit': replaced(/\d/g, (_, random) => String(below(random, 10))),
  'a sign': replaced(NUMBER, (old) => (old.startsWith('-') ? old.slice(1) : `-${old}`)),
  'a unit': replaced(
    NUMBER,
    (old, random) =>
      `${old}${oneOf(random, [' mm', ' in', ' ft', ' m', 'mm', ' cm', '"', ' miles', ' deg', ' lb', ' kg'])}`,
  ),
  'a value': replaced(/(?<=: )[^\s{[][^,}\]\n]*/g, (_, random) => oneOf(random, NUMBERS)),
  'a key': replaced(KEY, (_, random) => oneOf(random, KEYS)),
  'a key misspelt': replaced(KEY, misspelt),
  'a word misspelt': replaced(WORD, misspelt),
  'a word over': (text, random) => {
    const word = found(text, WORD, random)?.[0] ?? 'word';
    return replaced(WORD, () => word)(text, random);
  },
  'lines swapped': onLines((lines, at, random) => {
    const other = below(random, lines.length);
    [lines[at], lines[other]] = [lines[other]!, lines[at]!];
  }),
  'lines dropped': onLines((lines, at, random) => void lines.splice(at, 1 + below(random, 3))),
  'lines doubled': onLines(
    (lines, at, random) => void lines.splice(at, 0, ...lines.slice(at, at + 1 + below(random, 3))),
  ),
  'lines moved': onLines((lines, at, random) => {
    const taken = lines.splice(at, 1 + below(random, 4));
    lines.splice(below(random, lines.length), 0, ...taken);
  }),
  'an indent': onLines((lines, at, random) => {
    const spaces = ' '.repeat(below(random, 6));
    lines[at] = random() < 0.5 ? spaces + lines[at]! : lines[at]!.trimStart();
  }),
  'a tab': onLines((lines, at) => void (lines[at] = lines[at]!.replace(/^ */, '\t'))),
  'line ends': (text, random) =>
    text.replaceAll('\n', oneOf(random, ['\r\n', '\r', '\n\n', '\u2028'])),
  'a mark in front': (text, random) =>
    oneOf(random, [
      '\ufeff',
      '\ufeff\ufeff',
      '\ufffe',
      '%YAML 1.1\n---\n',
      '---\n',
      '--- ',
      '\0',
      '# ',
    ]) + text,
  'a long line': (text, random) =>
    spliced(
      text,
      below(random, text.length),
      0,
      oneOf(random, ['a', '9', ' ', '-', ':', '#']).repeat(20_000),
    ),
  'many lines': (text, random) =>
    spliced(text, text.indexOf('\n', below(random, text.length)), 0, '\n'.repeat(5000)),
  nesting: (text, random) => {
    const [open, close] = oneOf(random, [
      ['[', ']'],
      ['{ a: ', '}'],
      ['- ', ''],
      ['? ', ''],
    ] as const);
    const deep = oneOf(random, [5, 30, 90, 3000]);
    const at = found(text, /(?<=: )/g, random)?.index ?? 0;
    return spliced(text, at, 0, open.repeat(deep) + '1' + close.repeat(deep));
  },
  'an alias': (text, random) => {
    const first = found(text, /(?<=: )(?=[\d[{a-z])/g, random);
    if (!first) return text;
    const anchored = spliced(text, first.index, 0, '&a ');
    return replaced(/(?<=: )[^\s{[][^,}\]\n]*/g, () => '*a')(anchored, random);
  },
  'an alias bomb': (text, random) => {
    const levels = oneOf(random, [3, 6, 12]);
    const list = Array.from({ length: levels }, (_, k) =>
      k === 0
        ? 'b0: &b0 [1, 1, 1]'
        : `b${k}: &b${k} [${Array(9)
            .fill(`*b${k - 1}`)
            .join(', ')}]`,
    );
    return random() < 0.5 ? `${list.join('\n')}\n${text}` : `${text}\n${list.join('\n')}\n`;
  },
  'a second file': (text, random) => {
    const at = text.indexOf('\n', below(random, text.length));
    return `${text.slice(0, at)}\n${text.slice(below(random, text.length))}`;
  },
};

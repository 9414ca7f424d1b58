/** A bay whose names mean harm, through every command and into every file that one writes. */

import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createHash } from 'node:crypto';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readScenario } from '../../src/model/read.js';
import { berth } from '../cli/world.js';
import { expectCleanPrototypes, expectOwnMarkup, expectPlainText } from './harmless.js';

const DxfParser = createRequire(import.meta.url)('dxf-parser') as new () => {
  parseSync(text: string): { readonly entities: readonly { type: string; text?: string }[] };
};

const BAY = fileURLToPath(new URL('bay.yaml', import.meta.url));
const READINGS = fileURLToPath(new URL('readings.yaml', import.meta.url));
const AT = ['--at', 'setback=20,offset=0,height=2,pitch=3'];
/** What a person types may hold it too. */
const ESC = '\u001b[31m\u009b2J\u202e';

let folder: string;
const path = (name: string) => join(folder, name);
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), `berth-${ESC}-`));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Runs a command over the bay; it must end as commands do, and say nothing raw. */
async function ran(...argv: string[]) {
  const told = await berth(argv);
  expect([0, 1, 3], `${argv.join(' ')}: ${told.err}`).toContain(told.status);
  expectPlainText(told.out + told.err, argv.join(' '));
  return told;
}

describe('the bay', () => {
  it('can be read, its names as they stand, or this tests nothing', () => {
    const { scenario, problems } = readScenario(readFileSync(BAY, 'utf8'), 'yaml');
    expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
    const names = [
      scenario!.title,
      ...scenario!.choices.flatMap(({ options }) =>
        options.flatMap(({ add }) => add.map(({ name }) => name)),
      ),
      ...scenario!.parts.map(({ name }) => name),
      ...scenario!.choices.flatMap(({ name, options }) => [name, ...options.map((o) => o.name)]),
    ];
    for (const sort of [
      '\u001b',
      '\u0007',
      '\u009b',
      '\0',
      '\ud800',
      '\u202e',
      '\u2028',
      '\u200b',
      '\n',
      '\r',
      '<script>',
      ']]>',
      '<!--',
      '%c',
      '${',
      '"',
      "'",
    ]) {
      expect(names.join('|'), JSON.stringify(sort)).toContain(sort);
    }
    for (const own of ['constructor', 'toString', 'hasOwnProperty', 'valueOf', 'isPrototypeOf']) {
      expect(names).toContain(own);
    }
  });
});

describe('what is printed', () => {
  const commands: string[][] = [
    ['check'],
    ['place', '--guaranteed', '--all'],
    ['gaps', ...AT],
    ['driveline', ...AT],
    ['mockup', ...AT],
    ['mounts', '--all', ...AT],
    ['asbuilt', '--measured', READINGS, ...AT],
    ['blockers', '--all', '--want', 'offset=1/4', '--want', 'constructor=toString'],
    ['trim', '--want', 'offset=0.2', '--with-options'],
    ['compare'],
    ['compare', '--frontier', '--with-cuts'],
    ['slide', '--along', 'offset', '--steps', '3'],
  ];
  it.each(commands.map((argv) => [argv.join(' '), ...argv]))(
    '%s',
    async (_all, command, ...rest) => {
      const told = await ran(command, BAY, ...rest);
      expect(told.out).not.toBe('');
      // Those of `place` and `mounts` are looked at below.
      if (['check', 'place', 'mounts'].includes(command)) return;
      const { out } = await ran(command, BAY, ...rest.filter((one) => one !== '--all'), '--json');
      const answer = JSON.parse(out) as { readonly title: string };
      expect(answer.title).toContain('\u001b]0;harmed\u0007\u202e');
      expectCleanPrototypes();
    },
  );

  it('holds in JSON every name as it is, those of all objects too', async () => {
    const { out } = await ran('place', BAY, '--json', '--option', 'constructor=__proto__\u200b');
    const { options, rules } = JSON.parse(out) as {
      options: Record<string, string>;
      rules: { between: string[] }[];
    };
    expect(Object.entries(options)).toEqual([
      ['constructor', '__proto__\u200b'],
      ['hasOwnProperty', 'valueOf'],
    ]);
    const named = new Set(rules.flatMap(({ between }) => between));
    expect(named).toContain('gear\tbox\r\nSECTION\n  0\nEOF');
    expect(named).toContain('right \u009b31mheader');
    expect(named).toContain('\u202eliar thgir\u2066');
  });

  it('is a table of a line a point, as CSV', async () => {
    const { out } = await ran('slide', BAY, '--along', 'offset', '--steps', '2', '--csv');
    const lines = out.trimEnd().split('\n');
    expect(lines.length).toBeGreaterThanOrEqual(4);
    for (const line of lines) {
      expect(line.replace(/"(?:[^"]|"")*"/g, 'text').split(',')).toHaveLength(10);
    }
  });
});

const SVG = new Set(
  'svg title desc rect g path text circle defs clipPath pattern line tspan use'.split(' '),
);
const HTML = new Set([
  ...SVG,
  ...'html head meta style body h1 h2 h3 p div section table thead tbody tr td th ol ul li pre b br span'.split(
    ' ',
  ),
]);

describe('what is written', () => {
  it('as a sheet and its drawings has elements of ours alone, and a policy by hash', async () => {
    const svg = path('drawings');
    const { out } = await ran(
      'sheet',
      BAY,
      '-o',
      path('sheet.html'),
      '--svg',
      svg,
      '--cut',
      ']]></script><!--<script>=1/2',
    );
    const page = readFileSync(path('sheet.html'), 'utf8');
    expectOwnMarkup(page, HTML, 'the sheet');
    expect(out.match(/^Written: /gm)).toHaveLength(4);
    expect(page).toContain(
      '<h1>&lt;/title&gt;&lt;/script&gt;&lt;script&gt;window.harmed=1&lt;/script&gt;&lt;!--</h1>',
    );
    expectStylePolicy(page);
    for (const file of readdirSync(svg)) {
      const drawing = readFileSync(join(svg, file), 'utf8');
      expectOwnMarkup(drawing, SVG, file);
      expect(drawing).toContain('&lt;/title&gt;');
    }
    expect(readdirSync(svg)).toHaveLength(3);
  });

  it('as the blank guide has one style, by its hash, and nothing that runs', async () => {
    expect((await ran('init', '--form', '--page', path('form.html'))).out).toContain('Written: ');
    const page = readFileSync(path('form.html'), 'utf8');
    expectStylePolicy(page);
    expectOwnMarkup(page, HTML, 'the guide');
  });

  it('as patterns stays in its folder, and is nothing but what was drawn', async () => {
    mkdirSync(path('inner'));
    const { out } = await ran('mounts', BAY, '--json', '-o', path('inner/patterns'), ...AT);
    expect((JSON.parse(out) as { written: string[] }).written[0]).toContain(ESC);
    const files = readdirSync(path('inner/patterns'));
    expect(readdirSync(path('inner'))).toEqual(['patterns']);
    expect(files.length).toBeGreaterThan(10);
    for (const file of files) {
      expect(file).toMatch(/^[a-z0-9-]+\.(svg|dxf)$/);
      const text = readFileSync(path(`inner/patterns/${file}`), 'utf8');
      if (file.endsWith('.svg')) expectOwnMarkup(text, SVG, file);
      else expectOwnDxf(text, file);
    }
  });

  it('as an exported page holds the file as data that nothing ends', async () => {
    await ran('explore', BAY, '--export', path('explore.html'));
    const page = readFileSync(path('explore.html'), 'utf8');
    expect([...page.matchAll(/<script/gi)]).toHaveLength(2);
    expect([...page.matchAll(/<\/script/gi)]).toHaveLength(2);
    const data = /id="berth-start">(.*?)<\/script>/s.exec(page)![1]!;
    expect(data).not.toMatch(/[<>&\u2028\u2029]/);
    expect(JSON.parse(data)).toMatchObject({ text: readFileSync(BAY, 'utf8') });
  });
});

/** The page's one style is allowed by its hash, and nothing else is allowed at all. */
function expectStylePolicy(page: string): void {
  const styles = [...page.matchAll(/<style>([^]*?)<\/style>/g)];
  expect(styles).toHaveLength(1);
  const hash = createHash('sha256').update(styles[0]![1]!).digest('base64');
  const policy = /<meta http-equiv="Content-Security-Policy" content="([^"]*)">/.exec(page);
  expect(policy![1]!.split('; ').sort()).toEqual([
    "base-uri 'none'",
    "default-src 'none'",
    "form-action 'none'",
    `style-src 'sha256-${hash}'`,
  ]);
  expect(page).not.toMatch(/ style=/);
}

/** Pairs of a code and its value to the end, and in no text what a reader takes for a code. */
function expectOwnDxf(text: string, what: string): void {
  expectPlainText(text, what);
  expect(text, what).toMatch(/^[\n\x20-\x7e]*$/);
  const lines = text.trimEnd().split('\n');
  expect(lines.length % 2, what).toBe(0);
  const pairs = Array.from({ length: lines.length / 2 }, (_, i) => lines.slice(2 * i, 2 * i + 2));
  for (const [code] of pairs) expect(code, what).toMatch(/^ *\d+$/);
  const ends = pairs.filter(([code, value]) => code!.trim() === '0' && value === 'EOF');
  expect(ends, what).toHaveLength(1);
  const texts = new DxfParser().parseSync(text).entities.flatMap((one) => one.text ?? []);
  expect(texts.length, what).toBeGreaterThan(3);
  for (const one of texts) expect(one, what).not.toMatch(/%%|\^|\\/);
}

describe('what is typed', () => {
  const typed: [string, string[]][] = [
    ['a prototype as a command', ['__proto__']],
    ['another', ['constructor', BAY]],
    ['sequences as a command', [`${ESC}x`]],
    ['a prototype as an option', ['place', BAY, '--__proto__', 'x']],
    ['an aim', ['place', BAY, '--aim', 'constructor']],
    ['units', ['place', BAY, '--units', '__proto__']],
    ['a tolerance', ['place', BAY, '--tolerance', '1e400']],
    ['a time', ['place', BAY, '--time-limit', `Infinity${ESC}`]],
    ['a memory', ['place', BAY, '--memory-limit', '1e999']],
    ['a pin', ['place', BAY, '--pin', `toString=${ESC}1`]],
    ['a pin too large', ['place', BAY, '--pin', 'offset=1e309']],
    ['a choice', ['place', BAY, '--option', '__proto__=polluted']],
    ['an option', ['place', BAY, '--option', 'constructor=constructor']],
    ['a place', ['gaps', BAY, '--at', `constructor=1${ESC}`]],
    [
      'a place that is none',
      ['gaps', BAY, '--at', 'setback=NaN,offset=1e308,height=-1e400,pitch=-0'],
    ],
    ['a coordinate', ['slide', BAY, '--along', 'valueOf']],
    ['steps', ['slide', BAY, '--along', 'offset', '--steps', '1e9']],
    ['a wish', ['blockers', BAY, '--want', `${ESC}<script>=1`]],
    ['a wish for a prototype', ['blockers', BAY, '--want', '__proto__=1']],
    ['a case', ['compare', BAY, '--case', `__proto__: __proto__=1`]],
    ['a cut', ['sheet', BAY, '-o', 'never.html', '--cut', 'toString=1']],
    ['a paper', ['sheet', BAY, '-o', 'never.html', '--paper', 'hasOwnProperty']],
    ['a port', ['explore', BAY, '--port', '1e3']],
    ['a file', ['check', `nowhere${ESC}\n.yaml`]],
    ['a file with a null', ['check', 'nowhere\0.yaml']],
    ['a page with a null', ['explore', BAY, '--export', 'never\0.html']],
    ['a file of readings', ['asbuilt', BAY, '--measured', `nowhere${ESC}`]],
    ['a proof', ['verify', BAY, `nowhere${ESC}`]],
  ];
  it.each(typed)('%s is refused in plain words', async (_what, argv) => {
    const { status, out, err } = await berth(argv);
    expect(status, err).toBe(2);
    expect(out + err).not.toBe('');
    expectPlainText(out + err, argv.join(' '));
    expectCleanPrototypes();
  });
});

it('proves the bay by a certificate, and is unharmed by one that was spoilt', async () => {
  const proof = path('proof.json');
  expect((await ran('place', BAY, '--certificate', proof)).out).toContain('Written: ');
  expect((await ran('verify', BAY, proof)).status).toBe(0);
  const text = readFileSync(proof, 'utf8');
  const spoilt: [string, string][] = [
    ['sequences', text.replaceAll('constructor', '\\u001b[31m\\u009b\\u202e')],
    ['prototypes', text.replace(/^\{/, '{"__proto__":{"polluted":1},"constructor":1,')],
    ['inner prototypes', text.replace(/"claims":\[\{/, '"claims":[{"__proto__":{"polluted":1},')],
    ['numbers', text.replace(/-?\d+\.\d+/g, '1e400')],
    ['large ones', text.replace(/-?\d+\.\d+/g, '1e308')],
    ['small ones', text.replace(/-?\d+\.\d+/g, '-5e-324')],
    ['depth', `{"certificate":1,"claims":${'['.repeat(100_000)}`],
    ['closed depth', `${'['.repeat(100_000)}${']'.repeat(100_000)}`],
    ['markup', '<script>window.harmed=1</script>\u001b[31m'],
  ];
  for (const [what, harm] of spoilt) {
    expect(harm, what).not.toBe(text);
    writeFileSync(proof, harm);
    const { status, out, err } = await berth(['verify', BAY, proof]);
    expect([1, 2], `${what}: ${out}${err}`).toContain(status);
    expect(err, what).not.toContain('fault in Berth');
    expectPlainText(out + err, what);
    expectCleanPrototypes();
  }
});

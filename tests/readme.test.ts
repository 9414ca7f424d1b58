/**
 * The README as a test: what it says to type is typed, and what it shows must come out.
 *
 * - ```yaml file=NAME: written to NAME in a scratch folder.
 * - ```yaml add=NAME: NAME with this at its end must pass `berth check`; with as=OTHER it is kept as OTHER.
 * - ```console status=N: the `$ ` line is run in that folder; the rest is its output, in which a line
 *   `...` stands for any lines or none. The exit status is N, 0 unless given.
 * - ```sh: commands that are not run here, each of them listed in NOT_RUN.
 */

import {
  existsSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { jsonSchema, SHAPES } from '../src/model/schema.js';
import { berth } from './cli/world.js';
import type { Outcome } from './cli/world.js';

const ROOT = resolve(import.meta.dirname, '..');
const README = readFileSync(join(ROOT, 'README.md'), 'utf8');
const { scripts } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as {
  scripts: Record<string, string>;
};

/** `npm ci` needs a registry, and the tests cannot run themselves. */
const NOT_RUN = new Set(['npm ci', 'npm test']);
/** Typed through npm, without its own chatter. */
const BERTH = 'npm run -s berth -- ';
const DEMO = 'place scenarios/orchard-hauler.yaml';
const MAIN_JOB = 'npm start';

interface Block {
  readonly language: string;
  readonly about: Readonly<Record<string, string>>;
  readonly lines: readonly string[];
  /** One-based. */
  readonly line: number;
}

function blocksOf(text: string): Block[] {
  const blocks: Block[] = [];
  let open: { language: string; about: Record<string, string>; lines: string[]; line: number };
  let inside = false;
  text.split('\n').forEach((line, index) => {
    const fence = /^```(.*)$/.exec(line);
    if (!fence) {
      if (inside) open.lines.push(line);
      return;
    }
    inside = !inside;
    if (!inside) {
      blocks.push(open);
      return;
    }
    const [language = '', ...words] = fence[1]!.split(' ');
    const about = Object.fromEntries(words.map((word) => word.split('=') as [string, string]));
    open = { language, about, lines: [], line: index + 1 };
  });
  if (inside) throw new Error(`the block of line ${open!.line} has no end`);
  return blocks;
}

/** A command line's words, as a shell parts them; double quotes only. */
function words(command: string): string[] {
  return [...command.matchAll(/"([^"]*)"|[^\s"]+/g)].map((word) => word[1] ?? word[0]);
}

/** Whether lines match those shown, `...` standing for any lines or none. */
function matches(shown: readonly string[], lines: readonly string[]): boolean {
  const [first, ...rest] = shown;
  if (first === undefined) return lines.length === 0;
  if (first !== '...') return lines[0] === first && matches(rest, lines.slice(1));
  return Array.from({ length: lines.length + 1 }, (_, n) => n).some((n) =>
    matches(rest, lines.slice(n)),
  );
}

/** Runs what follows `$ `, in the scratch folder, with its output in a file where it says so. */
async function typed(command: string): Promise<Outcome> {
  if (command === MAIN_JOB) return berth(words(DEMO));
  if (!command.startsWith(BERTH)) throw new Error(`not a command of ours: ${command}`);
  const [said, file, ...more] = command.slice(BERTH.length).split(' > ');
  if (more.length > 0) throw new Error(`more than one output: ${command}`);
  const outcome = await berth(words(said!));
  if (file === undefined) return outcome;
  writeFileSync(file, outcome.out);
  return { ...outcome, out: '' };
}

/** First cells of the rows of the tables under a heading: the code spans in them. */
function firstCells(heading: string): string[][] {
  const section = README.split(/^#+ /m).find((part) => part.startsWith(`${heading}\n`)) ?? '';
  return section
    .split('\n')
    .filter((line) => line.startsWith('| `'))
    .map((line) => [...line.split('|')[1]!.matchAll(/`([^`]+)`/g)].map((code) => code[1]!));
}

/** The file that a block adds to, with the block at its end. */
function addedTo(directory: string, { about, lines }: Block): string {
  return `${readFileSync(join(directory, about['add']!), 'utf8')}${lines.join('\n')}\n`;
}

const blocks = blocksOf(README);
const named = (language: string, key?: string) =>
  blocks.filter(
    (block) => block.language === language && (key === undefined || block.about[key] !== undefined),
  );
const consoles = named('console');

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'berth-readme-'));
  symlinkSync(join(ROOT, 'scenarios'), join(folder, 'scenarios'), 'dir');
  for (const { about, lines } of named('yaml', 'file')) {
    writeFileSync(join(folder, about['file']!), `${lines.join('\n')}\n`);
  }
  for (const block of named('yaml', 'as')) {
    writeFileSync(join(folder, block.about['as']!), addedTo(folder, block));
  }
  process.chdir(folder);
});
afterAll(() => {
  process.chdir(ROOT);
  rmSync(folder, { recursive: true, force: true });
});

describe('the README', () => {
  it('has blocks of every sort, and none that no test knows', () => {
    expect(named('yaml', 'file').length).toBeGreaterThan(0);
    expect(named('yaml', 'add').length).toBeGreaterThan(0);
    expect(consoles.length).toBeGreaterThan(3);
    const known = new Set([...consoles, ...named('sh'), ...named('yaml')]);
    expect(blocks.filter((block) => !known.has(block)).map(({ line }) => line)).toEqual([]);
  });

  it.each(consoles.map((block) => [block.lines[0] ?? '', block] as const))(
    '%s',
    async (prompt, { lines, about }) => {
      expect(prompt).toMatch(/^\$ /);
      const { status, out, err } = await typed(prompt.slice(2));
      const shown = lines.slice(1);
      const printed = out === '' ? [] : out.replace(/\n$/, '').split('\n');
      if (!matches(shown, printed)) expect(printed.join('\n')).toBe(shown.join('\n'));
      expect({ status, err }).toEqual({ status: Number(about['status'] ?? '0'), err: '' });
    },
  );

  it('shows only lines that stand for something', () => {
    const shown = consoles.flatMap(({ lines }) => lines.slice(1)).filter((line) => line !== '...');
    expect(shown.length).toBeGreaterThan(10);
    expect(matches(['a', '...', 'c'], ['a', 'b', 'c'])).toBe(true);
    expect(matches(['a', '...', 'c'], ['a', 'b', 'd'])).toBe(false);
    expect(matches(['...', 'b'], ['a', 'b', 'c'])).toBe(false);
    expect(matches(['a'], ['a', 'b'])).toBe(false);
  });

  it('starts the main job, and nothing else, with npm start', () => {
    expect(scripts['start']).toBe(`node tools/build.mjs && node dist/berth.js ${DEMO}`);
    expect(scripts['berth']).toBe('node tools/build.mjs && node dist/berth.js');
    const commands = named('sh').flatMap(({ lines }) => lines.flatMap((l) => l.split(' && ')));
    expect(commands).toContain(MAIN_JOB);
    expect(commands.filter((one) => one !== MAIN_JOB && !NOT_RUN.has(one))).toEqual([]);
  });

  it.each(named('yaml', 'add'))('adds what it says it can to $about.add', async (block) => {
    writeFileSync('added.yaml', addedTo('.', block));
    const { status, out } = await berth(['check', 'added.yaml']);
    expect(status, out).toBe(0);
    expect(out).toContain('Nothing is wrong');
  });

  it('has an editor line that names the schema it writes', () => {
    const hint = named('yaml').find(({ lines }) => lines[0]?.includes('$schema='));
    const file = hint!.lines[0]!.split('$schema=')[1]!;
    const written = consoles.some(({ lines }) => lines[0]?.endsWith(` > ${file}`));
    expect(written).toBe(true);
    expect(JSON.parse(readFileSync(file, 'utf8'))).toEqual(
      JSON.parse(JSON.stringify(jsonSchema())),
    );
  });

  const options = firstCells('Commands').map((cell) => cell[0]!);
  const added = options.filter((cell) => cell.startsWith('--'));
  it.each(added)('place first.yaml %s', async (option) => {
    const { status, err } = await berth(['place', 'first.yaml', ...words(option)]);
    expect([0, 1], err).toContain(status);
  });

  it('names every command and every option there is', async () => {
    const { out: top } = await berth(['--help']);
    const commands = [...top.matchAll(/^ {2}([a-z]+)(?: \[options\].*?)? {2,}\S/gm)].map(
      (found) => found[1]!,
    );
    expect(commands.length).toBeGreaterThan(3);
    const listed = options.filter((cell) => !cell.startsWith('--')).map((cell) => words(cell)[0]);
    expect(listed).toEqual(commands);
    let offered = '';
    for (const command of commands) offered += (await berth([command, '--help'])).out;
    const flags = (text: string) =>
      new Set([...text.matchAll(/(?<![\w-])--[a-z][a-z-]*/g)].map((flag) => flag[0]));
    expect([...flags(README)].sort()).toEqual(
      [...flags(offered)].filter((flag) => flag !== '--help').sort(),
    );
  });

  it('lists every key of a scenario and every shape', () => {
    const { properties } = jsonSchema() as { properties: Record<string, unknown> };
    expect(firstCells('Keys of the file').flat().sort()).toEqual(Object.keys(properties).sort());
    for (const shape of SHAPES) expect(README).toContain(`\`${shape}\``);
  });
});

describe('the page for developers', () => {
  const page = readFileSync(join(ROOT, 'DEVELOPERS.md'), 'utf8');
  const filesIn = (directory: string) =>
    readdirSync(join(ROOT, directory)).filter((name) => name.endsWith('.ts'));
  const folders = [...page.matchAll(/^### `(src\/.+)`$/gm)].map((found) => found[1]!);

  it('maps every folder of the source', () => {
    const inside = readdirSync(join(ROOT, 'src'), { recursive: true, encoding: 'utf8' })
      .map((path) => `src/${path}`)
      .filter((path) => statSync(join(ROOT, path)).isDirectory());
    expect(inside.length).toBeGreaterThan(4);
    expect([...folders].sort()).toEqual(inside.sort());
  });

  it.each(folders)('names every file of %s, each once, and no other', (directory) => {
    const section = page.split(`### \`${directory}\`\n`)[1]!.split(/^#/m)[0]!;
    const items = section.match(/^- [^:]+:/gm) ?? [];
    const listed = items.flatMap((item) => [...item.matchAll(/`([^`]+)`/g)].map((one) => one[1]!));
    expect(listed.sort()).toEqual(filesIn(directory).sort());
  });

  it('names no file that is not there', () => {
    const everywhere = ['src', 'tests', 'bench', 'campaign', 'tools', 'scenarios'].flatMap((top) =>
      readdirSync(join(ROOT, top), { recursive: true, encoding: 'utf8' }).map(
        (at) => `/${top}/${at}`,
      ),
    );
    everywhere.push(...readdirSync(ROOT).map((name) => `/${name}`));
    const named = [...page.matchAll(/`([\w./-]+\.(?:ts|mjs|json|md|js))`/g)].map((f) => f[1]!);
    expect(named.length).toBeGreaterThan(100);
    const missing = named.filter((name) => !everywhere.some((path) => path.endsWith(`/${name}`)));
    expect(missing).toEqual([]);
    expect(existsSync(join(ROOT, '.ci/run'))).toBe(true);
  });

  it('names no constant or function that is not there', () => {
    const source = ['src', 'tests']
      .flatMap((top) =>
        readdirSync(join(ROOT, top), { recursive: true, encoding: 'utf8' })
          .filter((path) => path.endsWith('.ts') && path !== 'readme.test.ts')
          .map((path) => readFileSync(join(ROOT, top, path), 'utf8')),
      )
      .join('\n');
    const named = [...page.matchAll(/`([A-Z][A-Z_]{3,}|[a-z]+[A-Z]\w+)`/g)].map((f) => f[1]!);
    expect(named.length).toBeGreaterThan(40);
    const missing = named.filter((name) => !new RegExp(`\\b${name}\\b`).test(source));
    expect(missing).toEqual([]);
  });
});

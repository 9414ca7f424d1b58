/** `berth init`: with its answers in a file, with lines piped in, and typed on a real terminal. */

import { spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { readScenario } from '../../src/model/read.js';
import { QUESTIONS } from '../../src/templates/questions.js';
import { terminal } from './terminal.js';
import { berth } from './world.js';

let folder: string;
let file: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'berth-init-'));
  file = join(folder, 'bay.yaml');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

function put(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

function isGood(path: string): string {
  const text = readFileSync(path, 'utf8');
  expect(readScenario(text, 'yaml').problems).toEqual([]);
  return text;
}

/** Enter for every question. */
const ENTERS = '\n'.repeat(QUESTIONS.length);

describe('berth init --answers', () => {
  it('writes a scenario that can be placed', async () => {
    const answers = put('answers', 'engine: V6\nrails front: 30\nhood: 27\n');
    const { status, out, err } = await berth(['init', file, '--answers', answers]);
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toContain('V6 and long manual into a pickup');
    expect(out).toContain('3 answers');
    expect(isGood(file)).toContain('hood 27');
    expect(readdirSync(folder).sort()).toEqual(['answers', 'bay.yaml']);
    const placed = await berth(['place', file, '--time-limit', '1']);
    expect([0, 1, 3]).toContain(placed.status);
    expect(placed.out).toContain('guess');
  });

  it('says every problem at once, and writes nothing', async () => {
    const answers = put('answers', 'engin: V6\nhood: high\ncore: 90\n');
    const { status, out, err } = await berth(['init', file, '--answers', answers]);
    expect({ status, out }).toEqual({ status: 2, out: '' });
    for (const said of ['answers:1', "'engin'", 'answers:2', 'answers:3', '3 errors']) {
      expect(err).toContain(said);
    }
    expect(existsSync(file)).toBe(false);
  });

  it('leaves a file that is there alone, unless forced', async () => {
    put('bay.yaml', 'mine\n');
    const answers = put('answers', 'bay: van\n');
    const refused = await berth(['init', file, '--answers', answers]);
    expect(refused.status).toBe(2);
    expect(refused.err).toContain('--force');
    expect(readFileSync(file, 'utf8')).toBe('mine\n');
    const forced = await berth(['init', file, '--answers', answers, '--force']);
    expect(forced.status).toBe(0);
    expect(isGood(file)).toContain('into a van');
  });

  it.each([
    [['init'], 'needs the name'],
    [['init', '-'], 'writes YAML'],
    [['init', 'bay.json'], 'writes YAML'],
    [['init', 'none/bay.yaml', '--answers', 'answers'], 'no such'],
    [['init', 'bay.yaml', '--answers', 'none'], 'no such file'],
    [['init', 'bay.yaml', '--page', 'guide.html'], '--form'],
    [['init', 'bay.yaml', '--form'], 'takes no file'],
  ])('%j is bad input', async (argv, said) => {
    put('answers', 'bay: van\n');
    const at = process.cwd();
    process.chdir(folder);
    try {
      const { status, err } = await berth(argv);
      expect(status).toBe(2);
      expect(err).toContain(said);
      expect(readdirSync(folder)).toEqual(['answers']);
    } finally {
      process.chdir(at);
    }
  });

  it('leaves nothing half written where it may not write', async () => {
    const answers = put('answers', 'bay: van\n');
    mkdirSync(file);
    const { status, err } = await berth(['init', file, '--answers', answers, '--force']);
    expect(status).toBe(2);
    expect(err).toContain('bay.yaml');
    expect(readdirSync(folder).sort()).toEqual(['answers', 'bay.yaml']);
  });
});

describe('berth init with lines piped in', () => {
  it('asks all the same, and writes after the last', async () => {
    const { status, out } = await berth(['init', file], { stdin: `mm\n${ENTERS}` });
    expect(status).toBe(0);
    expect(out.match(/^\d+ of 25/gm)!.length).toBe(QUESTIONS.length);
    expect(isGood(file)).toContain('units: mm');
  });

  it('takes back, explains and refuses, and loses nothing', async () => {
    const stdin = `in\nV7\nV6\nback\nflat\n?\n${ENTERS}`;
    const { status, out } = await berth(['init', file], { stdin });
    expect(status).toBe(0);
    expect(out).toContain('did you mean V6?');
    expect(isGood(file)).toContain('flat four');
  });

  it('keeps the answers when the lines end early, and goes on from them', async () => {
    const first = await berth(['init', file], { stdin: 'in\nV6\n' });
    expect(first.status).toBe(3);
    expect(existsSync(file)).toBe(false);
    expect(readFileSync(`${file}.answers`, 'utf8')).toContain('engine: V6');
    const second = await berth(['init', file], { stdin: ENTERS });
    expect(second.status).toBe(0);
    expect(second.out).toMatch(/2 of 25 are\s+done/);
    expect(isGood(file)).toContain('title: V6');
    // Kept, so that one answer can be changed: the same file comes of it.
    const again = await berth(['init', `${file}2`, '--answers', `${file}.answers`]);
    expect(again.status).toBe(0);
    expect(readFileSync(`${file}2`, 'utf8')).toBe(readFileSync(file, 'utf8'));
  });

  it('does not go on from answers that somebody broke', async () => {
    put('bay.yaml.answers', 'units: furlongs\n');
    const { status, err } = await berth(['init', file], { stdin: ENTERS });
    expect(status).toBe(2);
    expect(err).toContain('bay.yaml.answers:1');
  });
});

describe('berth init --form', () => {
  it('prints the guide, or writes its page', async () => {
    const text = await berth(['init', '--form']);
    expect(text.status).toBe(0);
    expect(text.out).toContain('MEASURING GUIDE');
    const page = join(folder, 'guide.html');
    expect((await berth(['init', '--form', '--page', page])).status).toBe(0);
    expect(readFileSync(page, 'utf8')).toMatch(/^<!doctype html>/);
    expect((await berth(['init', '--form', '--page', page])).status).toBe(2);
  });
});

describe('berth init on a terminal', () => {
  const BERTH = `${process.execPath} ${resolve('dist/berth.js')}`;
  beforeAll(() => {
    expect(spawnSync(process.execPath, ['tools/build.mjs']).status).toBe(0);
  });

  it('is stopped by Ctrl-C and by Ctrl-D, goes on, and writes', async () => {
    const first = terminal(`${BERTH} init bay.yaml`, folder);
    await first.until('1 of 25');
    await first.until('\n> ');
    await first.type('in');
    await first.type('inline six');
    await first.type('about here', 'is not one of these');
    first.keys('\u0003');
    expect(await first.ended(), first.shown()).toBe(3);
    expect(first.shown()).toContain('2 of 25 are kept');
    expect(existsSync(file)).toBe(false);

    const second = terminal(`${BERTH} init bay.yaml`, folder);
    await second.until('3 of 25');
    await second.until('\n> ');
    await second.type('front');
    await second.type('back', '3 of 25');
    await second.until('\n> ');
    await second.type('middle');
    second.keys('\u0004');
    expect(await second.ended(), second.shown()).toBe(3);

    const third = terminal(`${BERTH} init bay.yaml`, folder);
    await third.until('4 of 25');
    await third.until('\n> ');
    await third.type('?', 'a light car');
    await third.until('\n> ');
    for (let at = 4; at < QUESTIONS.length; at++) await third.type('');
    await third.type('', 'Enter writes bay.yaml');
    await third.until('\n> ');
    await third.type('back', '25 of 25');
    await third.until('\n> ');
    await third.type('6');
    await third.type('', 'Written');
    expect(await third.ended(), third.shown()).toBe(0);
    const text = isGood(file);
    expect(text).toContain('title: inline six');
    expect(text).toContain('tail height 6');
    expect(readFileSync(`${file}.answers`, 'utf8')).toContain('sump: middle');
    expect(readdirSync(folder).sort()).toEqual(['bay.yaml', 'bay.yaml.answers']);
  }, 180_000);
});

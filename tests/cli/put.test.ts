/** Files written whole or not at all. */

import {
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { isBusy } from '../../src/cli/busy.js';
import { putFile, putFiles } from '../../src/cli/put.js';

let folder = '';
const at = (name: string) => join(folder, name);
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'berth-put-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('writes all of several files, or none of them', async () => {
  writeFileSync(at('a'), 'before');
  mkdirSync(at('taken'));
  const wrong: [string, string][] = [
    ['taken', 'this is a directory'],
    ['none/b', 'there is no such folder to write to'],
    ['a/b', 'part of this path is not a folder'],
    ['n'.repeat(300), 'this name is too long for a file'],
    ['/dev/null', 'this is no file but a device or a pipe'],
  ];
  for (const [name, why] of wrong) {
    const path = name.startsWith('/') ? name : at(name);
    const files = [
      { path: at('a'), text: 'after' },
      { path: at('c'), text: 'new' },
      { path, text: 'x' },
    ];
    await expect(putFiles(files)).rejects.toMatchObject({
      file: path,
      problems: [{ message: why }],
    });
    expect(readFileSync(at('a'), 'utf8')).toBe('before');
    expect(readdirSync(folder).sort()).toEqual(['a', 'taken']);
  }
  const writing = putFiles(['a', 'c'].map((name) => ({ path: at(name), text: `of ${name}` })));
  expect(isBusy()).toBe(true);
  await writing;
  expect(isBusy()).toBe(false);
  expect(['a', 'c'].map((name) => readFileSync(at(name), 'utf8'))).toEqual(['of a', 'of c']);
});

it('keeps a link, to a file that is there or not yet', async () => {
  for (const name of ['there', 'not yet']) {
    if (name === 'there') writeFileSync(at(name), 'before');
    symlinkSync(name, at(`link ${name}`));
    await putFile(at(`link ${name}`), 'after');
    expect(lstatSync(at(`link ${name}`)).isSymbolicLink()).toBe(true);
    expect(readFileSync(at(name), 'utf8')).toBe('after');
  }
});

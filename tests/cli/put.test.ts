/** Files written whole or not at all. */

import {
  chmodSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { isBusy } from '../../src/cli/running/busy.js';
import { putFile, putFiles } from '../../src/cli/writing/put.js';

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

it('writes a name of all the bytes that a name can have, with accents and spaces', async () => {
  const name = `é plan ${'n'.repeat(242)}.html`;
  expect(Buffer.byteLength(name)).toBe(255);
  for (const text of ['first', 'second']) {
    await putFile(at(name), text);
    expect(readFileSync(at(name), 'utf8')).toBe(text);
  }
});

it('leaves who may do what with a file as it was, whatever the umask', async () => {
  writeFileSync(at('shared'), 'before');
  chmodSync(at('shared'), 0o664);
  const umask = process.umask(0o077);
  try {
    await putFile(at('shared'), 'after');
  } finally {
    process.umask(umask);
  }
  expect(statSync(at('shared')).mode & 0o777).toBe(0o664);
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

it('goes along links that lead to links, from where each really is, and not in a circle', async () => {
  mkdirSync(at('deep/er'), { recursive: true });
  symlinkSync('deep/er', at('short'));
  symlinkSync('../second', at('deep/er/first'));
  symlinkSync('end', at('deep/second'));
  await putFile(at('short/first'), 'there');
  expect(readFileSync(at('deep/end'), 'utf8')).toBe('there');
  expect(lstatSync(at('deep/second')).isSymbolicLink()).toBe(true);
  symlinkSync('b', at('circle'));
  symlinkSync('circle', at('b'));
  await expect(putFile(at('circle'), 'x')).rejects.toMatchObject({
    problems: [{ message: 'this link leads back to itself' }],
  });
});

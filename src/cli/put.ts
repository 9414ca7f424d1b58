/** Writing files whole or not at all. */

import {
  lstat,
  mkdir,
  open,
  readFile,
  readlink,
  realpath,
  rename,
  rm,
  stat,
} from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import { whole } from './busy.js';
import { mistake, UserError } from './problems.js';

/** What a file is to hold. */
export interface ToPut {
  readonly path: string;
  readonly text: string;
}

/** Writes one file, as `putFiles` does. @throws UserError where it cannot be written. */
export function putFile(path: string, text: string): Promise<void> {
  return putFiles([{ path, text }]);
}

/**
 * Writes every text beside its file, down to the disk, and only when all of them are there puts them in their
 * places, so that no one meets half a file, nor some of the files with a full disk. A link stays a link, to a
 * file with this text; who may read and write a file stays as it was. Ctrl-C waits until it is done.
 * @throws UserError where one cannot be written; what stood there before then still stands.
 */
export function putFiles(files: readonly ToPut[]): Promise<void> {
  return whole(async () => {
    const beside: { readonly from: string; readonly to: string; readonly path: string }[] = [];
    let at = files[0]?.path ?? '';
    try {
      for (const { path, text } of files) {
        at = path;
        const to = await target(path);
        // Named for this process, and never over what somebody else has put there.
        const from = `${to}.${process.pid}.new`;
        await writeDown(from, text, await modeOf(to), () => beside.push({ from, to, path }));
      }
      for (const { from, to, path } of beside) {
        at = path;
        await rename(from, to);
      }
    } catch (error) {
      for (const { from } of beside) await rm(from, { force: true }).catch(() => undefined);
      throw refused(at, error);
    }
  });
}

/** Where a link leads, even to a file that is not there yet. */
async function target(path: string): Promise<string> {
  const to = await realpath(path).catch(async () => {
    const next = await readlink(path).catch(() => undefined);
    return next === undefined ? path : resolve(dirname(path), next);
  });
  const about = await stat(to).catch(() => undefined);
  if (about === undefined || about.isFile()) return to;
  if (about.isDirectory()) throw Object.assign(new Error(), { code: 'EISDIR' });
  // A device or a pipe, which nothing must take the place of.
  throw Object.assign(new Error(), { code: 'ENOTFILE' });
}

async function modeOf(path: string): Promise<number> {
  return stat(path).then(
    (about) => about.mode & 0o777,
    () => 0o666,
  );
}

/** A new file, down to the disk. @param made called once it is there, whatever it holds. */
async function writeDown(
  path: string,
  text: string,
  mode: number,
  made: () => void,
): Promise<void> {
  const file = await open(path, 'wx', mode);
  try {
    made();
    await file.writeFile(text);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** Whether anything at all stands at a path, a broken link included. */
export async function isThere(path: string): Promise<boolean> {
  try {
    await lstat(path);
    return true;
  } catch {
    return false;
  }
}

/** A folder to write into, made if it is not there. @throws UserError where none can be made of it. */
export async function makeFolder(folder: string): Promise<void> {
  try {
    await mkdir(folder, { recursive: true });
  } catch {
    const { problems } = mistake('this is no folder, and none can be made of it', {
      code: 'unreadable',
    });
    throw new UserError(problems, folder);
  }
}

/**
 * What is there already may be written over if it is one of ours; never the file that is read.
 * @param ours what our own file holds near its beginning, and what it is called.
 */
export async function refuseOther(
  path: string,
  read: string | undefined,
  ours: { readonly mark: string; readonly what: string },
  force: boolean | undefined,
): Promise<void> {
  const refuse = (message: string): never => {
    throw new UserError(mistake(message).problems, path);
  };
  if (read !== undefined && read !== '-' && resolve(path) === resolve(read)) {
    refuse('this is the scenario itself: name another file');
  }
  if (force === true || !(await isThere(path))) return;
  const text = await readFile(path, 'utf8').catch(() => '');
  if (!text.slice(0, 1000).includes(ours.mark)) {
    refuse(`a file that is no ${ours.what} of ours is there already; --force writes over it`);
  }
}

function refused(path: string, error: unknown): unknown {
  if (!(error instanceof Error) || !('code' in error)) return error;
  const code = String(error.code);
  const { problems } = mistake(REASONS[code] ?? `this cannot be written (${code})`, {
    code: 'unreadable',
  });
  return new UserError(problems, path);
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such folder to write to',
  ENOTDIR: 'part of this path is not a folder',
  EISDIR: 'this is a directory',
  ENOTFILE: 'this is no file but a device or a pipe',
  EACCES: 'this may not be written',
  EPERM: 'this may not be written',
  EROFS: 'this disk may only be read',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk is full',
  EIO: 'the disk failed',
  EFBIG: 'this file may not be so large',
  ELOOP: 'this link leads back to itself',
  ENAMETOOLONG: 'this name is too long for a file',
};

/** Writing a file whole or not at all. */

import { lstat, mkdir, readFile, realpath, rename, rm, stat, writeFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { mistake, UserError } from './problems.js';

/**
 * Writes text beside the file and then puts it in its place, so that no one meets half of it. A link stays a
 * link, to a file with this text; who may read and write the file stays as it was.
 * @throws UserError where it cannot be written; what stood there before then still stands.
 */
export async function putFile(path: string, text: string): Promise<void> {
  const whole = await realpath(path).catch(() => path);
  // Named for this process, and never over what somebody else has put there.
  const beside = `${whole}.${process.pid}.new`;
  try {
    const mode = await stat(whole).then(
      (about) => about.mode & 0o777,
      () => 0o666,
    );
    await writeFile(beside, text, { flag: 'wx', mode });
    await rename(beside, whole);
  } catch (error) {
    await rm(beside, { force: true }).catch(() => undefined);
    throw refused(path, error);
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
  EACCES: 'this may not be written',
  EPERM: 'this may not be written',
  EROFS: 'this disk may only be read',
  ENOSPC: 'the disk is full',
  ENAMETOOLONG: 'this name is too long for a file',
};

/** Writing files whole or not at all. */

import {
  access,
  constants,
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
import type { Stats } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { whole } from '../running/busy.js';
import { mistake, UserError } from '../problems.js';

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
        // Named for this process, never over what somebody else has put there, and short: its own name may
        // have all the bytes that a name can.
        const from = join(dirname(to), `.berth-${process.pid}-${beside.length + 1}.new`);
        await writeDown(from, text, await heldBy(to), () => beside.push({ from, to, path }));
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

/** Links that lead to one another before they count as a circle, as Linux has it. */
const MOST_LINKS = 40;

/** Where a link leads, even to a file that is not there yet. */
async function followed(path: string): Promise<string> {
  let to = path;
  for (let links = 0; links < MOST_LINKS; links++) {
    const next = await readlink(to).catch(() => undefined);
    if (next === undefined) return to;
    to = resolve(await realpath(dirname(to)), next);
  }
  throw Object.assign(new Error(), { code: 'ELOOP' });
}

/** The file to put in place for a path. @throws where none may take its place. */
async function target(path: string): Promise<string> {
  const to = await realpath(path).catch(() => followed(path));
  const about = await isAt(to);
  if (about === undefined || about.isFile()) return to;
  if (about.isDirectory()) throw Object.assign(new Error(), { code: 'EISDIR' });
  // A device or a pipe, which nothing must take the place of.
  throw Object.assign(new Error(), { code: 'ENOTFILE' });
}

/** What is there; nothing where nothing is. @throws where nothing can be: part of the path is a file, its name too long. */
async function isAt(path: string): Promise<Stats | undefined> {
  return stat(path).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return undefined;
    throw error;
  });
}

/** Who may do what with the file that is there, if one is, and whose it is. @throws where it may not be written. */
async function heldBy(path: string): Promise<Stats | undefined> {
  const about = await isAt(path);
  if (about) await access(path, constants.W_OK);
  return about;
}

/** A new file, down to the disk. @param made called once it is there, whatever it holds. */
async function writeDown(
  path: string,
  text: string,
  before: Stats | undefined,
  made: () => void,
): Promise<void> {
  const file = await open(path, 'wx', before ? before.mode & 0o777 : 0o666);
  try {
    made();
    if (before) {
      // Another's file stays his where the system lets it, and then what the umask took away is given back.
      await file
        .chown(before.uid, before.gid)
        .then(() => file.chmod(before.mode & 0o777))
        .catch(() => undefined);
    }
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
  } catch (error) {
    throw refused(folder, error, { ...REASONS, ...NO_FOLDER });
  }
}

/**
 * What is there already may be written over if it is one of ours; never the file that is read. Whether there is a
 * folder to write to is seen here too, before anybody waits for a search.
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
  if (read !== undefined && read !== '-' && (await isSame(path, read))) {
    refuse('this is the scenario itself: name another file');
  }
  try {
    await access(dirname(path), constants.W_OK);
  } catch (error) {
    throw refused(path, error);
  }
  if (force === true || !(await isThere(path))) return;
  const text = await readFile(path, 'utf8').catch(() => '');
  if (!text.slice(0, 1000).includes(ours.mark)) {
    refuse(`a file that is no ${ours.what} of ours is there already; --force writes over it`);
  }
}

/** Whether two paths lead to one file, along whatever links. */
async function isSame(a: string, b: string): Promise<boolean> {
  const [one, other] = await Promise.all([a, b].map((path) => stat(path).catch(() => undefined)));
  return one !== undefined && one.ino === other?.ino && one.dev === other.dev;
}

function refused(path: string, error: unknown, reasons = REASONS): unknown {
  if (!(error instanceof Error) || !('code' in error)) return error;
  const code = String(error.code);
  const { problems } = mistake(reasons[code] ?? `this cannot be written (${code})`, {
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

const NO_FOLDER = {
  EEXIST: 'this is no folder, and none can be made of it',
  ENOTDIR: 'this is no folder, and none can be made of it',
  ENOENT: 'this is no folder, and none can be made of it',
};

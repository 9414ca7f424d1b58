/** The world as the commands see it, so that a test can stand in for it; and reading one file. */

import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { extname } from 'node:path';
import { MAX_FILE_BYTES } from '../model/text/document.js';
import { mistake, UserError } from './problems.js';

export interface Io {
  out(text: string): void;
  err(text: string): void;
  readonly inIsTerminal: boolean;
  readonly outIsTerminal: boolean;
  readonly errIsTerminal: boolean;
  /** Of the terminal, where there is one and it says. */
  readonly outRows?: number | undefined;
  readonly errColumns?: number | undefined;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** Milliseconds that only ever grow. */
  now(): number;
  /** What `now` was when the program was started. */
  readonly started: number;
  /** Whether what is in use comes near so many MiB. */
  isFull(limit: number): boolean;
  /** Whether the person has asked to stop; looked at without letting anything else be delivered. */
  isAsked(): boolean;
  /** Today where the person is, as ISO has it: 2026-03-01. */
  today(): string;
  /** Lets signals and timers be delivered. */
  breathe(): Promise<void>;
  /** Calls back when the person asks to stop; returns how to stop listening. */
  onInterrupt(stop: () => void): () => void;
  /** What is typed or piped in. */
  stdin(): AsyncIterable<Uint8Array>;
}

export interface InputFile {
  readonly text: string;
  readonly format: 'yaml' | 'json' | 'auto';
}

/**
 * Reads a file, or standard input for `-`, looking at its size first.
 * @param most bytes it may have: what a scenario may, unless given.
 * @throws UserError for a file that is not there, is no file, is too large or is not text.
 */
export async function readInput(
  path: string,
  io: Io,
  most: number = MAX_FILE_BYTES,
): Promise<InputFile> {
  try {
    return await read(path, io, most);
  } catch (error) {
    throw error instanceof UserError ? new UserError(error.problems, path) : error;
  }
}

async function read(path: string, io: Io, most: number): Promise<InputFile> {
  const bytes = path === '-' ? await collect(io.stdin(), most) : await readBytes(path, most);
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw mistake('this is not UTF-8 text', { code: 'unreadable' });
  }
  if (path === '-') return { text, format: 'auto' };
  return { text, format: extname(path).toLowerCase() === '.json' ? 'json' : 'yaml' };
}

async function readBytes(path: string, most: number): Promise<Uint8Array> {
  try {
    const about = await stat(path);
    if (about.isDirectory()) throw mistake('this is a directory', { code: 'unreadable' });
    if (about.size > most) throw tooLarge(most, about.size);
    return await collect(createReadStream(path) as AsyncIterable<Uint8Array>, most);
  } catch (error) {
    if (path.includes('\0')) throw mistake('no file has such a name', { code: 'unreadable' });
    if (!isSystemError(error)) throw error;
    throw mistake(REASONS[error.code] ?? `this cannot be read (${error.code})`, {
      code: 'unreadable',
    });
  }
}

/** Stops at the limit, however much more there is: a device or a pipe has no size to look at. */
async function collect(chunks: AsyncIterable<Uint8Array>, most: number): Promise<Uint8Array> {
  const kept: Uint8Array[] = [];
  let size = 0;
  for await (const chunk of chunks) {
    size += chunk.byteLength;
    if (size > most) throw tooLarge(most);
    kept.push(chunk);
  }
  return Buffer.concat(kept);
}

function tooLarge(most: number, size?: number): Error {
  const limit = most / 1e6;
  const has = size === undefined ? '' : `: it has ${(size / 1e6).toFixed(1)} MB`;
  return mistake(`this file is too large${has}, and it may have ${limit} MB`, {
    code: 'too large',
  });
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EACCES: 'this file may not be read',
  EPERM: 'this file may not be read',
  EISDIR: 'this is a directory',
  ENOTDIR: 'part of this path is not a directory',
  ENAMETOOLONG: 'this name is too long for a file',
  ELOOP: 'this link leads back to itself',
};

function isSystemError(error: unknown): error is Error & { code: string } {
  return error instanceof Error && 'syscall' in error && 'code' in error;
}

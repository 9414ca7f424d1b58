/** `berth explore`: the bay on a page, to drag the engine about in; served here, or as one file to take along. */

import { open } from 'node:fs/promises';
import { basename } from 'node:path';
import { builtPage, MARK, pageWith } from '../explore/page.js';
import { ExploreServer } from '../explore/server.js';
import { readInput } from '../io.js';
import type { Io } from '../io.js';
import { lookFor } from '../look.js';
import { mistake, problemLine, UserError } from '../problems.js';
import { isThere, putFile } from '../writing/put.js';
import { clean } from '../../words/text.js';

/** As commander gives them: all text. */
export interface ExploreOptions {
  readonly export?: string;
  readonly port?: string;
  readonly plain?: boolean;
}

/** The same each time where it is free, so that an address kept yesterday leads here today. */
const USUAL_PORT = 4763;
/** Bytes of a file in which a page of ours shows its mark. */
const HEAD = 64 * 1024;

/**
 * Writes the page, or serves it until the person stops it; returns the exit status.
 * @throws UserError for anything wrong with the options; with the file too, where it is exported: a served
 * page shows what is wrong and waits for it to be mended.
 */
export async function runExplore(file: string, options: ExploreOptions, io: Io): Promise<number> {
  const port = portAsked(options.port);
  if (options.export !== undefined) return exported(file, options.export, options, io);
  if (file === '-') {
    throw mistake('the page follows a file: standard input will not do', {
      expected: 'a file, or --export',
    });
  }
  const { text } = await readInput(file, io);
  const built = await builtPage();
  const server = new ExploreServer({ name: basename(file), path: file, text, built }, io);
  const stopped = new Promise<void>((resolve) => io.onInterrupt(resolve));
  try {
    io.out(`${await listening(server, port)}\n`);
    const called = clean(file, lookFor(io, options.plain === true));
    io.out(`${called}, for this machine alone; Ctrl-C stops\n`);
    await stopped;
  } finally {
    await server.close();
  }
  return 0;
}

async function listening(server: ExploreServer, port: number | undefined): Promise<string> {
  try {
    return await server.listen(port ?? USUAL_PORT);
  } catch (error) {
    const code = String((error as { code?: unknown }).code);
    if (port === undefined) return server.listen(0);
    const why = code === 'EACCES' ? 'may not be used' : `is taken (${code})`;
    throw mistake(`--port: ${port} ${why}`, {
      read: String(port),
      expected: 'a free port; 0 takes any',
    });
  }
}

function portAsked(text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  if (/^\d{1,5}$/.test(text) && Number(text) <= 65_535) return Number(text);
  throw mistake(`--port: '${text}' is no port`, { read: text, expected: '0 to 65535' });
}

async function exported(
  file: string,
  target: string,
  options: ExploreOptions,
  io: Io,
): Promise<number> {
  if (options.port !== undefined) throw mistake('--port is for the served page, not for --export');
  const look = lookFor(io, options.plain === true);
  const { loadScenario } = await import('../asking/load.js');
  const { text, warnings } = await loadScenario(file, io);
  await refuseOthers(target);
  const name = file === '-' ? 'standard input' : basename(file);
  const { html } = pageWith(await builtPage(), { name, text, live: false });
  await putFile(target, html);
  for (const warning of warnings) io.err(`warning: ${problemLine(warning, file, look)}\n`);
  io.out(`Written: ${clean(target, look)}; it needs no network and no other file.\n`);
  return 0;
}

/** A page of ours is written over; anything else that is there stays. */
async function refuseOthers(target: string): Promise<void> {
  if (!(await isThere(target)) || (await isPage(target))) return;
  const { problems } = mistake('this file is there already, and is no page that --export wrote');
  throw new UserError(problems, target);
}

async function isPage(path: string): Promise<boolean> {
  const file = await open(path).catch(() => undefined);
  if (file === undefined) return false;
  try {
    const { buffer, bytesRead } = await file.read({ buffer: Buffer.alloc(HEAD) });
    return buffer.toString('utf8', 0, bytesRead).includes(MARK);
  } catch {
    return false;
  } finally {
    await file.close();
  }
}

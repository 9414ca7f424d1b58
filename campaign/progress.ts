/** How far a campaign has come, kept in a file so that it goes on where it was stopped. */

import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Counts, Result } from './subject.js';

/** Left out of the repository. */
const FOLDER = join('campaign', '.progress');

interface Failure {
  readonly number: number;
  readonly faults: readonly string[];
}

export interface Progress {
  readonly name: string;
  readonly seed: number;
  /** Cases 1 to this are done. */
  readonly done: number;
  readonly counts: Counts;
  readonly failures: readonly Failure[];
}

export function begun(name: string, seed: number, done = 0): Progress {
  return { name, seed, done, counts: {}, failures: [] };
}

/** What was kept, or a fresh start where nothing was or it cannot be read. */
export function load(name: string, seed: number): Progress {
  try {
    const kept = JSON.parse(readFileSync(fileOf(name, seed), 'utf8')) as Progress;
    return kept.name === name && kept.seed === seed ? kept : begun(name, seed);
  } catch {
    return begun(name, seed);
  }
}

/** Writes the whole file beside the old one, then puts it in its place. */
export function save(progress: Progress): void {
  const file = fileOf(progress.name, progress.seed);
  mkdirSync(FOLDER, { recursive: true });
  writeFileSync(`${file}.part`, `${JSON.stringify(progress)}\n`);
  renameSync(`${file}.part`, file);
}

/** Keeps what a failed case was about; returns the file. */
export function keep(name: string, seed: number, number: number, exhibit: Result['exhibit']) {
  if (exhibit === undefined) return undefined;
  mkdirSync(FOLDER, { recursive: true });
  const file = join(FOLDER, `${name}-${seed}-case-${number}.${exhibit.ending}`);
  writeFileSync(file, exhibit.text);
  return file;
}

function fileOf(name: string, seed: number): string {
  return join(FOLDER, `${name}-${seed}.json`);
}

export function added(a: Counts, b: Counts): Counts {
  const sum: Record<string, number> = { ...a };
  for (const [what, by] of Object.entries(b)) sum[what] = (sum[what] ?? 0) + by;
  return sum;
}

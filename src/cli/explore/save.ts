/** Writing a case into the scenario, when the page asks. */

import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { caseProblems } from '../../model/asked/cases.js';
import type { Problem } from '../../model/text/problem.js';
import { readScenario } from '../../model/read.js';
import { parseWants } from '../../model/asked/wants.js';
import { withCase } from '../../model/text/with-case.js';
import { readInput } from '../io.js';
import type { Io } from '../io.js';
import { UserError } from '../problems.js';
import { putFile } from '../writing/put.js';
import type { Refusal } from './gate.js';

/** What the page sends: a case by name, its wishes as a command line takes them. */
interface Wished {
  readonly name: string;
  readonly wants: string;
  /** SHA-256 in hexadecimal of the text that the page holds; the file must still hold it. */
  readonly was?: string;
}

const EXPECTED = 'this takes {"name": "...", "wants": "offset=0; ..."}';
const BOM = [0xef, 0xbb, 0xbf];

/** Saves one case after another, so that none is lost to a second written at the same time. */
export class Saver {
  private last: Promise<unknown> = Promise.resolve();

  constructor(
    private readonly path: string,
    private readonly io: Io,
  ) {}

  /** Writes the case; returns what the file holds then, or why it was not written. */
  save(body: unknown): Promise<{ readonly text: string } | Refusal> {
    const saved = this.last.then(() => this.write(body));
    this.last = saved.catch(() => undefined);
    return saved;
  }

  private async write(body: unknown): Promise<{ readonly text: string } | Refusal> {
    const wished = wishedIn(body);
    if (wished === undefined) return { status: 422, message: EXPECTED };
    try {
      const { text, format } = await readInput(this.path, this.io);
      if (wished.was !== undefined && wished.was.toLowerCase() !== hashOf(text)) {
        return { status: 409, message: 'the file has changed since the page read it' };
      }
      const next = withWishes(text, format, wished);
      if ('status' in next) return next;
      await putFile(this.path, (await hasBom(this.path)) ? `\ufeff${next.text}` : next.text);
      return next;
    } catch (error) {
      if (error instanceof UserError) return { status: 422, message: error.message };
      throw error;
    }
  }
}

function withWishes(
  text: string,
  format: 'yaml' | 'json' | 'auto',
  { name, wants }: Wished,
): { readonly text: string } | Refusal {
  const { scenario } = readScenario(text, format);
  if (scenario === undefined) {
    return { status: 422, message: 'the file has errors; they come first' };
  }
  const parsed = parseWants([wants], scenario.units, scenario);
  const wrong = [...parsed.problems, ...caseProblems(scenario, parsed.wants, scenario.units)];
  if (wrong.length > 0) return refused(wrong);
  const next = withCase(text, name, wants);
  if ('problems' in next) return refused(next.problems);
  // The file is the person's: nothing is written that would not be read.
  const { scenario: read, problems } = readScenario(next.text, format);
  if (read === undefined) return refused(problems);
  return next;
}

function refused(problems: readonly Problem[]): Refusal {
  return { status: 422, message: problems.map(({ message }) => message).join('; ') };
}

function wishedIn(body: unknown): Wished | undefined {
  if (typeof body !== 'object' || body === null || Array.isArray(body)) return undefined;
  const { name, wants, was } = body as Record<string, unknown>;
  if (typeof name !== 'string' || typeof wants !== 'string') return undefined;
  if (was === undefined) return { name, wants };
  return typeof was === 'string' ? { name, wants, was } : undefined;
}

function hashOf(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex');
}

/** A mark at the beginning that some editors write, and that reading leaves out. */
async function hasBom(path: string): Promise<boolean> {
  const bytes = await readFile(path);
  return BOM.every((byte, at) => bytes[at] === byte);
}

/**
 * Changes the sources of geometry and solver in one small place at a time and asks whether a test notices:
 * `npm run mutants -- [--draw N] [--seed S] [--under FOLDER ...] [--tests FOLDER ...] [--seconds S] [--fresh]`.
 *
 * Draws N of all such changes, finds the test files that reach each, and runs those, one of the source's own name
 * and then quick and sharp ones first, up to the first that fails. A change that no test notices is printed.
 * What has been told is kept while the sources and tests stay the same, so that a run can be stopped and a draw
 * made larger.
 */

import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { parseArgs } from 'node:util';
import { whole } from '../typed.js';
import { allMutants, changed, draw } from './draw.js';
import type { Mutant } from './draw.js';
import { whatReaches } from './reach.js';
import type { Reach } from './reach.js';
import { Sandbox } from './sandbox.js';
import type { Outcome } from './sandbox.js';
import { Told } from './told.js';

const DRAW = 200;
const SEED = 1;
const UNDER = ['src/geometry', 'src/solver'];
const TESTS = ['tests/geometry', 'tests/solver', 'tests/verify'];
/** Copies of the tree in which changes are tried at the same time. */
const COPIES = 2;
/** A change may make the tests this many times slower, and seconds more, before it counts as noticed. */
const SLOWER = 4;
const SPARE_SECONDS = 30;
/** Seconds that starting a run takes beside its tests: what a quick test file costs at least. */
const TO_START = 0.2;

async function main(): Promise<void> {
  const { values } = parseArgs({
    options: {
      draw: { type: 'string' },
      seed: { type: 'string' },
      under: { type: 'string', multiple: true, default: UNDER },
      tests: { type: 'string', multiple: true, default: TESTS },
      seconds: { type: 'string' },
      fresh: { type: 'boolean', default: false },
    },
  });
  const [count = DRAW, seed = SEED, seconds] = [values.draw, values.seed, values.seconds].map(
    whole,
  );
  const every = await allMutants(listed(values.under, '.ts'));
  const drawn = draw(every, count, seed);
  console.log(`${drawn.length} of ${every.length} changes drawn with seed ${seed}`);
  const tests = listed(values.tests, '.test.ts');
  const told = new Told(
    digestOf([...listed(['src', 'tests'], ''), ...tests]),
    seconds,
    values.fresh,
  );
  const queue = drawn.filter((mutant) => told.of(mutant) === undefined);
  if (queue.length > 0) {
    const trial = new Trial(await whatReaches(queue, tests), seconds ?? Infinity);
    const copy = async (): Promise<void> => {
      const sandbox = Sandbox.make();
      for (let next = queue.shift(); next !== undefined; next = queue.shift()) {
        told.tell(next, await trial.of(next, sandbox));
      }
    };
    await Promise.all(Array.from({ length: COPIES }, copy));
  }
  sumUp(drawn.map((mutant) => ({ mutant, outcome: told.of(mutant)! })));
}

/** Files of these folders that git knows of. */
function listed(folders: readonly string[], end: string): string[] {
  return execFileSync('git', ['ls-files', ...folders], { encoding: 'utf8' })
    .split('\n')
    .filter((name) => name !== '' && name.endsWith(end));
}

function digestOf(files: readonly string[]): string {
  const hash = createHash('sha256');
  for (const file of files) hash.update(`${file}\0`).update(readFileSync(file));
  return hash.digest('hex').slice(0, 16);
}

/** Tries changes against the tests that reach them. */
class Trial {
  /** How many changes each test file has noticed. */
  private readonly noticed = new Map<string, number>();

  /** @param most seconds of tests, beside the first and those of the source's own name, that a change is held against. */
  constructor(
    private readonly reach: readonly Reach[],
    private readonly most: number,
  ) {}

  async of(mutant: Mutant, sandbox: Sandbox): Promise<Outcome> {
    const near = this.testsFor(mutant);
    const usual = near.reduce((sum, { seconds }) => sum + seconds, 0);
    const files = near.map(({ file }) => file);
    const text = sandbox.read(mutant.file);
    sandbox.write(mutant.file, changed(text, mutant));
    const outcome: Outcome =
      files.length === 0
        ? { ended: 'passed', by: undefined, seconds: 0 }
        : await sandbox.run(files, SLOWER * usual + SPARE_SECONDS);
    sandbox.write(mutant.file, text);
    const { by } = outcome;
    if (by) this.noticed.set(by.file, (this.noticed.get(by.file) ?? 0) + 1);
    const word = files.length === 0 ? 'not reached' : outcome.ended;
    const who = by ? ` by ${by.file}: ${by.test}` : '';
    console.log(`${describe(mutant)}\n  ${word} after ${outcome.seconds.toFixed(1)} s${who}`);
    return outcome;
  }

  private testsFor(mutant: Mutant): Reach[] {
    const name = basename(mutant.file, '.ts');
    const isOwn = (file: string): boolean => basename(file, '.test.ts') === name;
    const worth = ({ file, seconds }: Reach): number =>
      (1 + (this.noticed.get(file) ?? 0)) / (seconds + TO_START);
    let sum = 0;
    return this.reach
      .filter(({ reached }) => reached.has(mutant))
      .sort((a, b) => Number(isOwn(b.file)) - Number(isOwn(a.file)) || worth(b) - worth(a))
      .filter(({ file, seconds }, k) => (sum += seconds) <= this.most || isOwn(file) || k === 0);
  }
}

/** Prints how many were noticed, by layer, and every one that was not. */
function sumUp(all: readonly { readonly mutant: Mutant; readonly outcome: Outcome }[]): void {
  console.log('\nnot noticed:');
  for (const { mutant, outcome } of all) {
    if (outcome.ended === 'passed') console.log(describe(mutant));
  }
  const layerOf = ({ file }: Mutant) => file.split('/').slice(0, 2).join('/');
  for (const layer of [...new Set(all.map(({ mutant }) => layerOf(mutant)))].sort()) {
    const here = all.filter(({ mutant }) => layerOf(mutant) === layer);
    const ended = (as: Outcome['ended']) =>
      here.filter(({ outcome }) => outcome.ended === as).length;
    const noticed = here.length - ended('passed');
    const share = ((100 * noticed) / here.length).toFixed(1);
    console.log(
      `${layer}: ${noticed} of ${here.length} noticed, ${share} % (${ended('overtime')} by time)`,
    );
  }
}

function describe({ file, line, sort, was, becomes }: Mutant): string {
  const short = (text: string) => text.replaceAll(/\s+/g, ' ').slice(0, 100);
  return `${file}:${line} ${sort}\n  - ${short(was)}\n  + ${short(becomes)}`;
}

// The copies are taken away at the end of the process, whatever ends it.
for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => process.exit(130));
await main();

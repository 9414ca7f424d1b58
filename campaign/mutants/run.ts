/**
 * Changes the sources of geometry and solver in one small place at a time and asks whether a test notices:
 * `npm run mutants -- [--draw N] [--seed S] [--under FOLDER ...] [--tests FOLDER ...] [--seconds S] [--fresh]`.
 *
 * Draws N of all such changes, finds the test files that reach each, and runs those, quick and sharp ones
 * first, up to the first that fails. A change that no test notices is printed. What has been told is kept
 * in campaign/.progress/mutants.jsonl while the tree stays the same, so that a run can be stopped and a
 * draw made larger.
 */

import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { appendFileSync, existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { allMutants, changed, draw, watched, type Mutant } from './draw.js';
import { Sandbox, type Outcome } from './sandbox.js';

const PROGRESS = 'campaign/.progress';
const TOLD = join(PROGRESS, 'mutants.jsonl');
const SEED = 1;
const DRAW = 200;
const UNDER = ['src/geometry', 'src/solver'];
const TESTS = ['tests/geometry', 'tests/solver', 'tests/verify'];
/** Copies of the tree in which changes are tried at the same time. */
const COPIES = 2;
/** A change may make the tests this many times slower, and seconds more, before it counts as noticed. */
const SLOWER = 4;
const SPARE_SECONDS = 30;

interface Told {
  readonly key: string;
  /** The seconds of tests that it was held against. */
  readonly seconds: number;
  readonly outcome: Outcome;
}

interface Reach {
  readonly file: string;
  readonly seconds: number;
  readonly reached: ReadonlySet<string>;
}

async function main(): Promise<number> {
  const { values } = parseArgs({
    options: {
      draw: { type: 'string', default: String(DRAW) },
      seed: { type: 'string', default: String(SEED) },
      under: { type: 'string', multiple: true, default: UNDER },
      tests: { type: 'string', multiple: true, default: TESTS },
      seconds: { type: 'string', default: 'Infinity' },
      fresh: { type: 'boolean', default: false },
    },
  });
  const listed = (folders: readonly string[], end: string) =>
    execFileSync('git', ['ls-files', ...folders], { encoding: 'utf8' })
      .split('\n')
      .filter((name) => name.endsWith(end));
  const every = await allMutants(listed(values.under, '.ts'));
  const drawn = draw(every, Number(values.draw), Number(values.seed));
  console.log(`${drawn.length} of ${every.length} changes drawn with seed ${values.seed}`);

  mkdirSync(PROGRESS, { recursive: true });
  if (values.fresh) rmSync(TOLD, { force: true });
  const most = Number(values.seconds);
  const tests = listed(values.tests, '.test.ts');
  const digest = createHash('sha256')
    .update(
      JSON.stringify([
        listed(['src', 'tests'], '').map((f) => f && readFileSync(f, 'utf8')),
        tests,
      ]),
    )
    .digest('hex')
    .slice(0, 16);
  const keyOf = ({ file, from, to, becomes }: Mutant) =>
    `${digest} ${file}:${from}-${to} ${becomes}`;
  const told = new Map<string, Outcome>();
  if (existsSync(TOLD)) {
    for (const line of readFileSync(TOLD, 'utf8').trim().split('\n')) {
      const { key, seconds, outcome } = JSON.parse(line) as Told;
      // What fewer tests did not notice, more may.
      if (outcome.ended !== 'passed' || (seconds ?? Infinity) >= most) told.set(key, outcome);
    }
  }
  const todo = drawn.filter((mutant) => !told.has(keyOf(mutant)));
  const reach = todo.length === 0 ? [] : await whatReaches(todo, tests);

  const sharp = new Map<string, number>();
  const queue = [...todo];
  const worker = async () => {
    const sandbox = Sandbox.make();
    for (let mutant = queue.shift(); mutant !== undefined; mutant = queue.shift()) {
      const near = reach
        .filter(({ reached }) => reached.has(keyOfPlace(mutant)))
        .map(({ file, seconds }) => ({
          file,
          seconds,
          worth: (1 + (sharp.get(file) ?? 0)) / (seconds + 0.2),
        }))
        .sort((a, b) => b.worth - a.worth);
      for (let sum = 0, k = 0; k < near.length; k++) {
        sum += near[k]!.seconds;
        if (sum > most && k > 0) near.length = k;
      }
      const usual = near.reduce((sum, { seconds }) => sum + seconds, 0);
      const whole = sandbox.read(mutant.file);
      sandbox.write(mutant.file, changed(whole, mutant));
      const outcome: Outcome =
        near.length === 0
          ? { ended: 'passed', by: undefined, seconds: 0 }
          : await sandbox.run(
              near.map(({ file }) => file),
              SLOWER * usual + SPARE_SECONDS,
            );
      sandbox.write(mutant.file, whole);
      if (outcome.by !== undefined)
        sharp.set(outcome.by.file, (sharp.get(outcome.by.file) ?? 0) + 1);
      const key = keyOf(mutant);
      told.set(key, outcome);
      appendFileSync(TOLD, `${JSON.stringify({ key, seconds: most, outcome } satisfies Told)}\n`);
      const by = outcome.by === undefined ? '' : ` by ${outcome.by.file}: ${outcome.by.test}`;
      const word = near.length === 0 ? 'not reached' : outcome.ended;
      console.log(`${describe(mutant)}\n  ${word} after ${outcome.seconds.toFixed(1)} s${by}`);
    }
  };
  await Promise.all(Array.from({ length: COPIES }, worker));
  return sumUp(drawn.map((mutant) => ({ mutant, outcome: told.get(keyOf(mutant))! })));
}

/** Prints how many were noticed, by folder, and every one that was not. */
function sumUp(all: readonly { mutant: Mutant; outcome: Outcome }[]): number {
  const left = all.filter(({ outcome }) => outcome.ended === 'passed');
  console.log(`\nnot noticed:`);
  for (const { mutant } of left) console.log(describe(mutant));
  for (const folder of [...new Set(all.map(({ mutant }) => folderOf(mutant)))].sort()) {
    const here = all.filter(({ mutant }) => folderOf(mutant) === folder);
    const seen = here.filter(({ outcome }) => outcome.ended !== 'passed').length;
    const late = here.filter(({ outcome }) => outcome.ended === 'overtime').length;
    const share = (100 * seen) / here.length;
    console.log(
      `${folder}: ${seen} of ${here.length} noticed, ${share.toFixed(1)} % (${late} by time)`,
    );
  }
  return 0;
}

const folderOf = ({ file }: Mutant) => file.split('/').slice(0, 2).join('/');

function describe({ file, line, sort, was, becomes }: Mutant): string {
  const short = (text: string) => text.replaceAll(/\s+/g, ' ').slice(0, 100);
  return `${file}:${line} ${sort}\n  - ${short(was)}\n  + ${short(becomes)}`;
}

const keyOfPlace = ({ file, from, to }: Mutant) => `${file}:${from}-${to}`;

/** Which test file reaches which of the changes, and the time it takes; they must all pass. */
async function whatReaches(drawn: readonly Mutant[], tests: readonly string[]): Promise<Reach[]> {
  const sandbox = Sandbox.make();
  const { texts, numbers } = await watched(drawn);
  for (const [file, text] of texts) sandbox.write(file, text);
  const notes = resolve(PROGRESS, 'reached.jsonl');
  rmSync(notes, { force: true });
  const { ended, by, seconds } = await sandbox.run(tests, 3600, { WATCHED: notes });
  if (ended !== 'passed')
    throw new Error(`unchanged, ${by?.file ?? ''} ${ended}: ${by?.test ?? ''}`);
  console.log(`what reaches them was found in ${seconds.toFixed(0)} s`);
  return readFileSync(notes, 'utf8')
    .trim()
    .split('\n')
    .map((line) => {
      const note = JSON.parse(line) as { file: string; seconds: number; reached: string[] };
      return {
        file: tests.find((name) => note.file.endsWith(`/${name}`))!,
        seconds: note.seconds,
        reached: new Set(
          note.reached.filter((id) => numbers.has(id)).map((id) => keyOfPlace(numbers.get(id)!)),
        ),
      };
    });
}

for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => process.exit(130));
process.exitCode = await main();

/** Cases on several threads: the answer of one, whatever becomes of the threads. */

import { spawnSync } from 'node:child_process';
import { EventEmitter, once } from 'node:events';
import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { caseOf, optionCases } from '../../src/model/asked/cases.js';
import { readScenario } from '../../src/model/read.js';
import { compareCases } from '../../src/solver/explaining/compare.js';
import { Interrupt } from '../../src/cli/running/interrupt.js';
import { PLAIN_LOOK } from '../../src/words/text.js';
import { ended, sideBySide, threadsFor } from '../../src/cli/running/side-by-side.js';
import { toEnd, TOLERANCE } from '../support/solve.js';
import { world } from './world.js';

const WORKER = pathToFileURL(resolve('dist/case-worker.js'));
const SLOWEST = 'scenarios/orchard-hauler.yaml';
const scenario = readScenario(
  readFileSync('scenarios/narrow-rails.yaml', 'utf8'),
  'yaml',
).scenario!;
const cases = [
  ...optionCases(scenario),
  caseOf(scenario, 'centred', { ranges: { offset: { min: 0, max: 0 } }, options: [] }),
];
const request = { tolerance: TOLERANCE };
const showing = { units: 'in', look: PLAIN_LOOK } as const;

let folder = '';
beforeAll(() => {
  expect(spawnSync(process.execPath, ['tools/build.mjs']).status).toBe(0);
  folder = mkdtempSync(join(tmpdir(), 'berth-threads-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Compares with two more threads. */
async function threaded(worker = WORKER, stop?: 'at once' | 'late') {
  const io = world(stop === 'late' ? { tick: 1 } : {});
  const interrupt = new Interrupt(io, stop === 'late' ? { seconds: 0.001 } : {});
  interrupt.listen();
  if (stop === 'at once') io.interrupt();
  return await sideBySide(scenario, cases, request, io, interrupt, showing, 2, worker);
}

describe('cases on several threads', () => {
  const alone = toEnd(compareCases(scenario, cases, request));

  it('have the answers of one thread', async () => {
    const { cases: found, standing } = await threaded();
    expect(standing).toEqual(alone.standing);
    expect(found).toEqual(alone.cases);
  });

  it('are answered here where the threads fail', async () => {
    const failing = join(folder, 'failing.mjs');
    writeFileSync(failing, 'export function answerCase() { throw new Error("no"); }\n');
    expect((await threaded(pathToFileURL(failing))).cases).toEqual(alone.cases);
    const missing = pathToFileURL(join(folder, 'none.mjs'));
    expect((await threaded(missing)).cases).toEqual(alone.cases);
  }, 60_000);

  it('are ended in peace, one that fails at its end too', async () => {
    // As the package keeps a thread: what it hands on of an emitter, without a way to stop listening.
    const emitter = new EventEmitter();
    const thread = {
      on: (name: string, heard: () => void) => emitter.on(name, heard),
      once: (name: string, heard: () => void) => emitter.once(name, heard),
    };
    const exit = () => once(thread as unknown as EventEmitter, 'exit').then(() => undefined);
    const ending = ended({ threads: [thread], destroy: exit });
    expect(() => emitter.emit('error', new Error('late'))).not.toThrow();
    await ending;
  });

  it('hear Ctrl-C and the clock', async () => {
    const asked = await threaded(WORKER, 'at once');
    expect(asked.stopped).toBe('asked');
    expect(asked.cases.every(({ fits }) => fits === 'undecided')).toBe(true);
    expect((await threaded(WORKER, 'late')).stopped).toBe('time');
  });
});

describe('threads', () => {
  it('are not taken for few cases, small bays, or without their file', () => {
    expect(threadsFor(scenario, 1, { worker: WORKER })).toBe(0);
    expect(threadsFor({ ...scenario, parts: [] }, 50, { worker: WORKER })).toBe(0);
    expect(threadsFor(scenario, 50, { worker: pathToFileURL(join(folder, 'none.js')) })).toBe(0);
    expect(threadsFor(scenario, 50, { worker: WORKER, most: 1 })).toBe(0);
    expect(threadsFor(scenario, 50, { worker: WORKER, memory: 300 })).toBe(0);
  });

  it('change nothing of what the command prints', () => {
    const bare = join(folder, 'bare');
    cpSync('dist', join(bare, 'dist'), { recursive: true });
    writeFileSync(join(bare, 'package.json'), '{ "type": "module" }');
    rmSync(join(bare, 'dist', 'case-worker.js'));
    const typed = ['compare', SLOWEST, '--case', 'a: oil filter=remote', '--case', 'b: offset=0'];
    const run = (command: string) =>
      spawnSync(process.execPath, [command, ...typed, '--plain'], { encoding: 'utf8' });
    const [many, one] = ['dist/berth.js', join(bare, 'dist', 'berth.js')].map(run);
    expect(many).toMatchObject({ status: 1, stderr: '' });
    expect(one).toMatchObject({ status: 1, stderr: '', stdout: many!.stdout });
  });
});

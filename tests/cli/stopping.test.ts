/** The command stopped at moments of chance: an answer or one line, whole files or none, and never a trace. */

import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { Worker } from 'node:worker_threads';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hasEnded } from '../../src/cli/running/watch.js';
import { seeded } from '../geometry/random.js';
import { cases } from '../support/times.js';

const BERTH = resolve('dist/berth.js');
const DEMO = resolve('scenarios/orchard-hauler.yaml');
const AT = 'setback=22,offset=0,height=1,pitch=3';
const COMMANDS = [
  ['place', DEMO, '--json', '--tolerance', '0.000001 mm'],
  ['mounts', DEMO, '--json', '--at', AT, '--output', 'patterns'],
  ['sheet', DEMO, '--output', 'sheet.html'],
  ['compare', DEMO, '--json'],
  ['check', DEMO],
];
/** Milliseconds: by then a quiet machine has ended or is well into every one of them. */
const LATEST = 2000;

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'berth stopped é-'));
  expect(spawnSync(process.execPath, ['tools/build.mjs']).status).toBe(0);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Ended {
  readonly status: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly out: string;
  readonly err: string;
}

function stopped(
  argv: readonly string[],
  signals: readonly { readonly after: number; readonly signal: NodeJS.Signals }[],
): Promise<Ended> {
  return new Promise((done) => {
    const child = spawn(process.execPath, [BERTH, ...argv], {
      cwd: folder,
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let [out, err] = ['', ''];
    child.stdout.on('data', (data: Buffer) => (out += data.toString()));
    child.stderr.on('data', (data: Buffer) => (err += data.toString()));
    const timers = signals.map(({ after, signal }) => setTimeout(() => child.kill(signal), after));
    child.on('close', (status, signal) => {
      timers.forEach(clearTimeout);
      done({ status, signal, out, err });
    });
  });
}

function expectClean({ status, signal, out, err }: Ended, argv: readonly string[]): void {
  const said = `${argv.join(' ')}: ${status} ${signal}\n${out.slice(0, 200)}\n${err}`;
  expect(err, said).not.toMatch(/^\s+at |fault in Berth/m);
  if (status === null) {
    expect(['SIGINT', 'SIGTERM'], said).toContain(signal);
    expect(err.replace(/^warning: .*\n/gm, ''), said).toMatch(/^(stopped\n)?$/);
  } else expect([0, 1, 3], said).toContain(status);
  if (argv.includes('--json') && out !== '') expect(() => void JSON.parse(out), said).not.toThrow();
  const left = readdirSync(folder, { recursive: true }).filter((name) =>
    String(name).endsWith('.new'),
  );
  expect(left, said).toEqual([]);
  const sheet = join(folder, 'sheet.html');
  if (existsSync(sheet)) expect(readFileSync(sheet, 'utf8'), said).toMatch(/<\/html>\s*$/);
}

describe('stopped at any moment', () => {
  it('it ends in an answer or a line, and leaves no half of a file', async () => {
    const random = seeded(20_26);
    for (let n = 0; n < cases(COMMANDS.length); n++) {
      const argv = COMMANDS[n % COMMANDS.length]!;
      const signal = random() < 0.5 ? 'SIGINT' : 'SIGTERM';
      const after = random() * LATEST;
      // The second one ends it at once, so that no case takes long.
      const signals = [after, after + 600].map((at) => ({ after: at, signal }) as const);
      expectClean(await stopped(argv, signals), argv);
    }
  }, 120_000);

  it('a pipe that nobody writes to does not keep it', async () => {
    if (spawnSync('mkfifo', [join(folder, 'pipe')]).status !== 0) return;
    const ended = await stopped(['check', 'pipe'], [{ after: 700, signal: 'SIGTERM' }]);
    expect(ended).toMatchObject({ status: null, signal: 'SIGTERM', out: '' });
  }, 30_000);
});

describe('a thread that is over', () => {
  // Else what ran out of memory ended as if it were killed, and not with its status.
  it('counts as ended, whether it is ended or has run out of memory', async () => {
    const resourceLimits = { maxOldGenerationSizeMb: 8 };
    const fill = 'const kept = []; for (;;) kept.push([0, 1, 2])';
    const full = new Worker(fill, { eval: true, resourceLimits });
    await new Promise((done) => full.on('error', done));
    expect(await hasEnded(full, 5000)).toBe(true);
    const busy = new Worker('for (;;);', { eval: true });
    await new Promise((done) => busy.on('online', done));
    expect(await hasEnded(busy, 5000)).toBe(true);
  });
});

describe('a time limit', () => {
  it('longer than a timer can count is one too', async () => {
    const { status, err } = await stopped(['place', 'none', '--time-limit', '9999999'], []);
    expect([status, err]).toEqual([2, expect.stringContaining('there is no such file')]);
  }, 30_000);

  it('holds where nothing can be found in it', async () => {
    const { status, out, err } = await stopped(['place', DEMO, '--time-limit', '0.05'], []);
    expect([status, out]).toEqual([3, '']);
    expect(err).toBe('stopped by the time limit (0.05 s), before anything was found\n');
  });
});

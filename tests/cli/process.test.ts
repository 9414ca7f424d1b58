/** The command as a process: signals, closed pipes and the exit status. */

import { spawn, spawnSync } from 'node:child_process';
import { closeSync, existsSync, openSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { resolve } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { BAD_INPUT, CANNOT_WRITE, FAULT } from '../../src/cli/status.js';
import { overProgress } from '../../src/cli/running/streams.js';

const BERTH = resolve('dist/berth.js');
const DEMO = 'scenarios/orchard-hauler.yaml';

/** A proof this fine (in mm) takes far longer than any test waits. */
const ENDLESS = ['place', DEMO, '--tolerance', '0.000001 mm'];

interface Ended {
  readonly status: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly out: string;
  readonly err: string;
}

/** Starts the command, and signals it after each of the delays given, in milliseconds. */
function start(argv: readonly string[], signals: readonly number[] = []): Promise<Ended> {
  return new Promise((done) => {
    const child = spawn(process.execPath, [BERTH, ...argv], { stdio: ['ignore', 'pipe', 'pipe'] });
    let [out, err] = ['', ''];
    child.stdout.on('data', (data: Buffer) => (out += data.toString()));
    child.stderr.on('data', (data: Buffer) => (err += data.toString()));
    const timers = signals.map((delay) => setTimeout(() => child.kill('SIGINT'), delay));
    child.on('close', (status, signal) => {
      timers.forEach(clearTimeout);
      done({ status, signal, out, err });
    });
  });
}

beforeAll(() => {
  // Puts each file in place by renaming, so that other tests may use the command meanwhile.
  expect(spawnSync(process.execPath, ['tools/build.mjs']).status).toBe(0);
});

describe('the process', () => {
  it('prints the best so far on the first interrupt', async () => {
    let ended: Ended | undefined;
    // A loaded machine may take long to find anything: until then an interrupt just ends it.
    for (const delay of [400, 1500, 5000, 15_000]) {
      ended = await start(ENDLESS, [delay]);
      if (ended.status === 3) break;
      expect(ended.out).toBe('');
    }
    expect(ended).toMatchObject({ status: 3, signal: null, err: '' });
    expect(ended!.out).toMatch(/^UNDECIDED\./);
    expect(ended!.out).toContain('stopped when asked');
  });

  it('says so where its working folder has gone', () => {
    const gone = `d=$(mktemp -d) && cd "$d" && rmdir "$d" && exec "$0" "$@"`;
    const argv = ['-c', gone, process.execPath, BERTH, 'check', resolve(DEMO)];
    const { status, stdout, stderr } = spawnSync('sh', argv, { encoding: 'utf8' });
    expect({ status, stdout }).toEqual({ status: BAD_INPUT, stdout: '' });
    expect(stderr).toMatch(/^the folder that this was started in is no longer there.*\n$/);
  });

  it('ends quietly when its reader has gone', async () => {
    const child = spawn(process.execPath, [BERTH, 'schema'], { stdio: ['ignore', 'pipe', 'pipe'] });
    child.stdout.destroy();
    let err = '';
    child.stderr.on('data', (data: Buffer) => (err += data.toString()));
    const status = await new Promise((done) => child.on('close', done));
    expect(err).toBe('');
    expect(status).toBe(0);
  });

  it('says its last line over the progress of a terminal of any width, one of none among them', () => {
    for (const columns of [undefined, 0, 1, 20, 200]) {
      const width = columns === undefined || columns === 0 ? 80 : Math.min(80, columns);
      expect(overProgress('stopped', columns)).toBe(`\r${' '.repeat(width - 1)}\rstopped\n`);
    }
  });

  // A device that is always full, where the system has one.
  it.runIf(existsSync('/dev/full'))('says that there is no space for the answer', () => {
    const full = openSync('/dev/full', 'w');
    const { status, stderr } = spawnSync(process.execPath, [BERTH, 'check', DEMO], {
      stdio: ['ignore', full, 'pipe'],
      encoding: 'utf8',
    });
    closeSync(full);
    expect(stderr).toBe('cannot write the answer: no space\n');
    expect(status).toBe(CANNOT_WRITE);
    expect([0, 1, 2, 3, FAULT]).not.toContain(CANNOT_WRITE);
  });

  it('passes the exit status on', async () => {
    expect((await start(['check', DEMO])).status).toBe(0);
    expect((await start(['check', 'none.yaml'])).status).toBe(2);
    expect((await start(['--version'])).status).toBe(0);
  });

  it('loads the options parser and little else for its help', () => {
    const loaded = new Set<string>();
    const load = (name: string): void => {
      if (loaded.has(name)) return;
      loaded.add(name);
      const text = readFileSync(resolve('dist', name), 'utf8');
      for (const [, next] of text.matchAll(/^(?:import|\} from) ?(?:.*from )?"\.\/([^"]+)";$/gm)) {
        load(next!);
      }
    };
    load('berth.js');
    const bytes = [...loaded].reduce((sum, name) => sum + statSync(resolve('dist', name)).size, 0);
    const all = readdirSync('dist').filter((name) => name.endsWith('.js'));
    expect(all.length).toBeGreaterThan(loaded.size);
    expect(bytes).toBeLessThan(250_000);
  });
});

import { chmodSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import manifest from '../../package.json' with { type: 'json' };
import { jsonSchema } from '../../src/model/schema.js';
import { run } from '../../src/cli/run.js';
import { berth, world } from './world.js';
import type { Outcome, Setup, World } from './world.js';

/** A fan between a core and a firewall: 12 in of room for 10 in and two gaps of 3/4. */
const BAY = `
berth: 1
title: Two walls
units: in
driver: left
origin: front wall
datums:
  chassis: { front wall: { x: 0 } }
position: { setback: [0, 20], offset: [-1, 1], height: 0, pitch: 0 }
engine:
  block: { kind: block, box: { x: [-10, 0], y: [-3, 3], z: [-3, 3] } }
  filter: { kind: oil filter, box: { x: [-1, 0], y: [3, 4 1/2], z: [-1, 1] } }
chassis:
  front: { kind: radiator, box: { x: [-1, 0], y: [-9, 9], z: [-9, 9] } }
  back: { kind: firewall, box: { x: [12, 13], y: [-9, 9], z: [-9, 9] } }
  rail: { kind: frame rail, box: { x: [-1, 13], y: [5, 6], z: [-1, 1] } }
rules:
  - { between: [engine, chassis], gap: 3/4 }
choices:
  oil filter: { on the block: {}, remote: { remove: [filter], hours: 1 } }
`;

let folder: string;
let file: string;

function put(name: string, text: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'berth-cli-'));
  file = put('bay.yaml', BAY);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Bad input: status 2, something said, no answer half-given, and never a stack trace. */
function refused(outcome: Outcome, ...words: (string | RegExp)[]): void {
  const said = outcome.err + outcome.out;
  expect(outcome.status, said).toBe(2);
  expect(outcome.err).not.toBe('');
  expect(outcome.out).toBe('');
  expect(said).not.toMatch(/^\s+at .*:\d+:\d+/m);
  expect(said).not.toContain('fault in Berth');
  for (const word of words) expect(said).toMatch(word);
}

/** The example that a help text ends with, on one line. */
function exampleOf(help: string): string {
  return help.split('\nExample:\n')[1]!.replace(/\\\n/g, '').replace(/\s+/g, ' ').trim();
}

/** A bay that takes a while. */
const SLOW = 'scenarios/orchard-hauler.yaml';

describe('berth place', () => {
  it('finds the middle of two walls, and proves it', async () => {
    const { status, out } = await berth(['place', file]);
    expect(status).toBe(0);
    expect(out.split('\n')[0]).toMatch(/^FITS\. Proved best for the 5 parts/);
    expect(out).toContain('11 back of front wall');
    expect(out).toContain('1/4 to spare');
  });

  it('gives programs the same', async () => {
    const { status, out } = await berth(['place', file, '--json']);
    const answer = JSON.parse(out) as { fits: string; margin: number; units: string };
    expect(status).toBe(0);
    expect(answer).toMatchObject({ fits: 'yes', best: 'proved', units: 'in' });
    // Half of 12 - 10, less 3/4: the room that is there.
    expect(answer.margin).toBeGreaterThan(0.25 - 1 / 64);
    expect(answer.margin).toBeLessThanOrEqual(0.25);
  });

  it('takes pins, options, units and aims', async () => {
    const json = async (...more: string[]) => {
      const { out } = await berth(['place', file, '--json', ...more]);
      return JSON.parse(out) as {
        units: string;
        margin: number;
        position: { setback: number; offset: number };
        options: Record<string, string>;
      };
    };
    expect((await json('--pin', 'offset=1/8 in')).position.offset).toBe(0.125);
    expect((await json('--option', 'oil filter=remote')).options).toEqual({
      'oil filter': 'remote',
    });
    const mm = await json('--units', 'mm');
    expect(mm.units).toBe('mm');
    expect(mm.margin).toBeCloseTo(6.35, 0);
    expect((await json('--aim', 'back', '--keep', '1/8')).position.setback).toBeCloseTo(11.125, 1);
  });

  it('sets the engine on the marks of the tape it prints for, whatever the file is in', async () => {
    const set = async (...more: string[]) => {
      const { out } = await berth(['place', file, '--json', ...more]);
      return (JSON.parse(out) as { setting: { position: Record<string, number> } }).setting
        .position;
    };
    const mm = await set('--units', 'mm');
    for (const size of [mm['setback'], mm['offset']]) expect(size).toSatisfy(Number.isInteger);
    const back = await set('--units', 'mm', '--aim', 'back', '--keep', '2');
    expect(back['setback']).toSatisfy(Number.isInteger);
    // And still on sixteenths where nothing else is asked.
    expect((await set())['setback']! * 16).toSatisfy(Number.isInteger);
  });

  it('reads a pin without a unit in the units asked for', async () => {
    const { out } = await berth(['place', file, '--json', '--units', 'mm', '--pin', 'offset=10']);
    expect((JSON.parse(out) as { position: { offset: number } }).position.offset).toBe(10);
  });

  it('proves that nothing fits: status 1', async () => {
    const tight = put('tight.yaml', BAY.replace('gap: 3/4', 'gap: 1 1/2'));
    const { status, out } = await berth(['place', tight]);
    expect(status).toBe(1);
    expect(out.split('\n')[0]).toBe(
      'DOES NOT FIT. Proved: at least 7/16 short with every option (no cuts tried).',
    );
    expect(out).toContain('short 1/2');
    expect(out).toContain('Next');
  });

  it('is undecided when the time is up: status 3', async () => {
    const { status, out } = await berth(['place', SLOW, '--time-limit', '0.001'], { tick: 50 });
    expect(status).toBe(3);
    expect(out).toMatch(/^UNDECIDED\./);
    expect(out).toContain('time limit (0.001 s)');
  });

  it('prints the best so far when interrupted: status 3', async () => {
    const setup: Setup = { tick: 50, onBreath: (at) => at.interrupt() };
    const { status, out } = await berth(['place', SLOW], setup);
    expect(status).toBe(3);
    expect(out).toMatch(/^UNDECIDED\./);
    expect(out).toContain('stopped when asked');
  });

  it('hears an interrupt once there is something to answer with, until the answer is out', async () => {
    const listened: number[] = [];
    const onBreath = (at: World): void => {
      listened.push(at.listeners);
      at.interrupt();
    };
    const io = world({ tick: 50, onBreath });
    const ending = run(['place', SLOW, '--json'], io);
    // Nothing has been loaded yet: an interrupt ends the process.
    expect(io.listeners).toBe(0);
    expect(await ending).toBe(3);
    expect(listened[0]).toBe(1);
    expect(io.listeners).toBe(0);
    expect(io.said.err).toBe('');
    expect(JSON.parse(io.said.out)).toMatchObject({ stopped: 'asked', best: 'undecided' });
  });

  it('is undecided when memory is full: status 3', async () => {
    const full = { tick: 50, full: () => true };
    const { status, out } = await berth(['place', SLOW, '--memory-limit', '96'], full);
    expect(status).toBe(3);
    expect(out).toContain('stopped by the memory limit');
    expect(out).toContain('a larger --memory-limit');
    refused(await berth(['place', SLOW, '--memory-limit', '95']), /--memory-limit.*96 or more/);
  });

  it('says what no rule looks at, and what stands in what for all that', async () => {
    const blind = put(
      'blind.yaml',
      BAY.replace('between: [engine, chassis]', 'between: [block, back]')
        .replace('setback: [0, 20]', 'setback: 11')
        .replace(/choices:[^]*/, '')
        .replace('y: [3, 4 1/2]', 'y: [3, 8]'),
    );
    const { status, out } = await berth(['place', blind]);
    expect(status).toBe(0);
    const [first, second, third] = out.split('\n');
    expect(first).toBe('FITS. Proved best for the 2 of 5 parts that a rule covers.');
    expect(second).toMatch(/^Overlap {3}filter stands 2 inside rail/);
    expect(third).toBe('No rule   3 parts no rule covers: filter, front, rail');
    const { out: json } = await berth(['place', blind, '--json']);
    expect(JSON.parse(json)).toMatchObject({
      noRule: ['filter', 'front', 'rail'],
      overlaps: [{ between: ['filter', 'rail'] }],
    });
    const measured = await berth(['gaps', blind, '--at', 'offset=0']);
    expect(measured.out).toContain('filter stands 2 inside rail');
    // A pair that is meant to touch is spoken for.
    const exempt = put(
      'exempt.yaml',
      readFileSync(blind, 'utf8').replace(
        'rules:',
        'rules:\n  - { between: [filter, rail], gap: ignore, why: bolted to it }',
      ),
    );
    expect((await berth(['place', exempt])).out).not.toContain('Overlap');
  });

  it('calls a file without rules bad input', async () => {
    const ruleless = put('ruleless.yaml', BAY.replace(/rules:[^]*/, ''));
    refused(await berth(['place', ruleless]), /has no rule/);
    refused(await berth(['gaps', ruleless, '--at', 'setback=11,offset=0']), /has no rule/);
    const { status, out } = await berth(['check', ruleless]);
    expect(status).toBe(2);
    expect(out).not.toContain('GOOD');
  });

  it('leaves its first line in sight on a terminal, below what npm says', async () => {
    const lines = async (rows: number, env: Record<string, string>, ...more: string[]) => {
      const setup = { terminal: true, rows, env: { NO_COLOR: '1', ...env } };
      return (await berth(['place', SLOW, ...more], setup)).out.trimEnd().split('\n');
    };
    const limit = ['--time-limit', '0.4'];
    expect((await lines(24, {}, ...limit)).length).toBeLessThanOrEqual(23);
    const npm = { npm_lifecycle_event: 'start' };
    expect((await lines(24, npm, ...limit)).length).toBeLessThanOrEqual(19);
    const quiet = { ...npm, npm_config_loglevel: 'silent' };
    expect((await lines(24, quiet, ...limit)).length).toBeGreaterThan(19);
    expect((await lines(24, {}, ...limit, '--all')).length).toBeGreaterThan(24);
  });

  it('reads standard input', async () => {
    const { status, out } = await berth(['place', '-'], { stdin: BAY });
    expect(status).toBe(0);
    expect(out).toMatch(/^FITS\./);
  });

  it('colours only a terminal that wants it', async () => {
    const colour = '\u001b[1;32m';
    expect((await berth(['place', file])).out).not.toContain('\u001b');
    expect((await berth(['place', file], { terminal: true })).out).toContain(colour);
    expect((await berth(['place', file, '--plain'], { terminal: true })).out).not.toContain(
      '\u001b',
    );
    const dull = await berth(['place', file], { terminal: true, env: { NO_COLOR: '1' } });
    expect(dull.out).not.toContain('\u001b');
    const empty = await berth(['place', file], { terminal: true, env: { NO_COLOR: '' } });
    expect(empty.out).toContain(colour);
  });

  it.each([
    [['--pin', 'offset=5'], /outside the range[^]*5 in[^]*-1 in to 1 in/],
    [['--pin', 'setbck=5'], /setback/],
    [['--pin', 'offset'], /not a pin/],
    [['--pin', 'offset=abc'], /not a length/],
    [['--option', 'oil filter'], /does not name an option/],
    [['--option', 'oil fitler=remote'], /oil filter/],
    [['--option', 'oil filter=remot'], /remote/],
    [['--tolerance', 'little'], /--tolerance/],
    [['--tolerance', '0'], /more than 0/],
    [['--tolerance=-1'], /more than 0/],
    [['--time-limit', 'soon'], /seconds/],
    [['--time-limit', '0'], /seconds/],
    [['--time-limit', 'Infinity'], /seconds/],
    [['--units', 'furlongs'], /in or mm/],
    [['--pin', 'roll=1'], /a search keeps the engine level from side to side and in line/],
    [['--aim', 'lo'], /low/],
    [['--aim', 'constructor'], /margin, centre, low or back/],
    [['--keep', '1'], /--aim/],
    [['--aim', 'low', '--keep', 'x'], /--keep/],
    [['--aim', 'low', '--keep=-1/4'], /--keep must be 0 or more/],
    [['--jsn'], /--json/],
    [['another.yaml'], /argument/],
  ])('refuses %j', async (more, words) => {
    refused(await berth(['place', file, ...more]), words);
  });
});

describe('berth gaps', () => {
  it('measures every rule at a position', async () => {
    const { status, out } = await berth(['gaps', file, '--at', 'setback=11,offset=-1/2']);
    expect(status).toBe(0);
    expect(out.split('\n')[0]).toBe('FITS THERE, 1/4 to spare; 6 rules measured.');
  });

  it('says what falls short, and how much', async () => {
    const { status, out } = await berth(['gaps', file, '--at', 'setback=11.5, offset=-1/2']);
    expect(status).toBe(1);
    expect(out).toMatch(/^DOES NOT FIT THERE, short 1\/4; 2 of 6 rules fall short\./);
  });

  it('takes options and gives programs the same', async () => {
    const argv = ['gaps', file, '--at', 'setback=11,offset=0', '--option', 'oil filter=remote'];
    const { status, out } = await berth([...argv, '--json']);
    expect(status).toBe(0);
    const answer = JSON.parse(out) as { rules: unknown[] };
    expect(answer).toMatchObject({ margin: 0.25, options: { 'oil filter': 'remote' }, hours: 1 });
    expect(answer.rules).toHaveLength(3);
  });

  it('takes roll and yaw, and tells them in words and to programs where there are any', async () => {
    const there = 'setback=11,offset=-1/2';
    const at = (more: string) => ['gaps', file, '--at', `${there}${more}`];
    const { out } = await berth(at(',roll=0.4,yaw=-0.2'));
    expect(out).toContain('0.4 deg passenger side up, 0.2 deg tail to driver');
    const other = await berth(at(',yaw=0.25,roll=-1'));
    expect(other.out).toContain('1.0 deg driver side up, 0.250 deg tail to passenger');
    const json = async (more: string) =>
      JSON.parse((await berth([...at(more), '--json'])).out) as {
        margin: number;
        position: object;
      };
    const leaning = await json(',roll=2');
    expect(leaning.position).toHaveProperty('roll', 2);
    expect(leaning.position).not.toHaveProperty('yaw');
    const level = await json(',roll=0,yaw=0');
    expect(level).toEqual(await json(''));
    expect(level.position).not.toHaveProperty('roll');
    expect(leaning.margin).toBeLessThan(level.margin);
  });

  it('measures outside the ranges too, and says so', async () => {
    const { out } = await berth(['gaps', file, '--at', 'setback=25,offset=0']);
    expect(out).toContain('Outside');
  });

  it.each([
    [['--at', 'setback=11'], /does not say offset/],
    [['--at', ''], /not a pin/],
    [['--at', 'setback=11,offset=0,offset=1'], /twice/],
    [['--at', 'setback=11,offset=NaN'], /not a length/],
    [['--at', 'setback=11,offset=0,roll=x'], /roll: this is not an angle/],
    [['--at', 'setback=11,offset=0,yaw=1,yaw=1'], /yaw is given twice/],
    [['--at', 'setback=11,offset=0,rol=1'], /nearest: +roll/],
    [[], /--at/],
  ])('refuses %j', async (more, words) => {
    refused(await berth(['gaps', file, ...more]), words);
  });
});

describe('berth check', () => {
  it('says what a good file holds', async () => {
    const { status, out } = await berth(['check', file]);
    expect(status).toBe(0);
    expect(out).toMatch(/GOOD\./);
    expect(out).toMatch(/2 engine parts, 3 chassis parts, 1 rule of the file/);
    expect(out).toContain('1 choice (2 ways)');
    const plain = put('plain.yaml', BAY.replace(/choices:[^]*/, ''));
    expect((await berth(['check', plain])).out).toMatch(/0 choices\n/);
  });

  it('says every problem with its place, what was read and what is near', async () => {
    const bad = put(
      'bad.yaml',
      BAY.replace('units: in', 'units: cm').replace('kind: firewall', 'kind: firewal'),
    );
    const { status, out } = await berth(['check', bad]);
    expect(status).toBe(2);
    expect(out).toMatch(/bad\.yaml:4:\d+ {2}/);
    expect(out).toMatch(/bad\.yaml:15:\d+ {2}/);
    expect(out).toContain('nearest:  firewall');
    expect(out).toMatch(/\n2 errors\n$/);
  });

  it('says what is wrong with a file that cannot be opened', async () => {
    const { status, out } = await berth(['check', join(folder, 'none.yaml')]);
    expect(status).toBe(2);
    expect(out).toContain('there is no such file');
  });
});

describe('files that cannot be read', () => {
  const place = (path: string) => berth(['place', path]);

  it('one that is not there', async () => {
    refused(await place(join(folder, 'none.yaml')), /none\.yaml {2}there is no such file/);
  });
  it('a directory', async () => {
    refused(await place(folder), /this is a directory/);
  });
  it('one without permission', async () => {
    const secret = put('secret.yaml', BAY);
    chmodSync(secret, 0);
    // The superuser reads everything, so nothing is refused there.
    if (process.getuid?.() !== 0) refused(await place(secret), /may not be read/);
    chmodSync(secret, 0o600);
  });
  it('one of 10 MB, by its size and when piped', async () => {
    const large = new Uint8Array(10_000_000).fill(35);
    refused(await place(put('large.yaml', large)), /too large: it has 10\.0 MB/);
    refused(await berth(['place', '-'], { stdin: large }), /too large/);
  });
  it('one that is not text', async () => {
    refused(await place(put('binary.yaml', new Uint8Array([0xff, 0xfe, 0, 1]))), /not UTF-8/);
  });
  it('broken YAML and broken JSON', async () => {
    refused(await place(put('broken.yaml', 'berth: [1, 2\nunits: }')), /broken\.yaml:\d+:\d+/);
    refused(await place(put('broken.json', '{"berth": 1,')), /broken\.json/);
  });
  it('an empty one', async () => {
    refused(await place(put('empty.yaml', '')));
  });
  it('one whose words a terminal would act on', async () => {
    const outcome = await place(put('ansi.yaml', `${BAY}"\\e[31mred": 1\n`));
    refused(outcome);
    expect(outcome.err).not.toContain('\u001b');
  });
});

describe('the command line itself', () => {
  it('prints its version, that of the package', async () => {
    expect(await berth(['--version'])).toEqual({
      status: 0,
      out: `${manifest.version}\n`,
      err: '',
    });
  });

  it('prints the schema', async () => {
    const { status, out } = await berth(['schema']);
    expect(status).toBe(0);
    expect(JSON.parse(out)).toEqual(JSON.parse(JSON.stringify(jsonSchema())));
  });

  const commands = [[], ['init'], ['place'], ['gaps'], ['check'], ['schema']];
  it.each(commands)('has help for berth %s, with an example, in 80 columns', async (...argv) => {
    const { status, out } = await berth([...argv, '--help']);
    expect(status).toBe(0);
    expect(exampleOf(out)).toMatch(/^berth /);
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('has an example in every help that works', async () => {
    let tried = 0;
    for (const command of commands) {
      const { out } = await berth([...command, '--help']);
      const example = exampleOf(out).replace(/ >.*$/, '');
      const argv = [...example.matchAll(/"([^"]*)"|(\S+)/g)].map((match) => match[1] ?? match[2]!);
      const limit = argv[1] === 'place' ? ['--time-limit', '0.2'] : [];
      const { status, err } = await berth([...argv.slice(1), ...limit]);
      expect([0, 1, 3], `${example}: ${err}`).toContain(status);
      tried++;
    }
    expect(tried).toBe(commands.length);
  });

  it('refuses an unknown command, naming the nearest, and no command at all', async () => {
    refused(await berth(['plaec', file]), /unknown command 'plaec'/, /place/);
    refused(await berth([]), /Usage/);
  });

  it('says a mistyped name without what a terminal would act on', async () => {
    const outcome = await berth(['\u001b[31mplace\u001b[0m']);
    refused(outcome);
    expect(outcome.err).not.toContain('\u001b');
  });

  it('calls a fault of its own a fault: status 70', async () => {
    const outcome = await berth(['place', SLOW], {
      onBreath: () => {
        throw new Error('broken\u001b[31m\nstack');
      },
      tick: 50,
    });
    expect(outcome.status).toBe(70);
    expect(outcome.err).toBe('a fault in Berth itself: broken stack\n');
  });
});

/** Bays of 300 by 300 parts, and of twelve choices: an answer or a bracket in a stated time and memory. */

import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { readScenario } from '../src/model/read.js';
import { measureAt } from '../src/solver/measuring/measure.js';
import { between } from '../tests/geometry/random.js';
import type { Random } from '../tests/geometry/random.js';
import { fileOf } from '../tests/support/doc.js';
import { plant } from '../tests/support/planted.js';
import type { Plant } from '../tests/support/planted.js';
import { Notes } from './subject.js';
import { tied } from './tied.js';
import type { Counts, Result, Subject } from './subject.js';

/** Parts a side, and choices; with `--short` the first case alone, of 12 choices on few parts. */
const SIZES = [
  { parts: 6, choices: 12 },
  { parts: 300, choices: 2 },
  { parts: 30, choices: 12 },
  { parts: 300, choices: 0 },
] as const;
/** Seconds that a search may take before it must give what it has, and that it may be late by. */
const LIMIT = 60;
const LATE = 6;
/** MiB of the whole process: 90,000 pairs of parts, each with its rule and its row. */
const MEMORY = 1600;
/** Inches: the command's tolerance, and its rounding on print. */
const TOLERANCE = 1 / 64;
const ROUNDING = 1e-5;
/** Prints the peak memory of the process it is loaded into, in KiB, to its error stream. */
const PEAK = `data:text/javascript,process.on('exit',()=>console.error('peak '+process.resourceUsage().maxRSS))`;

export const LARGE: Subject = {
  claim: `bays of 300 by 300 parts and of 12 choices are answered within ${LIMIT} s and ${MEMORY} MiB, proved or not, and no number of the answer is more than there is`,
  runs: 8,
  shortRuns: 1,
  seconds: 3 * LIMIT,
  memory: 1024,
  open: async () => largeCase,
  judge: ({ proved = 0, '300 x 300 parts': large = 0, '12 choices': many = 0 }: Counts, cases) => [
    ...(proved > 0 ? [] : ['not one answer is proved']),
    ...(cases < 2 || large > 0 ? [] : ['no bay of 300 by 300 parts']),
    ...(many > 0 ? [] : ['no bay of 12 choices']),
  ],
};

function largeCase({
  random,
  number,
}: {
  readonly random: Random;
  readonly number: number;
}): Result {
  const notes = new Notes();
  const { parts, choices } = SIZES[(number - 1) % SIZES.length]!;
  notes.count(choices === 12 ? '12 choices' : `${parts} x ${parts} parts`);
  const planted = plant({
    random,
    pitch: 'tilted',
    choices,
    pieces: { engine: parts, chassis: parts / 6 },
    play: [1, 5],
    worth: between(random, 0.05, 0.3),
  });
  const { doc, allowed } = tied(planted, random, 1 / 3);
  const text = fileOf(doc);
  const { time, memory, status, said, err } = run(text);
  notes.hold(status === 0 || status === 1 || status === 3, `exit status ${status}: ${err}`);
  notes.hold(time < 1000 * (LIMIT + LATE), `${(time / 1000).toFixed(1)} s`);
  notes.hold(memory < MEMORY, `${memory.toFixed(0)} MiB`);
  notes.count('seconds', time / 1000);
  notes.count('MiB', memory);
  notes.hold(said !== undefined, `no answer: ${err}`);
  if (said) judge(notes, said, { ...planted, doc }, allowed, text);
  return notes.result({ ending: 'json', text });
}

/** What the command says, inches and degrees. */
interface Said {
  readonly best: string;
  readonly margin: number;
  readonly bound: number;
  readonly bestBound: number;
  readonly position: Readonly<Record<'setback' | 'offset' | 'height' | 'pitch', number>>;
  readonly options: Readonly<Record<string, string>>;
  readonly hours: number;
  readonly cost: number;
  readonly stopped: string | null;
}

function run(text: string) {
  const directory = mkdtempSync(join(tmpdir(), 'berth-campaign-'));
  try {
    const file = join(directory, 'bay.json');
    writeFileSync(file, text);
    const start = performance.now();
    const args = [
      '--import',
      PEAK,
      'dist/berth.js',
      'place',
      file,
      '--json',
      '--time-limit',
      `${LIMIT}`,
    ];
    const { status, stdout, stderr } = spawnSync(process.execPath, args, {
      encoding: 'utf8',
      maxBuffer: 1 << 28,
    });
    const time = performance.now() - start;
    const memory = Number(/^peak (\d+)$/m.exec(stderr)?.[1]) / 1024;
    const said = stdout.startsWith('{') ? (JSON.parse(stdout) as Said) : undefined;
    return { time, memory, status, said, err: stderr.slice(0, 300) };
  } finally {
    rmSync(directory, { recursive: true, force: true });
  }
}

function judge(
  notes: Notes,
  said: Said,
  { doc, marginOf, workOf }: Plant,
  allowed: readonly (readonly number[])[],
  text: string,
): void {
  const { margin, bound, bestBound, best, stopped, position } = said;
  const told = `margin ${margin}, bound ${bound}, best bound ${bestBound} in`;
  const set = Object.entries(doc.choices ?? {}).map(([choice, all]) =>
    Object.keys(all).indexOf(said.options[choice]!),
  );
  const most = Math.max(...allowed.map(marginOf));
  const here = marginOf(set);
  notes.hold(
    allowed.some((one) => one.join() === set.join()),
    `${told}: options that cannot go together`,
  );
  notes.hold(bestBound >= most - ROUNDING, `${told}: a bound under the truth, ${most}`);
  notes.hold(bound >= here - ROUNDING, `${told}: a bound under the truth of its options, ${here}`);
  notes.hold(margin <= here + ROUNDING, `${told}: more than there is, ${here}`);
  notes.hold(
    bound >= margin - ROUNDING && bestBound >= margin - ROUNDING,
    `${told}: a bound under the margin`,
  );
  const work = workOf(set);
  notes.hold(
    Math.abs(work.hours - said.hours) < 1e-6 && Math.abs(work.cost - said.cost) < 1e-6,
    `${told}: ${said.hours} h and ${said.cost}`,
  );
  const { scenario } = readScenario(text, 'json');
  const mm = (value: number) => 25.4 * value;
  const { setback, offset, height, pitch } = position;
  const at = {
    setback: mm(setback),
    offset: mm(offset),
    height: mm(height),
    pitch: (pitch * Math.PI) / 180,
  };
  const again = measureAt(scenario!, set, at).margin / 25.4;
  // The position is printed to five places, and pitch moves what is 20 in from the datum.
  notes.hold(Math.abs(again - margin) < 5e-4, `${told}: ${again} measured at the position printed`);
  if (best !== 'proved' || stopped !== null) {
    notes.count('a bracket');
    notes.count('inches of brackets', bestBound - margin);
    return;
  }
  notes.count('proved');
  notes.hold(margin >= here - TOLERANCE, `${told}: proved where ${here} can be had`);
  const worth = (doc.worth ?? 0) + TOLERANCE;
  notes.hold(here >= most - worth, `${told}: proved where ${most} can be had under other options`);
}

/** Scenario files and files of readings, spoilt: always an answer, or a mistake with its place. */

import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { optionSets } from '../src/model/options.js';
import type { Problem } from '../src/model/text/problem.js';
import { readMeasured } from '../src/model/fitup/read-measured.js';
import { readScenario } from '../src/model/read.js';
import type { OptionSet, Position, Scenario } from '../src/model/scenario.js';
import { measureAt } from '../src/solver/measuring/measure.js';
import type { Random } from '../tests/geometry/random.js';
import { commandFaults } from './mutated/commands.js';
import { differences, dumpOf, notANumber } from './mutated/dump.js';
import { seedFiles } from './mutated/files.js';
import type { SeedFile } from './mutated/files.js';
import { isHarmless } from './mutated/harmless.js';
import { below, oneOf } from './mutated/pick.js';
import { spoilt } from './mutated/spoil.js';
import type { SpoiltFile } from './mutated/spoil.js';
import { atLeast, Notes } from './subject.js';
import type { Case, Result, Subject } from './subject.js';

/** Milliseconds in which any file is read. */
const SOON = 2000;
const BAY = 'scenarios/orchard-hauler.yaml';
const TAPED = 'scenarios/taped/orchard-hauler.yaml';
/** Shares of the cases: readings; of files that read, those measured and those that a command is run on. */
const READINGS = 0.08;
const MEASURED = { small: 0.4, large: 0.1 };
const COMMANDED = { small: 0.12, large: 0.04, refused: 0.02 };
const LARGE = 6000;

export const MUTATED: Subject = {
  claim:
    'a spoilt file is read, or every mistake has its line and column; nothing is thrown, hangs, or is guessed in silence',
  runs: 100_000,
  shortRuns: 300,
  seconds: 60,
  memory: 1024,
  open: async () => {
    const files = seedFiles();
    const scenario = readScenario(readFileSync(BAY, 'utf8'), 'yaml').scenario!;
    const taped = tapedFile(scenario);
    return (one) =>
      one.random() < READINGS ? readingsCase(one, taped, scenario) : scenarioCase(one, files);
  },
  judge: (counts, cases) =>
    atLeast(counts, cases, {
      read: 15,
      refused: 25,
      'refused for what it means': 15,
      measured: 3,
      commands: 0.3,
      readings: 5,
    }),
};

function tapedFile(scenario: Scenario): SeedFile {
  const text = readFileSync(TAPED, 'utf8');
  const dump = dumpOf(readMeasured(text, 'yaml', scenario));
  return { name: TAPED, text, tree: parse(text) as unknown, dump, weight: 1, units: 'in' };
}

function weighted(files: readonly SeedFile[], random: Random): SeedFile {
  let left = random() * files.reduce((sum, { weight }) => sum + weight, 0);
  return files.find(({ weight }) => (left -= weight) < 0) ?? files[0]!;
}

async function scenarioCase({ random }: Case, files: readonly SeedFile[]): Promise<Result> {
  const notes = new Notes();
  const file = weighted(files, random);
  const spoiltFile = spoilt(file, random);
  const { text, format } = spoiltFile;
  const read = timed(notes, () => readScenario(text, format));
  const { scenario, problems } = read;
  judgeProblems(notes, text, problems, scenario !== undefined);
  judgeSilence(notes, file, spoiltFile, read);
  const size = text.length < LARGE ? 'small' : 'large';
  if (scenario && random() < MEASURED[size]) measure(notes, scenario, random);
  if (random() < COMMANDED[scenario ? size : 'refused']) {
    const { faults, status, command } = await commandFaults(text, scenario, random);
    notes.faults.push(...faults);
    notes.count('commands');
    notes.count(`status ${status}`);
    if (scenario) notes.count(`ran ${command}`);
  }
  return exhibited(notes, file, spoiltFile);
}

function readingsCase({ random }: Case, file: SeedFile, scenario: Scenario): Result {
  const notes = new Notes();
  const spoiltFile = spoilt(file, random);
  const { text, format } = spoiltFile;
  const read = timed(notes, () => readMeasured(text, format, scenario));
  notes.count('readings');
  judgeProblems(notes, text, read.problems, read.readings !== undefined);
  judgeSilence(notes, file, spoiltFile, read);
  const bad = notANumber(read.readings);
  notes.hold(bad === undefined, `a reading is not a number at ${bad ?? ''}`);
  return exhibited(notes, file, spoiltFile);
}

function exhibited(notes: Notes, file: SeedFile, { text, how, format }: SpoiltFile): Result {
  notes.faults.forEach(
    (fault, i) => (notes.faults[i] = `${file.name}, ${how.join(' and ')}: ${fault}`),
  );
  return notes.result({ ending: format === 'json' ? 'json' : 'yaml', text });
}

/** By the time that the process worked, for a shared machine's clock says little of a file. */
function timed<T>(notes: Notes, read: () => T): T {
  const start = process.cpuUsage();
  const result = read();
  const { user, system } = process.cpuUsage(start);
  const took = (user + system) / 1000;
  notes.hold(took < SOON, `took ${took.toFixed(0)} ms to read`);
  return result;
}

function judgeProblems(
  notes: Notes,
  text: string,
  problems: readonly Problem[],
  read: boolean,
): void {
  const errors = problems.filter(({ severity }) => severity === 'error');
  notes.hold(read === (errors.length === 0), () => `read: ${read}, with ${errors.length} errors`);
  notes.count(read ? 'read' : 'refused');
  if (errors.some(({ code }) => code !== 'syntax')) notes.count('refused for what it means');
  if (problems.length > errors.length) notes.count('warned');
  const lines = text.split('\n');
  for (const { message, line, column, path } of problems) {
    const at = `'${message}' at ${path.join('/')}`;
    notes.hold(message !== '', 'a problem without a word');
    notes.hold(
      !/\bNaN\b|undefined|\[object/.test(message) || text.includes('NaN'),
      () => `said ${at}`,
    );
    if (line === undefined || column === undefined) {
      notes.hold(false, `${at} has no place in the file`);
      continue;
    }
    const inside = line >= 1 && line <= lines.length && column >= 1;
    notes.hold(
      inside && column <= lines[line - 1]!.length + 1,
      `${at}: ${line}:${column} is outside the file`,
    );
  }
}

/** One change that says something else must be said, or change what is read. */
function judgeSilence(
  notes: Notes,
  file: SeedFile,
  { text, how, tree, foreign }: SpoiltFile,
  read: Parameters<typeof dumpOf>[0],
): void {
  if (foreign) {
    notes.count('foreign keys');
    const said = read.problems.some(({ severity }) => severity === 'error');
    notes.hold(
      said,
      () => `the key ${foreign.join('/')} is not of the format, and nothing is said`,
    );
  }
  if (how.length > 1 || !('scenario' in read || 'readings' in read) || dumpOf(read) !== file.dump)
    return;
  const changes = differences(file.tree, tree ?? parsed(text)).filter(
    (one) => !isHarmless(one, file.units),
  );
  notes.count(changes.length > 0 ? 'silent' : 'said the same');
  notes.hold(changes.length === 0, () => `read as if unchanged: ${changes.slice(0, 5).join('; ')}`);
}

function parsed(text: string): unknown {
  try {
    return parse(text, { logLevel: 'silent', schema: 'core' }) as unknown;
  } catch (error) {
    return error instanceof Error ? error.message : error;
  }
}

/** The middle of the ranges and one of their corners, under the first options and any others. */
function measure(notes: Notes, scenario: Scenario, random: Random): void {
  const sets: OptionSet[] = [];
  for (const set of optionSets(scenario)) if (sets.push(set) >= 30) break;
  const { setback, offset, height, pitch } = scenario.position;
  const places = [() => 0.5, () => below(random, 2)].map((share): Position => {
    const at = ({ min, max }: { min: number; max: number }) => min + share() * (max - min);
    return { setback: at(setback), offset: at(offset), height: at(height), pitch: at(pitch) };
  });
  places.forEach((position, i) => {
    const set = i === 0 ? sets[0] : oneOf(random, sets);
    if (set === undefined) return;
    const bad = notANumber(measureAt(scenario, set, position));
    notes.hold(
      bad === undefined,
      `measured at ${JSON.stringify(position)}, ${bad ?? ''} is not a number`,
    );
    notes.count('measured');
  });
}

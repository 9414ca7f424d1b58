/**
 * From the text of a scenario file to a scenario, or to everything that is wrong with it.
 *
 * The notation is read first, then the structure against the schema, then the meaning: datums before
 * what is measured from them, parts and other names before whatever refers to them, and what spans the file last. What an earlier step
 * found faulty the later ones pass over, so that one mistake gives one problem.
 */

import { readDocument } from './text/document.js';
import type { Problem } from './text/problem.js';
import { optionPlaces, takeCensus } from './reading/census.js';
import type { Census } from './reading/census.js';
import { readCases } from './reading/cases.js';
import { readChoices, sayExclusions } from './reading/choices.js';
import { readDatums } from './reading/datums.js';
import { jointLimits, readDriveline } from './reading/driveline.js';
import { readLift, readRock } from './reading/engine-moves.js';
import { readHoistPath } from './reading/hoist.js';
import { readMeasuringError, readPosition, readRake } from './reading/header.js';
import { readMockup } from './reading/mockup.js';
import { readLimits, sayContradictions } from './reading/limits.js';
import { readMounts } from './reading/mounts.js';
import { sayPairProblems } from './reading/pairs.js';
import { Reading } from './reading/reading.js';
import { readRules } from './reading/rules.js';
import { structureProblems } from './reading/structure.js';
import { readTogether } from './reading/together.js';
import { readTrims } from './reading/trims.js';
import { readWeight } from './reading/weight.js';
import { KINDS } from './kinds.js';
import { rulebookRules } from './rulebook.js';
import { COORDINATES } from './scenario.js';
import type { Range, Scenario } from './scenario.js';
import { scenarioSchema } from './schema.js';
import type { RawScenario } from './schema.js';

export interface ReadResult {
  /** Present when and only when no problem is an error. */
  readonly scenario?: Scenario;
  /** In the order of the file. */
  readonly problems: readonly Problem[];
}

/** Millimetres: 1/8 in. */
const WORTH_UNLESS_GIVEN = 3.175;

/**
 * Reads a scenario file. Never throws for what a file holds.
 * @param format `auto` takes JSON for the YAML it is; `json` holds the file to JSON's own grammar.
 */
export function readScenario(text: string, format: 'yaml' | 'json' | 'auto'): ReadResult {
  const document = readDocument(text, format);
  const { value } = document;
  if (value === undefined) return { problems: document.problems };
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    return { problems: [...document.problems, noScenario(value)] };
  }
  const raw = value as RawScenario;
  const structure = structureProblems(raw, scenarioSchema);
  const c = new Reading(document, raw.units === 'mm' ? 'mm' : 'in', structure);
  const scenario = readMeaning(c, raw);
  const problems = [...c.problems].sort(
    (a, b) => (a.line ?? 0) - (b.line ?? 0) || (a.column ?? 0) - (b.column ?? 0),
  );
  const wrong = problems.some(({ severity }) => severity === 'error');
  return wrong ? { problems } : { scenario, problems };
}

function noScenario(value: unknown): Problem {
  return {
    code: value === null ? 'missing' : 'wrong type',
    severity: 'error',
    message: value === null ? 'the file is empty' : 'this is not a scenario',
    path: [],
    line: 1,
    column: 1,
    expected: 'berth, units, driver, position, engine, chassis',
  };
}

function readMeaning(c: Reading, raw: RawScenario): Scenario {
  const places = optionPlaces(c, raw);
  c.measuringError = readMeasuringError(c, raw);
  const datums = readDatums(c, raw);
  const census = takeCensus(c, raw, places);
  const position = readPosition(c, raw);
  const weight = readWeight(c, raw.weight, census);
  const known = { census, datums, position, weighed: weight !== undefined };
  const rules = readRules(c, raw.rules, ['rules'], census, { from: 'file' });
  const limits = readLimits(c, raw.limits, ['limits'], known);
  sayContradictions(c, limits);
  const choices = readChoices(c, raw, places, known);
  for (const option of choices.flatMap(({ options }) => options)) {
    sayContradictions(c, option.limits, limits);
  }
  const hoistPath = readHoistPath(c, raw['hoist path'], census);
  const driveline = readDriveline(c, raw.driveline);
  const mounts = readMounts(c, raw.mounts, { census, driveline });
  const mockup = readMockup(c, raw['mock-up'], census);
  const scenario: Scenario = {
    title: raw.title ?? 'Untitled',
    units: c.units,
    driver: raw.driver,
    origin: raw.origin ?? 'chassis datum',
    datums,
    rake: readRake(c, raw),
    position: { ...ANYWHERE, ...position },
    rock: readRock(c, raw, census),
    lift: readLift(c, raw, census),
    together: readTogether(c, raw, census),
    parts: census.base.map(({ part }) => part),
    groups: census.groups,
    rulebook: raw.rulebook ?? 'none',
    rules: [...rules, ...(raw.rulebook === 'common practice' ? rulebookRules() : [])],
    limits: driveline === undefined ? limits : [...limits, ...jointLimits(driveline)],
    choices,
    trims: readTrims(c, raw.trims, ['trims'], census),
    worth: readWorth(c, raw),
    notFitted: readNotFitted(c, raw, census),
    ...(hoistPath === undefined ? {} : { hoistPath }),
    ...(driveline === undefined ? {} : { driveline }),
    ...(mounts === undefined ? {} : { mounts }),
    ...(mockup === undefined ? {} : { mockup }),
    ...(weight === undefined || weight === 'faulty' ? {} : { weight }),
    cases: [],
    measurements: c.measurements,
  };
  sayEmptySides(c, raw);
  if (!sayExclusions(c, scenario)) return scenario;
  const broken = brokenParts(census);
  const doubts = {
    broken,
    coverage: broken.size > 0 || c.problems.some(hidesRules),
    sides: Object.keys(position).length < COORDINATES.length,
  };
  sayPairProblems(c, scenario, doubts, (name) => census.parts.get(name)?.[0]!.path ?? []);
  const cases = c.problems.some(hidesWishes) ? [] : readCases(c, raw, scenario);
  return cases.length === 0 ? scenario : { ...scenario, cases };
}

/** Whether a mistake may hide what wishes speak of: datums, ranges, choices. */
function hidesWishes({ severity, path }: Problem): boolean {
  const about = ['datums', 'position', 'choices', 'units'].includes(String(path[0]));
  return severity === 'error' && (about || path.length === 0);
}

/** Whether a mistake may hide a rule, so that it is not known which parts none covers. */
function hidesRules({ severity, path }: Problem): boolean {
  const about = path.some((key) => key === 'rules' || key === 'groups' || key === 'rulebook');
  return severity === 'error' && (about || path.length <= 1);
}

/** Stands in for ranges that could not be read, in a scenario that is then not given out. */
const NOWHERE: Range = { min: 0, max: 0 };
const ANYWHERE = { setback: NOWHERE, offset: NOWHERE, height: NOWHERE, pitch: NOWHERE };

function readWorth(c: Reading, raw: RawScenario): number {
  if (raw.worth === undefined || c.faulty(['worth'])) return WORTH_UNLESS_GIVEN;
  const worth = c.length(raw.worth, ['worth']) ?? WORTH_UNLESS_GIVEN;
  if (worth < 0) c.say('bad length', ['worth'], 'worth cannot be less than 0');
  return worth;
}

function readNotFitted(c: Reading, raw: RawScenario, census: Census): Scenario['notFitted'] {
  const drawn = new Set(census.base.map(({ part }) => part.kind));
  return c.items(raw['not fitted']).flatMap((given, index) => {
    const kind = KINDS.find((one) => one === given);
    if (kind !== undefined && drawn.has(kind)) {
      const message = `'${kind}' is drawn and listed as not fitted`;
      c.say('duplicate', ['not fitted', index], message, { severity: 'warning' });
    }
    return kind === undefined ? [] : [kind];
  });
}

function sayEmptySides(c: Reading, raw: RawScenario): void {
  for (const side of ['engine', 'chassis'] as const) {
    // A side that is missing or misspelt has been said.
    if (c.faulty([side]) || raw[side] === undefined || Object.keys(raw[side]).length > 0) continue;
    c.say('missing', [side], `the ${side} has no parts`, { at: 'key' });
  }
}

function brokenParts(census: Census): ReadonlySet<string> {
  const drawn = [...census.parts.values()].flat();
  return new Set(drawn.filter(({ broken }) => broken).map(({ part }) => part.name));
}

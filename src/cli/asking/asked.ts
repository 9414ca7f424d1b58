/** From what was typed after a command's options to what the model and the solver take. */

import { caseOf, caseProblems, optionCases } from '../../model/asked/cases.js';
import type { Case } from '../../model/asked/cases.js';
import { domainsByName, optionSetByName } from '../../model/asked/options-by-name.js';
import type { OptionDomains } from '../../model/options.js';
import { parseLength, LENGTH_EXPECTED } from '../../model/text/length.js';
import { nearestName } from '../../model/text/nearest.js';
import { parsePins, pinProblems } from '../../model/asked/pins.js';
import type { Problem } from '../../model/text/problem.js';
import { COORDINATES } from '../../model/scenario.js';
import type {
  Coordinate,
  OptionRef,
  OptionSet,
  Position,
  Range,
  Scenario,
} from '../../model/scenario.js';
import { leans, stanceOf } from '../../model/stance.js';
import type { Seat } from '../../model/stance.js';
import { exactTape } from '../../model/text/tape.js';
import type { Units } from '../../model/text/tape.js';
import { parseWants } from '../../model/asked/wants.js';
import type { Wants } from '../../model/asked/wants.js';
import type { Aim } from '../../solver/answer.js';
import { LEAST_MEMORY } from '../running/interrupt.js';
import { mistake, UserError } from '../problems.js';
import { PAPERS } from '../sheet/style.js';
import type { PaperName } from '../sheet/style.js';

/** The units to print in, and to read lengths without a unit in: those asked for, or the file's. */
export function unitsAsked(text: string | undefined, scenario: Scenario): Units {
  if (text === undefined) return scenario.units;
  if (text === 'in' || text === 'mm') return text;
  throw mistake(`--units: there is no '${text}'`, { read: text, expected: 'in or mm' });
}

/** Pinned coordinates, inside the file's ranges. */
export function pinsAsked(
  texts: readonly string[],
  units: Units,
  scenario: Scenario,
): Partial<Position> {
  if (texts.length === 0) return {};
  const { position, problems } = parsePins(texts.join(','), units, scenario.datums);
  refuse([...problems, ...pinProblems(scenario.position, position, units)]);
  return position;
}

/**
 * Where to measure: every coordinate that the file does not pin, and roll and yaw if there are any. Outside
 * the file's ranges is allowed: an engine may be measured where it stands.
 */
export function positionAsked(text: string, units: Units, scenario: Scenario): Seat {
  const { position, lean, problems } = parsePins(text, units, scenario.datums, 'lean');
  const given: Partial<Position> = { ...pinnedByFile(scenario), ...position };
  const missing = COORDINATES.filter((coordinate) => given[coordinate] === undefined);
  const unsaid: Problem = {
    code: 'missing',
    severity: 'error',
    message: `--at does not say ${missing.join(', ')}`,
    path: [],
    read: text,
    expected:
      'setback=..., offset=..., height=..., pitch=..., and roll=... and yaw=... if any; ' +
      'those the file pins may be left out',
  };
  refuse([...problems, ...(problems.length === 0 && missing.length > 0 ? [unsaid] : [])]);
  const stance = stanceOf(given as Position, lean?.roll, lean?.yaw);
  return leans(stance) ? stance : (given as Position);
}

/** Wishes, and the options among them checked; none where no text is given. */
export function wantsAsked(texts: readonly string[], units: Units, scenario: Scenario): Wants {
  if (texts.length === 0) return { ranges: {}, options: [] };
  const { wants, problems } = parseWants(texts, units, scenario);
  const options = domainsByName(scenario, wants.options).problems;
  refuse([...problems, ...(problems.length === 0 ? options : [])]);
  return wants;
}

/** `choice=option` texts as names; the first `=` parts them. */
export function optionNames(texts: readonly string[]): OptionRef[] {
  return texts.map((text) => {
    const at = text.indexOf('=');
    if (at < 0) {
      throw mistake(`--option: '${text}' does not name an option`, {
        code: 'bad option',
        read: text,
        expected: '"choice=option", such as "oil filter=remote"',
      });
    }
    return { choice: text.slice(0, at).trim(), option: text.slice(at + 1).trim() };
  });
}

/** The options still open in each choice. */
export function domainsAsked(scenario: Scenario, names: readonly OptionRef[]): OptionDomains {
  const { domains, problems } = domainsByName(scenario, names);
  refuse(problems);
  return domains;
}

/** One option set: those named, and otherwise the bay as it stands. */
export function optionSetAsked(scenario: Scenario, names: readonly OptionRef[]): OptionSet {
  const found = optionSetByName(scenario, names);
  if ('problems' in found) throw new UserError(found.problems);
  return found.set;
}

/**
 * The cases to compare, `name: wishes` each, or the wishes alone for their own name; without any, those
 * of the file; without those, every option by itself.
 */
export function casesAsked(texts: readonly string[], units: Units, scenario: Scenario): Case[] {
  if (texts.length === 0) {
    const kept = scenario.cases.map(({ name, ...wants }) => caseOf(scenario, name, wants));
    const all = kept.length > 0 ? kept : optionCases(scenario);
    if (all.length > 0) return all;
    throw mistake('there is nothing to compare: this file has no other option and no case', {
      code: 'missing',
      expected: '--case "name: wishes", such as --case "centred: offset=0"',
    });
  }
  const problems: Problem[] = [];
  const cases: Case[] = [];
  for (const text of texts) {
    const [, called, wishes] = /^([^:=<>]*):(.*)$/s.exec(text) ?? [undefined, text, text];
    const name = called.trim();
    const { wants, problems: wrong } = parseWants([wishes], units, scenario);
    const own = wrong.length > 0 ? wrong : caseProblems(scenario, wants, units);
    for (const one of own) problems.push({ ...one, message: `--case ${name}: ${one.message}` });
    if (cases.some((one) => one.name === name)) {
      problems.push(twice(name));
    }
    if (own.length === 0) cases.push(caseOf(scenario, name, wants));
  }
  refuse(problems);
  return cases;
}

function twice(name: string): Problem {
  const message = `two cases are called '${name}'`;
  return { code: 'duplicate', severity: 'error', message, path: [], read: name };
}

/** Which coordinate to move along. */
export function coordinateAsked(option: string, text: string): Coordinate {
  const found = COORDINATES.find((one) => one === text.trim().toLowerCase());
  if (found !== undefined) return found;
  const nearest = nearestName(text, COORDINATES);
  throw mistake(`${option}: there is no '${text}'`, {
    read: text,
    expected: COORDINATES.join(', '),
    ...(nearest === undefined ? {} : { nearest }),
  });
}

/**
 * From where to where along a coordinate: places as `--pin` takes them, inside the file's range, the
 * lesser first; the ends of that range unless given.
 */
export function stretchAsked(
  along: Coordinate,
  ends: { readonly from?: string; readonly to?: string },
  units: Units,
  scenario: Scenario,
): Range {
  const read = (text: string | undefined, otherwise: number): number =>
    text === undefined ? otherwise : pinsAsked([`${along}=${text}`], units, scenario)[along]!;
  const range = scenario.position[along];
  const [min, max] = [read(ends.from, range.min), read(ends.to, range.max)];
  if (min < max) return { min, max };
  const isPinned = range.min === range.max;
  throw mistake(
    isPinned
      ? `the file pins ${along}: there is nothing to slide along`
      : `--from must be less than --to along ${along}`,
    { code: 'bad range' },
  );
}

/** A whole number of points, two at the least. */
export function stepsAsked(option: string, text: string): number {
  const steps = /^\d+$/.test(text.trim()) ? Number(text) : NaN;
  if (steps >= 2 && steps <= MOST_STEPS) return steps;
  throw mistake(`${option} must be a whole number from 2 to ${MOST_STEPS}`, {
    code: 'bad number',
    read: text,
  });
}

/** Points along a slide: each is a search. */
const MOST_STEPS = 1000;

/** A length of an option, in millimetres. */
export function lengthAsked(
  option: string,
  text: string,
  units: Units,
  least: 'over 0' | '0 or more',
): number {
  const length = parseLength(text, units);
  if ('problem' in length) {
    throw mistake(`${option}: ${length.problem}`, {
      code: 'bad length',
      read: text,
      expected: LENGTH_EXPECTED,
    });
  }
  if (least === 'over 0' && length.mm <= 0) {
    throw mistake(`${option} must be more than 0`, { code: 'bad length', read: text });
  }
  if (length.mm < 0) {
    throw mistake(`${option} must be 0 or more`, { code: 'bad length', read: text });
  }
  return length.mm;
}

/**
 * Trims to carry out, `part=depth` each, by the trim's index; `part way=depth` where a part has several.
 */
export function cutsAsked(
  texts: readonly string[],
  units: Units,
  { trims }: Scenario,
): ReadonlyMap<number, number> {
  const cuts = new Map<number, number>();
  for (const text of texts) {
    const at = text.lastIndexOf('=');
    const named = (at < 0 ? text : text.slice(0, at)).trim();
    const found = trims.flatMap(({ part, cut }, t) =>
      named === part || named === `${part} ${cut}` ? [t] : [],
    );
    const names = trims.flatMap(({ part, cut }) => [part, `${part} ${cut}`]);
    const nearest = nearestName(named, names);
    if (at < 0 || found.length !== 1) {
      const several = found.length > 1;
      throw mistake(
        several ? `--cut: '${named}' is several trims` : `--cut: the file has no trim '${named}'`,
        {
          code: 'bad option',
          read: text,
          expected: '"part=depth", such as "firewall=1", of the trims in the file',
          ...(nearest === undefined || several ? {} : { nearest }),
        },
      );
    }
    const trim = found[0]!;
    const depth = lengthAsked('--cut', text.slice(at + 1), units, 'over 0');
    if (depth > trims[trim]!.upTo + 1e-9) {
      const most = exactTape(trims[trim]!.upTo, units);
      throw mistake(`--cut: ${named} may be cut ${most} ${units} at most`, {
        code: 'bad length',
        read: text,
      });
    }
    if (cuts.has(trim)) throw mistake(`--cut: '${named}' is there twice`, { read: text });
    cuts.set(trim, depth);
  }
  return cuts;
}

/** The paper to print on; the printer's own unless one is named. */
export function paperAsked(text: string | undefined): PaperName | undefined {
  const found = PAPERS.find((paper) => paper === text?.toLowerCase());
  if (text === undefined || found) return found;
  throw mistake(`--paper: there is no '${text}'`, { read: text, expected: PAPERS.join(' or ') });
}

/** Seconds. */
export function secondsAsked(option: string, text: string): number {
  const seconds = /^\d*\.?\d+$/.test(text.trim()) ? Number(text) : NaN;
  if (Number.isFinite(seconds) && seconds > 0) return seconds;
  throw mistake(`${option} must be a number of seconds more than 0`, {
    code: 'bad number',
    read: text,
    expected: 'seconds, such as 10 or 0.5',
  });
}

/** Whole MiB. */
export function mebibytesAsked(option: string, text: string): number {
  const size = /^\d{1,7}$/.test(text.trim()) ? Number(text) : NaN;
  if (size >= LEAST_MEMORY) return size;
  throw mistake(`${option} must be a whole number of MiB, ${LEAST_MEMORY} or more`, {
    code: 'bad number',
    read: text,
    expected: 'MiB, such as 512',
  });
}

const AIMS: Readonly<Record<string, Aim>> = {
  margin: 'margin',
  centre: 'centre',
  center: 'centre',
  low: 'low',
  back: 'back',
};

/** What to aim for. */
export function aimAsked(text: string): Aim {
  if (Object.hasOwn(AIMS, text)) return AIMS[text]!;
  const nearest = nearestName(text, Object.keys(AIMS));
  throw mistake(`--aim: there is no '${text}'`, {
    read: text,
    expected: 'margin, centre, low or back',
    ...(nearest === undefined ? {} : { nearest }),
  });
}

function pinnedByFile(scenario: Scenario): Partial<Position> {
  const pinned = COORDINATES.filter((coordinate) => {
    const { min, max } = scenario.position[coordinate];
    return min === max;
  });
  return Object.fromEntries(pinned.map((name) => [name, scenario.position[name].min]));
}

function refuse(problems: readonly Problem[]): void {
  if (problems.length > 0) throw new UserError(problems);
}

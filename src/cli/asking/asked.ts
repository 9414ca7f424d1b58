/** From what was typed after a command's options to what the model and the solver take. */

import { domainsByName } from '../../model/asked/options-by-name.js';
import { parsePins, pinProblems } from '../../model/asked/pins.js';
import { parseWants } from '../../model/asked/wants.js';
import type { Wants } from '../../model/asked/wants.js';
import { COORDINATES } from '../../model/scenario.js';
import type { Coordinate, Position, Range, Scenario } from '../../model/scenario.js';
import { leans, stanceOf } from '../../model/stance.js';
import type { Seat } from '../../model/stance.js';
import { nearestName } from '../../model/text/nearest.js';
import type { Problem } from '../../model/text/problem.js';
import type { Units } from '../../model/text/tape.js';
import { mistake, refuse } from '../problems.js';

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

function pinnedByFile(scenario: Scenario): Partial<Position> {
  const pinned = COORDINATES.filter((coordinate) => {
    const { min, max } = scenario.position[coordinate];
    return min === max;
  });
  return Object.fromEntries(pinned.map((name) => [name, scenario.position[name].min]));
}

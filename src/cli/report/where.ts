/** Where the engine sits, in words: which way, how far, and from which datum. */

import { setFrom } from '../../model/set-from.js';
import { exactDegrees, exactTape, tape } from '../../model/tape.js';
import { pitchOnFloor } from '../../model/rake.js';
import { AXIS_OF } from '../../model/scenario.js';
import type { Coordinate, Position, Scenario } from '../../model/scenario.js';
import type { Standing } from '../../solver/answer.js';
import { name } from './text.js';
import { sides } from './words.js';
import type { Telling } from './words.js';

/** Where the engine sits: one phrase a coordinate, each from its datum. */
export function whereWords(position: Position, telling: Telling): string[] {
  return [
    alongWords('x', position.setback, telling),
    alongWords('y', position.offset, telling),
    alongWords('z', position.height, telling),
    coordinateWords('pitch', position.pitch, telling),
  ];
}

/** One coordinate of a position in words, from its datum; a pitch also as a level floor shows it. */
export function coordinateWords(coordinate: Coordinate, value: number, telling: Telling): string {
  if (coordinate === 'pitch') return pitchWords(value) + floorWords(value, telling, pitchWords);
  return alongWords(AXIS_OF[coordinate], value, telling);
}

/** How low or how far back at best, to a tape mark that does not flatter: `1 3/4 above`. */
export function reachWords(aim: 'low' | 'back', at: Position, telling: Telling): string {
  const { scenario, units } = telling;
  const axis = aim === 'low' ? 'z' : 'x';
  const datum = setFrom(axis, 'chassis', scenario);
  const from = (aim === 'low' ? at.height : at.setback) - (datum?.[axis] ?? 0);
  const mark = tape(from, units, { round: aim === 'low' ? 'up' : 'down' });
  const [plus, minus] = aim === 'low' ? ['above', 'below'] : ['back', 'ahead'];
  if (mark === '0') return aim === 'low' ? 'level' : 'at the datum';
  return mark.startsWith('-') ? `${mark.slice(1)} ${minus}` : `${mark} ${plus}`;
}

/** Every limit that is not kept: `pitch is 5.0 deg, at most 4.0 (driveline)`. */
export function limitWords(standing: Standing, telling: Telling): string[] {
  const { units, look } = telling;
  return standing.limits
    .filter((reading) => !reading.met)
    .map(({ limit, value }) => {
      const { quantity, min, max } = limit;
      const isAngle = quantity.of === 'pitch';
      const said = (size: number) => {
        return isAngle ? `${exactDegrees(size)} deg` : exactTape(size, units);
      };
      const what =
        quantity.of === 'height above'
          ? `${name(Object.values(quantity.what)[0]!, look)} above ${name(quantity.above, look)}`
          : quantity.of;
      const kept = value < min ? `at least ${said(min)}` : `at most ${said(max)}`;
      const why = limit.why === undefined ? '' : ` (${name(limit.why, look)})`;
      const floor = isAngle ? floorWords(value, telling, said) : '';
      return `${what} is ${said(value)}${floor}, must be ${kept}${why}`;
    });
}

/** How a difference along a vehicle axis is called, for a positive and a negative one. */
export function axisWords(axis: 'x' | 'y' | 'z', scenario: Scenario): readonly [string, string] {
  if (axis === 'x') return ['back of', 'ahead of'];
  if (axis === 'z') return ['above', 'below'];
  const [right, left] = sides(scenario);
  return [`to ${right} of`, `to ${left} of`];
}

function alongWords(axis: 'x' | 'y' | 'z', value: number, telling: Telling): string {
  const { scenario, units, look } = telling;
  // Offset is from the frame centre whatever other datums the file has beside it.
  const datum = axis === 'y' ? undefined : setFrom(axis, 'chassis', scenario);
  const from = value - (datum?.[axis] ?? 0);
  const length = exactTape(Math.abs(from), units);
  if (axis === 'y') {
    const [right, left] = sides(scenario);
    if (length === '0') return 'on centre';
    return `${length} to ${from > 0 ? right : left}`;
  }
  const called = datum === undefined ? 'the origin' : name(datum.name, look, 24);
  if (length === '0') return `${axis === 'x' ? 'in line' : 'level'} with ${called}`;
  return `${length} ${axisWords(axis, scenario)[from > 0 ? 0 : 1]} ${called}`;
}

/** What an angle of the frame reads on a level floor, in brackets; nothing where there is no rake. */
function floorWords(
  pitch: number,
  { scenario }: Telling,
  words: (radians: number) => string,
): string {
  return scenario.rake === 0 ? '' : ` (${words(pitchOnFloor(pitch, scenario))} on a level floor)`;
}

/** A pitch in words: `3.1 deg tail-down`, `level`. */
export function pitchWords(pitch: number): string {
  const angle = exactDegrees(Math.abs(pitch));
  if (Number(angle) === 0) return 'level';
  return `${angle} deg ${pitch > 0 ? 'tail-down' : 'nose-down'}`;
}

/** Where the engine sits, in words: which way, how far, and from which datum. */

import { setFrom } from '../model/errors/set-from.js';
import { degrees, exactDegrees, exactTape, tape } from '../model/text/tape.js';
import { pitchOnFloor } from '../model/rake.js';
import { leanOf } from '../model/stance.js';
import type { Seat } from '../model/stance.js';
import { AXIS_OF } from '../model/scenario.js';
import type { Coordinate, Datum, Position, Scenario } from '../model/scenario.js';
import type { LimitReading, Standing } from '../solver/answer.js';
import { name } from './text.js';
import { exactMassWords, massWords } from './axle.js';
import { jointWords, STATE_WORDS } from './joints.js';
import { sides, unit } from './words.js';
import type { Telling } from './words.js';

/** Where the engine sits: one phrase a coordinate, each from its datum, and one for roll and yaw if any. */
export function whereWords(position: Seat, telling: Telling): string[] {
  return [
    alongWords('x', position.setback, telling),
    alongWords('y', position.offset, telling),
    alongWords('z', position.height, telling),
    coordinateWords('pitch', position.pitch, telling),
    ...leanWords(position, telling),
  ];
}

/** Roll and yaw in words, each where it is not 0: `0.4 deg passenger side up`, `0.2 deg tail to driver`. */
function leanWords(seat: Seat, { scenario }: Telling): string[] {
  const { roll, yaw } = leanOf(seat);
  const [right, left] = sides(scenario);
  const words = (angle: number, way: string): string[] => {
    const size = exactDegrees(Math.abs(angle));
    return Number(size) === 0 ? [] : [`${size} deg ${way}`];
  };
  return [
    ...words(roll, `${roll > 0 ? right : left} side up`),
    ...words(yaw, `tail to ${yaw > 0 ? right : left}`),
  ];
}

/** One coordinate of a position in words, from its datum; a pitch also as a level floor shows it. */
export function coordinateWords(coordinate: Coordinate, value: number, telling: Telling): string {
  if (coordinate === 'pitch') {
    // On a raked frame 'level' would leave open with what.
    const none = telling.scenario.rake === 0 ? 'level' : '0.0 deg';
    return pitchWords(value, none) + floorWords(value, telling, pitchWords);
  }
  return alongWords(AXIS_OF[coordinate], value, telling);
}

/** How low or how far back at best, to a tape mark that does not flatter: `1 3/4 above rail top`. */
export function reachWords(aim: 'low' | 'back', at: Position, telling: Telling): string {
  const { scenario, units } = telling;
  const axis = aim === 'low' ? 'z' : 'x';
  const datum = setFrom(axis, 'chassis', scenario);
  const from = (aim === 'low' ? at.height : at.setback) - (datum?.[axis] ?? 0);
  const mark = tape(from, units, { round: aim === 'low' ? 'up' : 'down' });
  return fromDatum(axis, mark, datum, telling);
}

/** Every limit that is not kept: `pitch is 5.0 deg, must be at most 4.0 deg (driveline)`. */
export function limitWords({ limits }: Pick<Standing, 'limits'>, telling: Telling): string[] {
  return limits
    .filter((reading) => !reading.met)
    .map((reading) => {
      const { why } = reading.limit;
      return (
        limitMissed(reading, telling) + (why === undefined ? '' : ` (${name(why, telling.look)})`)
      );
    });
}

/** What is there is rounded away from the limit, so that it never seems kept. */
function limitMissed({ limit, value }: LimitReading, telling: Telling): string {
  const { units, look } = telling;
  const { quantity, min, max } = limit;
  const isLow = value < min;
  const end = isLow ? min : max;
  const round = isLow ? 'down' : 'up';
  if (quantity.of === 'height above') {
    const height = (text: string) =>
      `${text.replace('-', '')} ${text.startsWith('-') ? 'below' : 'above'}`;
    const is = height(tape(value, units, { round }));
    const what = name(Object.values(quantity.what)[0]!, look);
    const most = `no ${isLow ? 'lower' : 'higher'} than ${height(exactTape(end, units))}`;
    return `${what} is ${is} ${name(quantity.above, look)}, may be ${most}`;
  }
  if (quantity.of === 'joint angle' || quantity.of === 'joint difference') {
    const what =
      quantity.of === 'joint angle'
        ? `${jointWords(quantity.joint)} at ${STATE_WORDS[quantity.state]} is`
        : 'the joints differ by';
    const must = `must be at ${isLow ? 'least' : 'most'}`;
    return `${what} ${degrees(value, round)} deg, ${must} ${exactDegrees(end)}`;
  }
  if (quantity.of === 'front axle load') {
    const must = `must be at ${isLow ? 'least' : 'most'} ${exactMassWords(end, units)}`;
    return `${quantity.of} is ${massWords(value, units, round)}, ${must}`;
  }
  const isAngle = quantity.of === 'pitch';
  const is = isAngle ? `${degrees(value, round)} deg` : tape(value, units, { round }) + unit(units);
  const must = isAngle ? `${exactDegrees(end)} deg` : exactTape(end, units) + unit(units);
  const floor = isAngle
    ? floorWords(value, telling, (angle) => `${degrees(angle, round)} deg`)
    : '';
  return `${quantity.of} is ${is}${floor}, must be at ${isLow ? 'least' : 'most'} ${must}`;
}

/** How a difference along a vehicle axis is called, for a positive and a negative one. */
export function axisWords(axis: 'x' | 'y' | 'z', scenario: Scenario): readonly [string, string] {
  if (axis === 'x') return ['back of', 'ahead of'];
  if (axis === 'z') return ['above', 'below'];
  const [right, left] = sides(scenario);
  return [`to ${right} of`, `to ${left} of`];
}

/** How two things are called that a tape finds no difference between along an axis. */
export const EVEN = { x: 'in line with', y: 'in line with', z: 'as high as' } as const;

function alongWords(axis: 'x' | 'y' | 'z', value: number, telling: Telling): string {
  const { scenario, units } = telling;
  // Offset is from the frame centre whatever other datums the file has beside it.
  const datum = axis === 'y' ? undefined : setFrom(axis, 'chassis', scenario);
  const from = value - (datum?.[axis] ?? 0);
  const length = exactTape(Math.abs(from), units);
  if (axis === 'y') {
    const [right, left] = sides(scenario);
    if (length === '0') return 'on centre';
    return `${length} to ${from > 0 ? right : left}`;
  }
  return fromDatum(axis, from < 0 ? `-${length}` : length, datum, telling);
}

/** What an angle of the frame reads on a level floor, in brackets; nothing where there is no rake. */
function floorWords(
  pitch: number,
  { scenario }: Telling,
  words: (radians: number) => string,
): string {
  return scenario.rake === 0 ? '' : ` (${words(pitchOnFloor(pitch, scenario))} on a level floor)`;
}

/** `1/4 below rail top`; `level` is kept for pitch alone. */
function fromDatum(
  axis: 'x' | 'y' | 'z',
  length: string,
  datum: Datum | undefined,
  { scenario, look }: Telling,
): string {
  const called = datum === undefined ? 'the origin' : name(datum.name, look, 24);
  const size = length.replace('-', '');
  if (size === '0') return `${EVEN[axis]} ${called}`;
  return `${size} ${axisWords(axis, scenario)[length.startsWith('-') ? 1 : 0]} ${called}`;
}

/** A pitch in words: `3.1 deg tail-down`, `level`. */
export function pitchWords(pitch: number, none = 'level'): string {
  const angle = exactDegrees(Math.abs(pitch));
  if (Number(angle) === 0) return none;
  return `${angle} deg ${pitch > 0 ? 'tail-down' : 'nose-down'}`;
}

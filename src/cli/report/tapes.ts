/** The position restated as what a tape reads between the file's engine datums and chassis datums. */

import { pitchOnFloor } from '../../model/rake.js';
import { setFrom } from '../../model/errors/set-from.js';
import { carried, leans, stanceOf } from '../../model/stance.js';
import type { Seat } from '../../model/stance.js';
import { tape } from '../../model/text/tape.js';
import type { Datum } from '../../model/scenario.js';
import { name } from '../../words/text.js';
import { axisWords, EVEN, pitchWords } from '../../words/where.js';
import type { Telling } from '../../words/words.js';

/** Radians: a pitch within this is level. */
const LEVEL = 1e-9;

/**
 * One phrase a coordinate that an engine datum fixes, in vehicle axes, from the nearest chassis datum;
 * where that would only restate the position, from the nearest other. A plane given by x alone is
 * read where the crankshaft meets it, and a note says so; one given by z alone has no one height
 * once the engine is pitched or leans, so it is left out then; but it lies along the crankshaft, and what an
 * angle finder reads on it, on a level floor, is said once.
 */
export function tapeWords(position: Seat, telling: Telling): string[] {
  const { engine } = telling.scenario.datums;
  const said = engine.flatMap((datum) => readings(datum, position, telling));
  const isTilted = leans(position) || Math.abs(position.pitch) >= LEVEL;
  const needsNote = isTilted && engine.some(({ x, z }) => (x ?? 0) !== 0 && z === undefined);
  return [
    ...said,
    ...(needsNote ? ['read at the crank'] : []),
    ...padReading(position.pitch, telling),
  ];
}

/** `carb pad reads 0.1 deg tail-down`: the first engine datum that is a plane along the crankshaft. */
function padReading(pitch: number, telling: Telling): string[] {
  const { scenario, look } = telling;
  const pad = scenario.datums.engine.find(({ x, z }) => x === undefined && z !== undefined);
  if (pad === undefined || (Math.abs(pitch) < LEVEL && scenario.rake === 0)) return [];
  const floor = scenario.rake === 0 ? '' : ' on a level floor';
  const read = pitchWords(pitchOnFloor(pitch, scenario));
  return [`${name(pad.name, look, 32)} reads ${read}${floor}`];
}

function readings(datum: Datum, position: Seat, telling: Telling): string[] {
  const { x, y, z } = datum;
  const level = !leans(position) && Math.abs(position.pitch) < LEVEL;
  const at = carried(stanceOf(position), [x ?? 0, y ?? 0, z ?? 0]);
  const said: string[] = [];
  if (x !== undefined) said.push(reading(datum, 'x', at[0], telling));
  if (y !== undefined) said.push(reading(datum, 'y', at[1], telling));
  if (z !== undefined && (x !== undefined || level)) {
    said.push(reading(datum, 'z', at[2], telling));
  }
  return said;
}

function reading(engine: Datum, axis: 'x' | 'y' | 'z', at: number, telling: Telling): string {
  const { scenario, units, look } = telling;
  const given = setFrom(axis, 'chassis', scenario);
  const [datum = given] = scenario.datums.chassis
    .filter((other) => other[axis] !== undefined && (engine[axis] !== 0 || other !== given))
    .sort((a, b) => Math.abs(at - a[axis]!) - Math.abs(at - b[axis]!));
  const from = at - (datum?.[axis] ?? 0);
  const length = tape(Math.abs(from), units, { round: 'nearest' });
  const there = datum === undefined ? 'the origin' : name(datum.name, look, 24);
  const called = name(engine.name, look, 32);
  if (length === '0') return `${called} ${EVEN[axis]} ${there}`;
  return `${called} ${length} ${axisWords(axis, scenario)[from > 0 ? 0 : 1]} ${there}`;
}

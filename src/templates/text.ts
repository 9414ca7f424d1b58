/** A drawn part as lines of YAML, in the units of the file. */

import { AXES } from '../model/scenario.js';
import type { Axis } from '../model/scenario.js';
import type { Units } from '../model/text/tape.js';
import { tape } from '../model/text/tape.js';
import type { DrawnMotion, DrawnPart, DrawnSolid, Pair, Point, Station } from './drawing.js';

const MM_PER_INCH = 25.4;
/** A length this near to a 1/64 in or 1/2 mm is written as that; any other to 1/16 in or 1 mm. */
const ON_MARK = 1e-6;
const FINE: Readonly<Record<Units, number>> = { in: 1 / 64, mm: 0.5 };
const COARSE: Readonly<Record<Units, number>> = { in: 1 / 16, mm: 1 };

/** A length as the file says it: what was taped exactly, what a template makes of it to a mark. */
export function lengthText(inches: number, units: Units): string {
  const value = units === 'in' ? inches : inches * MM_PER_INCH;
  const fine = FINE[units];
  const onMark = Math.abs(value / fine - Math.round(value / fine)) * fine < ON_MARK;
  const step = onMark ? fine : COARSE[units];
  return tape(inches * MM_PER_INCH, units, { round: 'nearest', step });
}

export function pairText(pair: Pair, units: Units): string {
  return `[${lengthText(pair[0], units)}, ${lengthText(pair[1], units)}]`;
}

/** How coordinates are told: as numbers, or on the chassis as the tape found them. */
export interface Telling {
  readonly units: Units;
  readonly inTapeWords: boolean;
}

/** `key: value` lines of a part below its name, without their indent. */
export function partLines(part: DrawnPart, guess: boolean, telling: Telling): string[] {
  const { units } = telling;
  return [
    `kind: ${part.kind}`,
    ...(guess ? ['guess: true'] : []),
    ...(part.mirror === undefined ? [] : [`mirror: ${part.mirror}`]),
    ...solidLines(part.solids, telling),
    ...(part.sweep === undefined ? [] : [`sweep: ${motionText(part.sweep, units)}`]),
    ...(part.comesOut === undefined ? [] : [`comes out: ${motionText(part.comesOut, units)}`]),
  ];
}

function solidLines(solids: readonly DrawnSolid[], telling: Telling): string[] {
  const [first, ...more] = solids;
  if (more.length > 0) {
    return ['solids:', ...solids.map((solid) => `  - { ${solidText(solid, telling)} }`)];
  }
  if (!('rail' in first!)) return [solidText(first!, telling)];
  const stations = first.rail.stations.map((station) => stationText(station, telling));
  return ['rail:', '  stations:', ...stations.map((text) => `    - ${text}`)];
}

function solidText(solid: DrawnSolid, telling: Telling): string {
  const { units } = telling;
  const length = (inches: number) => lengthText(inches, units);
  if ('box' in solid) {
    const told = AXES.map((axis) => {
      const [from, to] = solid.box[axis];
      return `${axis}: [${placeText(from, axis, telling)}, ${placeText(to, axis, telling)}]`;
    });
    return `box: { ${told.join(', ')} }`;
  }
  if ('tube' in solid) {
    const { through, diameter } = solid.tube;
    const points = through.map((point) => pointText(point, telling)).join(', ');
    return `tube: { through: [${points}], diameter: ${length(diameter)} }`;
  }
  if ('panel' in solid) {
    const { corners, thick, behind } = solid.panel;
    const points = corners.map((corner) => pointText(corner, telling)).join(', ');
    return `panel: { corners: [${points}], thick: ${length(thick)}, behind: ${behind} }`;
  }
  if ('rail' in solid) {
    const stations = solid.rail.stations.map((station) => stationText(station, telling));
    return `rail: { stations: [${stations.join(', ')}] }`;
  }
  const { axis, from, to } = 'prism' in solid ? solid.prism : solid.cylinder;
  const along = `axis: ${axis}, from: ${length(from)}, to: ${length(to)}`;
  if ('prism' in solid) {
    const corners = solid.prism.profile.map((corner) => pairText(corner, units)).join(', ');
    return `prism: { ${along}, profile: [${corners}] }`;
  }
  const { center, diameter } = solid.cylinder;
  const across = `center: ${pairText(center, units)}, diameter: ${length(diameter)}`;
  return `cylinder: { ${along}, ${across} }`;
}

function stationText({ x, inside, outside, top, bottom }: Station, telling: Telling): string {
  const length = (inches: number) => lengthText(inches, telling.units);
  const across = `inside: ${length(inside)}, outside: ${length(outside)}`;
  const height = `top: ${length(top)}, bottom: ${placeText(bottom, 'z', telling)}`;
  return `{ x: ${placeText(x, 'x', telling)}, ${across}, ${height} }`;
}

/** `9 ahead of front axle`, `5 1/2 below rail top`; across the frame, and on a datum, a number. */
function placeText(inches: number, axis: Axis, { units, inTapeWords }: Telling): string {
  const number = lengthText(inches, units);
  if (!inTapeWords || axis === 'y' || number === '0') return number;
  const far = lengthText(Math.abs(inches), units);
  if (axis === 'x') return `${far} ${inches < 0 ? 'ahead of' : 'behind'} front axle`;
  return `${far} ${inches < 0 ? 'below' : 'above'} rail top`;
}

function motionText(motion: DrawnMotion, units: Units): string {
  const axes = AXES.flatMap((axis) => {
    const range = motion[axis];
    return range === undefined ? [] : [`${axis}: ${pairText(range, units)}`];
  });
  return `{ ${axes.join(', ')} }`;
}

function pointText(point: Point, telling: Telling): string {
  return `[${point.map((at, index) => placeText(at, AXES[index]!, telling)).join(', ')}]`;
}

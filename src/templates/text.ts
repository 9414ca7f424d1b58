/** A drawn part as lines of YAML, in the units of the file. */

import type { Units } from '../model/tape.js';
import { tape } from '../model/tape.js';
import type { DrawnMotion, DrawnPart, DrawnSolid, Pair, Point } from './drawing.js';

const MM_PER_INCH = 25.4;
/** A length this near to a 1/64 in or 1/2 mm is written as that; any other to 1/16 in or 1 mm. */
const ON_MARK = 1e-6;
const FINE: Readonly<Record<Units, number>> = { in: 1 / 64, mm: 0.5 };
const COARSE: Readonly<Record<Units, number>> = { in: 1 / 16, mm: 1 };

/** Whether the reader of scenarios knows `guess: true`. */
const GUESS_IS_READ: boolean = false;

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

/** `key: value` lines of a part below its name, without their indent. */
export function partLines(part: DrawnPart, guess: boolean, units: Units): string[] {
  const [first, ...more] = part.solids;
  return [
    `kind: ${part.kind}`,
    ...(guess && GUESS_IS_READ ? ['guess: true'] : []),
    ...(part.mirror === undefined ? [] : [`mirror: ${part.mirror}`]),
    ...(more.length === 0
      ? [solidText(first!, units)]
      : ['solids:', ...part.solids.map((solid) => `  - { ${solidText(solid, units)} }`)]),
    ...(part.sweep === undefined ? [] : [`sweep: ${motionText(part.sweep, units)}`]),
    ...(part.comesOut === undefined ? [] : [`comes out: ${motionText(part.comesOut, units)}`]),
  ];
}

function solidText(solid: DrawnSolid, units: Units): string {
  const length = (inches: number) => lengthText(inches, units);
  if ('box' in solid) return `box: ${motionText(solid.box, units)}`;
  if ('tube' in solid) {
    const { through, diameter } = solid.tube;
    const points = through.map((point) => pointText(point, units)).join(', ');
    return `tube: { through: [${points}], diameter: ${length(diameter)} }`;
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

function motionText(motion: DrawnMotion, units: Units): string {
  const axes = (['x', 'y', 'z'] as const).flatMap((axis) => {
    const range = motion[axis];
    return range === undefined ? [] : [`${axis}: ${pairText(range, units)}`];
  });
  return `{ ${axes.join(', ')} }`;
}

function pointText(point: Point, units: Units): string {
  return `[${point.map((coordinate) => lengthText(coordinate, units)).join(', ')}]`;
}

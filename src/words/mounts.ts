/** Mounts in the words of the trade: their pieces, what of them cannot be made, what is in their way. */

import type { MountFault } from '../geometry/mounts/faults.js';
import type { Pattern } from '../geometry/mounts/patterns.js';
import type { TubeCut } from '../geometry/mounts/tube.js';
import type { Vec3 } from '../model/scenario.js';
import { degrees, exactTape, tape } from '../model/text/tape.js';
import type { Units } from '../model/text/tape.js';
import type { MountGap, PieceOf } from '../solver/fitup/mount-gaps.js';
import { name } from './text.js';
import type { Look } from './text.js';
import { countOf, sides, unit } from './words.js';
import type { Telling } from './words.js';

/** Stands once beside patterns and cut lists. */
export const MOUNT_CAUTION =
  'Never work under a hanging engine. Welds: local codes and a qualified person.';

const END_WORDS = { base: 'base plate', upper: 'upper plate' } as const;

/** `left tube`, `left gusset 2`. */
export function pieceWords({ mount, piece, number }: PieceOf, look: Look): string {
  const end = /^(\w+) socket$/.exec(piece)?.[1];
  if (end !== undefined) return `socket on ${name(mount, look, 24)} ${end} bolt ${number ?? 0}`;
  const which = number === undefined ? '' : ` ${number}`;
  return `${name(mount, look, 24)} ${piece}${which}`;
}

/** `left tube - starter`, with what of the two it is that counts. */
export function mountGapWords({ piece, other, comingOut }: MountGap, look: Look): string {
  const what = other.of === 'mount' ? pieceWords(other, look) : name(other.name, look, 32);
  return `${pieceWords(piece, look)} - ${what}${comingOut ? ', coming out' : ''}`;
}

/** `1 1/16 back, 7 1/2 to passenger, 5 7/8 up`. */
export function vectorWords(vector: Vec3, { units, scenario }: Telling): string {
  const [right, left] = sides(scenario);
  const ways = [
    ['back', 'forward'],
    [`to ${right}`, `to ${left}`],
    ['up', 'down'],
  ] as const;
  const said = vector.flatMap((mm, k) => {
    const size = tape(Math.abs(mm), units, { round: 'nearest' });
    return size === '0' ? [] : [`${size} ${ways[k]![mm > 0 ? 0 : 1]}`];
  });
  return said.length === 0 ? 'nowhere' : said.join(', ');
}

/** `43.6, +1 11/16`: off square, and by how much its long side is longer. */
export function cutWords({ mitre, longer }: TubeCut, units: Units): string {
  return `${degrees(mitre)}, +${tape(longer, units, { round: 'nearest' })}`;
}

/** `8.1 back`: how far from straight across. */
export function leanWords(radians: number): string {
  const words = degrees(Math.abs(radians));
  return Number(words) === 0 ? words : `${words} ${radians > 0 ? 'back' : 'forward'}`;
}

/** What is wrong with a mount, in one clause. */
export function faultWords(fault: MountFault, units: Units): string {
  const size = (mm: number, round: 'up' | 'down'): string =>
    tape(mm, units, { round }) + unit(units);
  switch (fault.of) {
    case 'boss below pad':
      return 'the boss lies behind the face of the pad: the pad faces the other way';
    case 'pad behind boss':
      return 'the pad lies behind the face of the boss, or inside the block';
    case 'too sharp':
      return `tube ${degrees(fault.mitre, 'up')} deg off square at the ${END_WORDS[fault.end]}, 60 at most`;
    case 'no tube left':
      return 'the two cuts of the tube cross: the plates are too near or too tilted';
    case 'tube off plate':
      return `the tube's foot runs ${size(fault.by, 'up')} off the ${END_WORDS[fault.end]}`;
    case 'tube over hole':
      return `the tube stands over hole ${fault.hole} of the ${END_WORDS[fault.end]}`;
    case 'gusset off plate':
      return `gusset ${fault.number} runs off the ${END_WORDS[fault.end]}`;
    case 'gusset over hole':
      return `gusset ${fault.number} stands over hole ${fault.hole} of the ${END_WORDS[fault.end]}`;
    case 'gussets too long':
      return `the gussets need ${size(fault.needs, 'up')} of tube, which has ${size(fault.has, 'down')} there`;
  }
}

/** What a pattern is of: `left base plate`, `left gussets 1 and 3, base plate`. */
export function patternWords({ piece, count, at }: Pattern, mount: string): string {
  if (!at) return `${mount} ${piece}`;
  const which = at.numbers.join(', ');
  return `${mount} ${count === 1 ? 'gusset' : 'gussets'} ${which}, ${END_WORDS[at.end]}`;
}

/** What it is cut from: `2 off, 1/4 in plate`. */
export function materialWords({ count, thick, round }: Pattern, units: Units): string {
  if (thick === undefined) {
    return `Paper, round ${exactTape(round ?? 0, units)} ${units} tube, printed side out`;
  }
  return `${countOf(count, 'off', 'off')}, ${exactTape(thick, units)} ${units} plate`;
}

/** What else a maker must know: the holes, a gusset's edges, where the tube's clock begins. */
export function detailWords({ piece, holes, legs, zero }: Pattern, units: Units): string[] {
  const size = (mm: number): string => `${exactTape(mm, units)}${unit(units)}`;
  const said: string[] = [];
  const drilled = [...new Set(holes.map(({ diameter }) => exactTape(diameter, units)))];
  if (drilled.length > 0) said.push(`Holes: ${drilled.join(', ')} ${units}`);
  if (legs) {
    const slant = tape(legs.slant, units, {
      round: 'nearest',
      step: units === 'in' ? 1 / 32 : 0.5,
    });
    said.push(`Corner ${degrees(legs.angle)} deg: ${size(legs.onPlate)} on the plate (below)`);
    said.push(`${size(legs.onTube)} on the tube; third edge ${slant}${unit(units)}`);
  }
  if (zero && piece === 'tube wrap') said.push(`0 along the ${zero} of the tube; edges meet there`);
  else if (zero) said.push(`0 is the mark 0 of the tube's wrap`);
  return said;
}

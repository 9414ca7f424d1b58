/** The mock-up in words: turns, moves, motions that nothing holds, and small steps of the engine. */

import type { FreeMotion } from '../geometry/adjusters/freedom.js';
import type { Adjuster } from '../model/fitup/mockup.js';
import { inUnits, tape } from '../model/text/tape.js';
import type { Units } from '../model/text/tape.js';
import type { StanceMotion } from '../model/stance.js';
import { TURN_PARTS } from '../solver/fitup/set-up.js';
import type { SetUp, StanceStep, TurnedMove } from '../solver/fitup/set-up.js';
import { columns, fit, name } from './text.js';
import type { Look } from './text.js';
import { sides } from './words.js';
import type { Telling } from './words.js';

/** Beside whatever has someone turn an adjuster. */
export const HANGING_CAUTION =
  'Keep the hoist on, stay out from under. Have mounts reviewed; local codes rule.';

/** `9 1/2 turns longer`, `1/8 turn shorter`, `leave it`. */
export function turnWords(turns: number): string {
  if (turns === 0) return 'leave it';
  const size = Math.abs(turns);
  return `${eighths(size)} turn${size > 1 ? 's' : ''} ${turns > 0 ? 'longer' : 'shorter'}`;
}

/** The length of an adjuster to a fine mark, which is a fraction of a turn. */
export function adjusterTape(mm: number, units: Units): string {
  const step = units === 'in' ? 1 / 64 : 0.5;
  return tape(mm, units, { round: 'nearest', step });
}

/** `9 1/2`, of a number of eighths. */
export function eighths(turns: number): string {
  const parts = Math.round(Math.abs(turns) * TURN_PARTS);
  const [whole, rest] = [Math.floor(parts / TURN_PARTS), parts % TURN_PARTS];
  if (rest === 0) return String(whole);
  let [over, under] = [rest, TURN_PARTS];
  while (over % 2 === 0) [over, under] = [over / 2, under / 2];
  return `${whole === 0 ? '' : `${whole} `}${over}/${under}`;
}

/** `left front 9 1/2 longer`, and what must go with it, a little each in turn. */
export function moveWords({ turned }: TurnedMove, { adjusters }: SetUp, { look }: Telling): string {
  const each = turned.flatMap(({ adjuster, turns }) => {
    if (turns === 0) return [];
    const called = adjusterName(adjusters[adjuster]!.adjuster, 24, look);
    return [`${called} ${eighths(turns)} ${turns > 0 ? 'longer' : 'shorter'}`];
  });
  return each.length === 0 ? 'a hair, to fit' : each.join(' with ');
}

/** An adjuster's name, cut in the middle where it is long: names of a mock-up end alike or begin alike. */
export function adjusterName({ name: called }: Pick<Adjuster, 'name'>, most: number, look: Look) {
  const whole = name(called, look, 200);
  if (columns(whole) <= most) return whole;
  const letters = [...whole];
  const half = Math.floor((most - 3) / 2);
  return fit(`${letters.slice(0, half).join('')}...${letters.slice(-half).join('')}`, most, look);
}

/** How a motion that nothing holds is held meanwhile. */
const HELD_BY: Readonly<Record<StanceMotion, string>> = {
  setback: 'a bar or strap fore and aft',
  offset: 'a bar side to side',
  height: 'the hoist, then a block under the pan rail',
  pitch: 'a block under the tailshaft',
  roll: 'a block under each side',
  yaw: 'a bar side to side at the tailshaft',
};

/** A share of a motion that another has to be of to be named with it. */
const TELLING = 0.1;

/** `setback (a bar or strap fore and aft)`, with what the motion brings. */
export function freeWords({ motion, brings }: FreeMotion): string {
  const along = brings.filter(({ by }) => Math.abs(by) >= TELLING).map((one) => one.motion);
  const more = along.length === 0 ? '' : ` together with ${along.join(' and ')}`;
  return `${motion}${more} (${HELD_BY[motion]})`;
}

/** Which way `longer` is, for the hands that the adjusters have. */
export function handWords(adjusters: readonly Pick<Adjuster, 'hand'>[]): string {
  const has = (hand: Adjuster['hand']) => adjusters.some((one) => one.hand === hand);
  const said = [
    ...(has('right') ? ['unscrew a right-hand rod anticlockwise'] : []),
    ...(has('left') ? ['unscrew a left-hand rod clockwise'] : []),
    ...(has('turnbuckle') ? ['turn a turnbuckle anticlockwise, seen from its left-hand end'] : []),
  ];
  return `longer: ${said.join('; ')}`;
}

/** Small steps of the motions asked for: thousandths of an inch or hundredths of a millimetre, and degrees. */
export function stepCells(
  step: StanceStep,
  motions: readonly StanceMotion[],
  units: Units,
): readonly string[] {
  return motions.map((motion) => {
    const isTurn = motion === 'pitch' || motion === 'roll' || motion === 'yaw';
    const value = isTurn ? (step[motion] * 180) / Math.PI : inUnits(step[motion], units);
    const places = isTurn || units === 'mm' ? 2 : 3;
    const text = value.toFixed(places);
    return Number(text) === 0 ? '0' : value > 0 ? `+${text}` : text;
  });
}

/** What a plus is, for the four of a position. */
export function plusWords({ scenario }: Pick<Telling, 'scenario'>): string {
  return `+ is back, to ${sides(scenario)[0]}, up, tail-down`;
}

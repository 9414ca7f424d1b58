/**
 * Turning and taping come to what they came to, to a thousandth of a millimetre: any change is a change of the
 * estimate, of what is stated of it, or of the search for an order. Where one is meant, look whether it is for the
 * better, and write the new numbers down with `npx vitest run tests/solver/fitup/same-answers.test.ts -u`.
 */

import { expect, it } from 'vitest';
import { lengthOf } from '../../../src/geometry/adjusters/links.js';
import type { MeasuredReading } from '../../../src/model/fitup/measured.js';
import { STANCE_MOTIONS, stanceFrom } from '../../../src/model/stance.js';
import type { Stance } from '../../../src/model/stance.js';
import { asBuilt } from '../../../src/solver/fitup/as-built.js';
import { readingsToTape } from '../../../src/solver/fitup/to-tape.js';
import { setUp } from '../../../src/solver/fitup/set-up.js';
import { between, seeded } from '../../geometry/random.js';
import type { Random } from '../../geometry/random.js';
import { hung, LEVEL, readAt, readings } from '../../support/hung.js';

/** Millimetres and thousandths of a radian. */
function motions(of: Readonly<Record<keyof Stance, number>>): string {
  return STANCE_MOTIONS.map((name, k) => fixed((k < 3 ? 1 : 1000) * of[name])).join(' ');
}

function fixed(value: number): string {
  return value.toFixed(3).replace(/^-(?=[0.]+$)/, '');
}

function drawn(random: Random, mm: number, radians: number): Stance {
  return stanceFrom([0, 1, 2, 3, 4, 5].map((k) => between(random, -1, 1) * (k < 3 ? mm : radians)));
}

function turned(from: Stance, to: Stance): string[] {
  const adjusters = hung.mockup!.adjusters.map((one) => ({ ...one, now: lengthOf(one, from) }));
  const { now, touching, spare } = setUp(hung, { adjusters, without: [], off: [] }, [], to);
  const { stance, lands, order, impossible } = now!;
  return [
    `${touching.length} touch, ${spare} spare, ${impossible.length} impossible`,
    `now ${motions(stance)}`,
    `lands ${motions(lands)}`,
    `${order.found ? 'found' : 'none'} after ${order.looked}`,
    ...order.moves.map((move) =>
      move.turned.map(({ adjuster, turns }) => `${adjuster} by ${turns}`).join(', '),
    ),
  ];
}

/** Read at a stance with noise, some of the readings misread. */
function taped(at: Stance, random: Random, which: readonly MeasuredReading[], off: number) {
  const noise = which.map(() => between(random, -1, 1));
  const read = readAt(at, noise, which).map(({ value }, k) => ({
    ...which[k]!,
    value: value + (k === 3 ? off : 0),
  }));
  const { verdict, estimate, within, unchecked, built, next } = asBuilt(hung, [], LEVEL, read);
  return [
    verdict,
    `at ${motions(estimate.stance)}`,
    `within ${motions(within)}`,
    `unchecked ${unchecked.join(' ')}; doubtful ${estimate.doubtful.join(' ')}; at odds ${estimate.atOdds.join(' ')}`,
    ...estimate.rivals.map((rival) => `or ${motions(rival)}`),
    ...(built?.rules ?? []).map(
      ({ reading, within: give }) =>
        `${reading.between.join(' - ')} ${fixed(reading.margin)} less ${fixed(give)}`,
    ),
    `next ${next.map(({ name }) => name).join('; ')}`,
  ];
}

/** What is asked to be taped where it is meant to be, and what each is to read. */
function wanted(at: Stance): string[] {
  return readingsToTape(hung, [], at).map(
    ({ wanted: { of, name }, expected }) =>
      `${name} ${fixed(of === 'angle' ? 1000 * expected : expected)}`,
  );
}

function record(lines: readonly (readonly string[])[]): string {
  return lines.map((of, k) => `${[`case ${k + 1}`, ...of].join('\n  ')}\n`).join('');
}

it('asks for readings', async () => {
  const random = seeded(5);
  const cases = [LEVEL, drawn(random, 20, 0.02), drawn(random, 20, 0.02)].map(wanted);
  await expect(record(cases)).toMatchFileSnapshot('same-answers/wanted.txt');
});

it('turns', async () => {
  const random = seeded(3);
  const cases = Array.from({ length: 12 }, (_, k) => {
    const wide = k % 3 === 0 ? 60 : 20;
    return turned(drawn(random, wide, wide / 1500), k % 2 === 0 ? LEVEL : drawn(random, 20, 0.02));
  });
  await expect(record(cases)).toMatchFileSnapshot('same-answers/turned.txt');
});

it('tapes', async () => {
  const random = seeded(4);
  const cases = Array.from({ length: 12 }, (_, k) => {
    const which = k % 3 === 2 ? readings!.slice(0, 9) : readings!;
    return taped(drawn(random, 25, 0.03), random, which, k % 4 === 3 ? 40 : 0);
  });
  await expect(record(cases)).toMatchFileSnapshot('same-answers/taped.txt');
});

/** Setting the mock-up in words: what stands in the way, how near the engine comes, what goes together. */

import { maxOf } from '../model/extremes.js';
import { exactDegrees, tape } from '../model/text/tape.js';
import { stanceVector } from '../model/stance.js';
import * as trig from '../model/trig.js';
import type { Hindrance } from '../solver/fitup/moves.js';
import type { SetUp } from '../solver/fitup/set-up.js';
import { adjusterName } from './fitup.js';
import { name } from './text.js';
import { countOf, unit } from './words.js';
import type { Said, Telling } from './words.js';

/** What stands in the way of setting the mock-up, the gravest first. */
export type MockupVerdict =
  | 'out of range'
  | 'touches'
  | 'lengths only'
  | 'lengths disagree'
  | 'cannot be so'
  | 'open'
  | 'no order found';

export function mockupVerdict({ touching, adjusters, now }: SetUp): MockupVerdict {
  if (adjusters.some(({ inRange }) => !inRange)) return 'out of range';
  if (touching.length > 0) return 'touches';
  if (!now) return 'lengths only';
  if (now.off !== undefined) return 'lengths disagree';
  if (now.impossible.length > 0) return 'cannot be so';
  return now.order.found ? 'open' : 'no order found';
}

/** The first line: the verdict and the worst of what is in the way. */
export function mockupHeadline(found: SetUp, telling: Telling): Said {
  const { units } = telling;
  const { touching, adjusters, now } = found;
  switch (mockupVerdict(found)) {
    case 'out of range':
      return { label: 'OUT OF RANGE.', text: outOfRange(found, telling), tone: 'bad' };
    case 'touches': {
      const more = touching.length > 1 ? `, and ${countOf(touching.length - 1, 'other pair')}` : '';
      const text = `Where it is to sit: ${pairOf(touching[0]!, telling)}${more}.`;
      return { label: 'TOUCHES.', text, tone: 'bad' };
    }
    case 'lengths only': {
      const text = `${countOf(adjusters.length, 'adjuster')}, in range; lengths now are not in the file.`;
      return { label: 'LENGTHS.', text, tone: 'good' };
    }
    case 'lengths disagree': {
      const by = tape(now!.off!, units, { round: 'up' }) + unit(units);
      const text = `The lengths now do not agree with one another, by ${by}.`;
      return { label: 'TAPE THEM AGAIN.', text, tone: 'open' };
    }
    case 'cannot be so': {
      const text = `With the lengths now ${pairOf(now!.impossible[0]!, telling)} would overlap.`;
      return { label: 'TAPE THEM AGAIN.', text, tone: 'open' };
    }
    case 'open':
      return openWords(found, telling);
    case 'no order found': {
      const text = `${hindered(now!.order.hindrance, found, telling)}.`;
      return { label: 'NO ORDER FOUND.', text, tone: 'open' };
    }
  }
}

/** What to do where the first line is no answer; nothing where it is. */
export function mockupAdvice(found: SetUp): string {
  switch (mockupVerdict(found)) {
    case 'lengths disagree':
      return 'from point to point, and where the points are; turns below are from the lengths given';
    case 'cannot be so':
      return 'or say what is not there yet: without, off, --option';
    case 'no order found':
      return 'hoist it clear, or move it in part by hand';
    default:
      return '';
  }
}

function pairOf(between: readonly [string, string], { look }: Telling): string {
  return between.map((part) => name(part, look, 24)).join(' - ');
}

function openWords(found: SetUp, telling: Telling): Said {
  const { units } = telling;
  const { moves } = found.now!.order;
  if (moves.length === 0) {
    return { label: 'SET.', text: 'Every adjuster is as long as it is to be.', tone: 'good' };
  }
  const leasts = moves.flatMap(({ least }) => (least ? [least] : []));
  const least = leasts.reduce((a, b) => (b.gap < a.gap ? b : a), leasts[0]!);
  const size = (mm: number) => tape(mm, units, { round: 'down' }) + unit(units);
  const gap =
    least === undefined
      ? ''
      : least.gap < 0
        ? `; ${pairOf(least.between, telling)} touches at first, no worse after`
        : `; least gap ${size(least.gap)}, ${pairOf(least.between, telling)}`;
  return {
    label: 'OPEN ALL THE WAY.',
    text: `${countOf(moves.length, 'move')}${gap}.`,
    tone: 'good',
  };
}

function outOfRange({ adjusters }: SetUp, { units, look }: Telling): string {
  const [first, ...more] = adjusters.filter(({ inRange }) => !inRange);
  const { range } = first!.adjuster;
  const isLong = first!.length > range.max;
  const end = isLong ? range.max : range.min;
  const size = (mm: number, round: 'up' | 'down') => tape(mm, units, { round }) + unit(units);
  const may = `${size(end, isLong ? 'down' : 'up')} at the ${isLong ? 'most' : 'least'}`;
  const must = size(first!.length, isLong ? 'up' : 'down');
  const rest = more.length === 0 ? '' : `, and ${countOf(more.length, 'other')}`;
  return `${adjusterName(first!.adjuster, 20, look)} must be ${must}, is ${may}${rest}.`;
}

function hindered(
  hindrance: Hindrance | undefined,
  { adjusters }: SetUp,
  telling: Telling,
): string {
  if (hindrance?.of === 'gap') return `${pairOf(hindrance.between, telling)} closes on the way`;
  if (hindrance?.of === 'range') {
    const { adjuster } = adjusters[hindrance.adjuster]!;
    return `${adjusterName(adjuster, 24, telling.look)} comes to its end on the way`;
  }
  if (hindrance?.of === 'time') return 'There was no time to look for one';
  return 'Turned one by one they bind, or snap over';
}

/** How near the engine comes, with turns set to an eighth. */
export function landsWords({ now, target, free }: SetUp, { units }: Telling): string {
  const [a, b] = [stanceVector(now!.lands), stanceVector(target)];
  const apart = a.map((value, k) => value - b[k]!);
  const way = trig.hypot(apart[0]!, apart[1]!, apart[2]!);
  const turn = maxOf([...apart.subarray(3)].map(Math.abs));
  const held =
    free.length === 0
      ? ''
      : `, with ${free.map(({ motion }) => motion).join(', ')} held where they are to be`;
  const step = units === 'in' ? 1 / 64 : 0.5;
  const near = tape(way, units, { round: 'up', step }) + unit(units);
  return `turned to the eighth, within ${near} and ${exactDegrees(Math.ceil((turn * 1800) / Math.PI) * (Math.PI / 1800))} deg of it${held}`;
}

export function spareWords({ spare }: SetUp): string {
  if (spare === 0) return '';
  return `${countOf(spare, 'adjuster')} more than can be set alone: turn those of one move a little each in turn`;
}

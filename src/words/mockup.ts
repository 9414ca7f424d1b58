/** Setting the mock-up in words: what stands in the way, how near the engine comes, what goes together. */

import { exactDegrees, tape } from '../model/tape.js';
import { stanceVector } from '../model/stance.js';
import type { Hindrance } from '../solver/fitup/moves.js';
import type { SetUp } from '../solver/fitup/set-up.js';
import { name } from './text.js';
import { countOf, unit } from './words.js';
import type { Said, Telling } from './words.js';

/** What stands in the way of setting the mock-up, the gravest first. */
export type MockupVerdict = 'touches' | 'out of range' | 'open' | 'no order found' | 'lengths only';

export function mockupVerdict({ touching, adjusters, now }: SetUp): MockupVerdict {
  if (adjusters.some(({ inRange }) => !inRange)) return 'out of range';
  if (touching.length > 0) return 'touches';
  if (!now) return 'lengths only';
  return now.order.found ? 'open' : 'no order found';
}

/** The first line: the verdict and the worst of what is in the way. */
export function mockupHeadline(found: SetUp, telling: Telling): Said {
  const { look, units } = telling;
  const pair = (between: readonly [string, string]) =>
    between.map((part) => name(part, look, 24)).join(' - ');
  const size = (mm: number) => tape(mm, units, { round: 'down' }) + unit(units);
  const { touching, adjusters, now } = found;
  switch (mockupVerdict(found)) {
    case 'out of range': {
      const [first] = adjusters.filter(({ inRange }) => !inRange);
      const { range, name: called } = first!.adjuster;
      const isLong = first!.length > range.max;
      const may = isLong
        ? `${size(range.max)} at the most`
        : `${tape(range.min, units, { round: 'up' })}${unit(units)} at the least`;
      const must = tape(first!.length, units, { round: isLong ? 'up' : 'down' }) + unit(units);
      const more = adjusters.filter(({ inRange }) => !inRange).length - 1;
      const rest = more === 0 ? '' : `, and ${countOf(more, 'other')}`;
      return {
        label: 'OUT OF RANGE.',
        text: `${name(called, look, 24)} must be ${must}, is ${may}${rest}.`,
        tone: 'bad',
      };
    }
    case 'touches': {
      const more = touching.length > 1 ? `, and ${countOf(touching.length - 1, 'other pair')}` : '';
      return {
        label: 'TOUCHES.',
        text: `Where it is to sit: ${pair(touching[0]!)}${more}.`,
        tone: 'bad',
      };
    }
    case 'lengths only':
      return {
        label: 'LENGTHS.',
        text: `${countOf(adjusters.length, 'adjuster')}, in range. How long each is now is not in the file.`,
        tone: 'good',
      };
    case 'open': {
      const { moves } = now!.order;
      if (moves.length === 0) {
        return { label: 'SET.', text: 'Every adjuster is as long as it is to be.', tone: 'good' };
      }
      const leasts = moves.flatMap(({ least }) => (least ? [least] : []));
      const least = leasts.reduce((a, b) => (b.gap < a.gap ? b : a), leasts[0]!);
      const gap =
        least === undefined
          ? ''
          : least.gap < 0
            ? `; ${pair(least.between)} touches at first and gets no worse`
            : `; least gap ${size(least.gap)}, ${pair(least.between)}`;
      return {
        label: 'OPEN ALL THE WAY.',
        text: `${countOf(moves.length, 'move')}${gap}.`,
        tone: 'good',
      };
    }
    case 'no order found':
      return {
        label: 'NO ORDER FOUND.',
        text: `${hindered(now!.order.hindrance, found, telling)}; hoist it clear, or move it in part by hand.`,
        tone: 'open',
      };
  }
}

function hindered(
  hindrance: Hindrance | undefined,
  { adjusters }: SetUp,
  { look }: Telling,
): string {
  if (hindrance?.of === 'gap') {
    return `${hindrance.between.map((part) => name(part, look, 24)).join(' - ')} closes on the way`;
  }
  if (hindrance?.of === 'range') {
    return `${name(adjusters[hindrance.adjuster]!.adjuster.name, look, 24)} comes to its end on the way`;
  }
  return 'turned one by one they bind';
}

/** How near the engine comes, with turns set to an eighth. */
export function landsWords({ now, target }: SetUp, { units }: Telling): string {
  const [a, b] = [stanceVector(now!.lands), stanceVector(target)];
  const apart = a.map((value, k) => value - b[k]!);
  const way = Math.hypot(apart[0]!, apart[1]!, apart[2]!);
  const turn = Math.max(...[...apart.subarray(3)].map(Math.abs));
  const step = units === 'in' ? 1 / 64 : 0.5;
  const near = tape(way, units, { round: 'up', step }) + unit(units);
  return `turned to the eighth, within ${near} and ${exactDegrees(Math.ceil((turn * 1800) / Math.PI) * (Math.PI / 1800))} deg of it`;
}

export function contradiction(off: number, { units }: Telling): string {
  const by = tape(off, units, { round: 'up' }) + unit(units);
  return `those given as now do not agree, by ${by}: tape them again`;
}

export function spareWords({ spare }: SetUp, _telling: Telling): string {
  if (spare === 0) return '';
  return `${countOf(spare, 'adjuster')} more than can be set alone: turn those named together`;
}

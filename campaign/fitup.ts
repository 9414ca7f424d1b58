/** Mock-up and as-built check as inverses of each other, at stances of a bay with noise on every tape. */

import fc from 'fast-check';
import { lengthOf, scaledStance, stanceOfLengths } from '../src/geometry/adjusters/links.js';
import { COVERAGE, estimate } from '../src/solver/fitup/estimate.js';
import { turnsOf } from '../src/solver/fitup/set-up.js';
import { hung, LEVEL, noises, readAt, stances } from '../tests/support/hung.js';
import { Notes } from './subject.js';
import type { Counts, Subject } from './subject.js';

const { adjusters } = hung.mockup!;
const MOTIONS = ['setback', 'offset', 'height', 'pitch', 'roll', 'yaw'] as const;
const drawn = fc.tuple(stances, stances, noises);

/** Millimetres: turning by what was estimated may end so far off at the very most. */
const FARTHEST = 20;

export const FITUP: Subject = {
  claim:
    'an engine taped with noise lies within what is stated of it 95 times in 100, and turning the links by it ends where it was meant',
  runs: 20_000,
  shortRuns: 250,
  seconds: 10,
  memory: 512,
  open: async () => fitupCase,
  judge: judged,
};

function fitupCase({ seed }: { readonly seed: number }) {
  const notes = new Notes();
  const [[stance, meant, noise]] = fc.sample(drawn, { numRuns: 1, seed }) as [
    [typeof LEVEL, typeof LEVEL, number[]],
  ];
  const found = estimate(readAt(stance, noise), LEVEL);
  if (found.doubtful.length + found.atOdds.length > 0) notes.count('doubted');
  const [a, b] = [scaledStance(found.stance), scaledStance(stance)];
  found.covariance.forEach((row, k) => {
    const off = Math.abs(a[k]! - b[k]!) / Math.sqrt(row[k]!);
    notes.hold(Number.isFinite(off), `${MOTIONS[k]!} is off by ${off} deviations`);
    if (off <= COVERAGE) notes.count(`${MOTIONS[k]!} within`);
    if (off > 5) notes.count('beyond five deviations');
  });
  const turns = adjusters.map((one) =>
    turnsOf(lengthOf(one, meant) - lengthOf(one, found.stance), one.lead),
  );
  const after = adjusters.map((one, k) => lengthOf(one, stance) + turns[k]! * one.lead);
  const reached = scaledStance(stanceOfLengths(adjusters, after, stance, []).stance);
  const aim = scaledStance(meant);
  const off = Math.hypot(...reached.map((value, k) => value - aim[k]!));
  notes.hold(off <= FARTHEST, `turned where it was meant, it ends ${off} mm off`);
  if (off <= 3) notes.count('within 3 mm after turning');
  return notes.result({
    ending: 'json',
    text: JSON.stringify({ stance, meant, noise, found: found.stance, off }, null, 1),
  });
}

/** Shares are judged with what chance may take from so few cases: three deviations of a count. */
function judged(counts: Counts, cases: number): string[] {
  const chance = (share: number, tries: number) => 3 * Math.sqrt((share * (1 - share)) / tries);
  const share = (what: string) => (counts[what] ?? 0) / cases;
  const faults = MOTIONS.flatMap((motion) => {
    const within = share(`${motion} within`);
    if (within > 0.945 - chance(0.945, cases)) return [];
    return [`${motion} lies within what is stated ${(100 * within).toFixed(1)} times in 100`];
  });
  const all = MOTIONS.reduce((sum, motion) => sum + share(`${motion} within`), 0) / 6;
  if (all > 0.985 + chance(0.985, cases)) faults.push('what is stated is wider than need be');
  if (share('doubted') > 0.01 + chance(0.01, cases)) faults.push('good readings are doubted often');
  if (share('beyond five deviations') > 0.002 + chance(0.002, cases)) {
    faults.push('too many lie beyond five deviations');
  }
  return faults;
}

/** One campaign from where it was left to its end: cases in order, progress now and then, what failed. */

import { added, begun, keep, load, save } from './progress.js';
import type { Progress } from './progress.js';
import type { Result, Subject } from './subject.js';
import { Trier } from './thread.js';

export interface Plan {
  readonly name: string;
  readonly subject: Subject;
  readonly seed: number;
  /** The last case. */
  readonly runs: number;
  /** The first case; where the file of progress says unless given. */
  readonly from?: number | undefined;
  /** Begins at the first case and leaves no file of progress. */
  readonly short: boolean;
  /** Begins at the first case, whatever the file says. */
  readonly fresh: boolean;
  readonly stopped: () => boolean;
}

/** Milliseconds between lines of progress, and between files. */
const TOLD_EVERY = 20_000;
const SAVED_EVERY = 3_000;

/** Runs a campaign; returns how many cases failed, and how many sentences speak against all together. */
export async function runCampaign(plan: Plan): Promise<{ failed: number; next: number }> {
  const { name, subject, seed, runs } = plan;
  // Who asks for single cases by number asks nothing of the campaign as a whole.
  const whole = plan.from === undefined;
  const kept = whole && !plan.short;
  let progress = startOf(plan);
  console.log(`\n${name}: ${subject.claim}`);
  console.log(
    `  seed ${seed}, cases ${progress.done + 1} to ${runs}` +
      (whole && progress.done > 0 ? `; ${progress.done} done before (--fresh forgets them)` : ''),
  );
  for (const { number, faults } of progress.failures) tell(plan, number, faults);
  const trier = new Trier({ name, seed }, subject);
  const start = performance.now();
  const first = progress.done;
  let [told, saved] = [start, start];
  while (progress.done < runs && !plan.stopped()) {
    const number = progress.done + 1;
    const result = await trier.attempt(number);
    // A case that a stop cut short is tried again when the campaign goes on.
    if (plan.stopped() && result.faults.length > 0) break;
    progress = after(plan, progress, number, result);
    const now = performance.now();
    if (now - told > TOLD_EVERY) {
      told = now;
      const rate = (progress.done - first) / ((now - start) / 1000);
      const failed = progress.failures.length;
      console.log(`  case ${number} of ${runs}, ${rate.toFixed(1)} a second, ${failed} failed`);
    }
    if (kept && now - saved > SAVED_EVERY) {
      saved = now;
      save(progress);
    }
  }
  await trier.close();
  if (kept) save(progress);
  const seconds = ((performance.now() - start) / 1000).toFixed(1);
  const failed = progress.failures.length;
  console.log(`  ${progress.done - first} cases in ${seconds} s, ${failed} failed`);
  const counts = Object.entries(progress.counts).sort(([a], [b]) => (a < b ? -1 : 1));
  if (counts.length > 0) console.log(`  ${counts.map(([w, n]) => `${w} ${figure(n)}`).join(', ')}`);
  const against =
    whole && progress.done >= runs ? (subject.judge?.(progress.counts, progress.done) ?? []) : [];
  for (const sentence of against) console.log(`  AGAINST THE WHOLE  ${sentence}`);
  return { failed: failed + against.length, next: progress.done + 1 };
}

function startOf({ name, seed, from, short, fresh }: Plan): Progress {
  if (from !== undefined) return begun(name, seed, from - 1);
  return short || fresh ? begun(name, seed) : load(name, seed);
}

function after(plan: Plan, before: Progress, number: number, result: Result): Progress {
  const counts = added(before.counts, result.counts);
  if (result.faults.length === 0) return { ...before, done: number, counts };
  tell(plan, number, result.faults);
  const file = keep(plan.name, plan.seed, number, result.exhibit);
  if (file !== undefined) console.log(`    its file: ${file}`);
  const failures = [...before.failures, { number, faults: result.faults }];
  return { ...before, done: number, counts, failures };
}

function tell({ name, seed }: Plan, number: number, faults: readonly string[]): void {
  console.log(`  FAILED case ${number}`);
  for (const fault of faults) console.log(`    ${fault.replaceAll('\n', '\n      ')}`);
  console.log(`    again: npm run campaign -- ${name} --seed ${seed} --case ${number}`);
}

function figure(count: number): string {
  return Number.isInteger(count) ? String(count) : count.toPrecision(6);
}

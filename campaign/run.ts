/**
 * Runs campaigns: `npm run campaign -- [NAME ...] [--runs N] [--seed S] [--from K] [--case K] [--fresh]
 * [--short] [--list]`. Without a name, all of them.
 *
 * Exit status 0 when every case held, 1 when one did not, 2 for a mistyped command, 130 when stopped by
 * Ctrl-C; the same command then goes on at the next case.
 */

import { parseArgs } from 'node:util';
import { isMainThread } from 'node:worker_threads';
import { runCampaign } from './campaign.js';
import { SUBJECTS } from './subjects.js';
import { serve } from './thread.js';
import { whole } from './typed.js';

const SEED = 1;

async function main(): Promise<number> {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: {
      runs: { type: 'string' },
      seed: { type: 'string' },
      from: { type: 'string' },
      case: { type: 'string' },
      fresh: { type: 'boolean', default: false },
      short: { type: 'boolean', default: false },
      list: { type: 'boolean', default: false },
    },
  });
  if (values.list) {
    for (const [name, { claim, runs }] of Object.entries(SUBJECTS)) {
      console.log(`${name} (${runs} cases)\n  ${claim}`);
    }
    return 0;
  }
  const unknown = positionals.filter((name) => !Object.hasOwn(SUBJECTS, name));
  if (unknown.length > 0) {
    console.error(`no campaign is called ${unknown.join(', ')}; there are:`);
    for (const name of Object.keys(SUBJECTS)) console.error(`  ${name}`);
    return 2;
  }
  const [seed, runs, from, single] = [values.seed, values.runs, values.from, values.case].map(
    whole,
  );
  let stopped = false;
  for (const signal of ['SIGINT', 'SIGTERM'] as const) {
    process.on(signal, () => {
      if (stopped) process.exit(130);
      stopped = true;
    });
  }
  const names = positionals.length > 0 ? positionals : Object.keys(SUBJECTS);
  let failed = 0;
  for (const name of names) {
    if (stopped) break;
    const subject = SUBJECTS[name]!;
    const all = values.short ? subject.shortRuns : subject.runs;
    const found = await runCampaign({
      name,
      subject,
      seed: seed ?? SEED,
      runs: single ?? runs ?? all,
      from: single ?? from,
      short: values.short,
      fresh: values.fresh,
      stopped: () => stopped,
    });
    failed += found.failed;
    if (stopped) console.log(`  stopped before case ${found.next}; the same command goes on there`);
  }
  console.log(failed === 0 ? '\nall held' : `\n${failed} did not hold`);
  return stopped ? 130 : failed === 0 ? 0 : 1;
}

if (isMainThread) process.exitCode = await main();
else await serve();

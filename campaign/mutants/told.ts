/** What has been told of changes, kept from run to run while the sources and tests stay the same. */

import { appendFileSync, existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { dirname } from 'node:path';
import type { Mutant } from './draw.js';
import type { Outcome } from './sandbox.js';

const FILE = 'campaign/.progress/mutants.jsonl';

/** One line of the file. */
interface Line {
  readonly key: string;
  /** The seconds of tests that it was held against; null for all there are. */
  readonly seconds: number | null;
  readonly outcome: Outcome;
}

export class Told {
  private readonly known = new Map<string, Outcome>();

  /**
   * @param digest of the sources and tests.
   * @param seconds of tests that a change is held against; none for all there are.
   */
  constructor(
    private readonly digest: string,
    private readonly seconds: number | undefined,
    fresh: boolean,
  ) {
    mkdirSync(dirname(FILE), { recursive: true });
    if (fresh) rmSync(FILE, { force: true });
    if (!existsSync(FILE)) return;
    for (const line of readFileSync(FILE, 'utf8').split('\n').filter(Boolean)) {
      const { key, seconds: held, outcome } = JSON.parse(line) as Line;
      // What fewer tests did not notice, more may.
      const isEnough = (held ?? Infinity) >= (seconds ?? Infinity);
      if (outcome.ended !== 'passed' || isEnough) this.known.set(key, outcome);
    }
  }

  of(mutant: Mutant): Outcome | undefined {
    return this.known.get(this.keyOf(mutant));
  }

  tell(mutant: Mutant, outcome: Outcome): void {
    const key = this.keyOf(mutant);
    this.known.set(key, outcome);
    const line: Line = { key, seconds: this.seconds ?? null, outcome };
    appendFileSync(FILE, `${JSON.stringify(line)}\n`);
  }

  private keyOf({ file, from, to, becomes }: Mutant): string {
    return `${this.digest} ${file}:${from}-${to} ${becomes}`;
  }
}

/** Which test file reaches which change, and how long it takes. */

import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { watched } from './draw.js';
import type { Mutant } from './draw.js';
import { Sandbox } from './sandbox.js';
import type { Watched } from './watching.js';

export interface Reach {
  readonly file: string;
  readonly seconds: number;
  readonly reached: ReadonlySet<Mutant>;
}

/** Seconds that all tests together may take. */
const LONGEST = 3600;

/** Runs the tests over unchanged sources that count. @throws where one of them fails. */
export async function whatReaches(
  drawn: readonly Mutant[],
  tests: readonly string[],
): Promise<Reach[]> {
  const sandbox = Sandbox.make();
  const { texts, numbers } = await watched(drawn);
  for (const [file, text] of texts) sandbox.write(file, text);
  const folder = mkdtempSync(join(tmpdir(), 'berth-reach-'));
  const notes = join(folder, 'reached.jsonl');
  try {
    const { ended, by, seconds } = await sandbox.run(tests, LONGEST, { WATCHED: notes });
    if (ended !== 'passed') {
      throw new Error(`with nothing changed, ${by?.file ?? 'a test'} ${ended}: ${by?.test ?? ''}`);
    }
    console.log(`what reaches them was found in ${seconds.toFixed(0)} s`);
    return readFileSync(notes, 'utf8')
      .trim()
      .split('\n')
      .map((line) => {
        const { file, seconds, reached } = JSON.parse(line) as Watched;
        return {
          file: tests.find((name) => file.endsWith(`/${name}`))!,
          seconds,
          reached: new Set(reached.flatMap((id) => numbers.get(id) ?? [])),
        };
      });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

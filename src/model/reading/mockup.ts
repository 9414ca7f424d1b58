/** The adjustable mounts of a mock-up. */

import type { Adjuster, Mockup } from '../fitup/mockup.js';
import type { Path } from '../scenario.js';
import type { RawMockup } from '../schema.js';
import { parseThread, THREAD_EXPECTED } from '../fitup/threads.js';
import type { Thread } from '../fitup/threads.js';
import type { Census } from './census.js';
import { Frame } from './frame.js';
import { readAbsent } from './hoist.js';
import type { Reading } from './reading.js';

type RawAdjuster = RawMockup['adjusters'][string];

const HERE: Path = ['mock-up'];

/** The mock-up, or undefined where there is none or its problems are said. */
export function readMockup(
  c: Reading,
  raw: RawMockup | undefined,
  census: Census,
): Mockup | undefined {
  if (typeof raw !== 'object' || raw === null || Array.isArray(raw)) return undefined;
  const before = c.problems.length;
  const path = [...HERE, 'adjusters'];
  const entries = c.entries(raw.adjusters, path);
  if (entries.length === 0 && !c.faulty(path)) c.say('missing', path, 'there is no adjuster');
  const adjusters = entries.flatMap(([name, given]) => {
    const read = readAdjuster(c, name, given, [...path, name]);
    return read === undefined ? [] : [read];
  });
  const unsaid = adjusters.find(({ now }) => now === undefined);
  if (unsaid && adjusters.some(({ now }) => now !== undefined)) {
    const message = 'how long it is now is said of the others: all of them, or none';
    c.say('missing', [...path, unsaid.name], message, { expected: 'now: a length' });
  }
  const without = readAbsent(c, raw.without, [...HERE, 'without'], 'engine', census);
  const off = readAbsent(c, raw.off, [...HERE, 'off'], 'chassis', census);
  const isWrong = c.problems.slice(before).some(({ severity }) => severity === 'error');
  return isWrong || c.faulty(HERE) ? undefined : { adjusters, without, off };
}

function readAdjuster(
  c: Reading,
  name: string,
  raw: RawAdjuster,
  path: Path,
): Adjuster | undefined {
  if (c.faulty(path)) return undefined;
  const at = (...keys: (string | number)[]): Path => [...path, ...keys];
  const frame = new Frame(c, 'chassis', 'chosen').point(raw.frame, at('frame'));
  const engine = new Frame(c, 'engine', 'chosen').point(raw.engine, at('engine'));
  const thread = readThread(c, raw.thread, at('thread'));
  const min = c.size(raw.range[0], at('range', 0), 'a length', 'bad length');
  const max = c.size(raw.range[1], at('range', 1), 'a length', 'bad length');
  const range = c.ordered(min, max, at('range'));
  const now =
    raw.now === undefined ? undefined : c.size(raw.now, at('now'), 'a length', 'bad length');
  if (range && range.min === range.max) {
    c.say('bad range', at('range'), 'this adjuster cannot be turned: its range has no width');
  }
  if (range && now !== undefined && (now < range.min || now > range.max)) {
    c.say('bad length', at('now'), 'this is outside the range of the adjuster');
  }
  if (!frame || !engine || !thread || !range) return undefined;
  const hand = raw.hand ?? 'right';
  const lead = thread.pitch * (hand === 'turnbuckle' ? 2 : 1);
  const fixed = { name, frame, engine, thread: thread.name, hand, lead, range };
  return now === undefined ? fixed : { ...fixed, now };
}

function readThread(c: Reading, raw: string, path: Path): Thread | undefined {
  const thread = parseThread(raw);
  if ('problem' in thread) {
    c.say('bad length', path, thread.problem, { expected: THREAD_EXPECTED });
    return undefined;
  }
  if (!thread.standard) {
    const message = `${thread.name} is in none of the usual series: it is taken as written`;
    c.say('bad length', path, message, { severity: 'warning' });
  }
  return thread;
}

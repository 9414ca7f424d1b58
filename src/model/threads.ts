/** Screw threads by the name a shop calls them: how far a turn moves one. */

const MM_PER_INCH = 25.4;

export interface Thread {
  /** As written, blanks settled: `3/4-10`, `M16x2`. */
  readonly name: string;
  /** Millimetres a turn. */
  readonly pitch: number;
  /** Whether it is one of the standard series below. */
  readonly standard: boolean;
}

/** Threads an inch, coarse and fine (ASME B1.1, as printed in fastener charts). */
const UNIFIED: Readonly<Record<string, { readonly unc: number; readonly unf: number }>> = {
  '3/8': { unc: 16, unf: 24 },
  '7/16': { unc: 14, unf: 20 },
  '1/2': { unc: 13, unf: 20 },
  '5/8': { unc: 11, unf: 18 },
  '3/4': { unc: 10, unf: 16 },
  // From memory, the same standard.
  '7/8': { unc: 9, unf: 14 },
  '1': { unc: 8, unf: 12 },
};

/** Coarse pitches in millimetres (ISO 261, as printed in fastener charts; M14, M20 and M24 from memory). */
const METRIC: Readonly<Record<string, number>> = {
  '10': 1.5,
  '12': 1.75,
  '14': 2,
  '16': 2,
  '20': 2.5,
  '24': 3,
};

export const THREAD_EXPECTED = 'a thread such as 3/4-10, 5/8 UNF, M16 or M16x1.5';

/** The coarsest pitch that is a thread, mm, and the finest. */
const COARSEST = 8;
const FINEST = 0.2;

/** Reads a thread; the problem is one sentence without a full stop. */
export function parseThread(text: string): Thread | { readonly problem: string } {
  const plain = text.trim().toLowerCase().replace(/\s+/g, ' ').replace(/["”]/g, '');
  return unified(plain) ?? metric(plain) ?? { problem: 'this is not a thread that is known here' };
}

function unified(text: string): Thread | { readonly problem: string } | undefined {
  const match = /^(\d+(?:\/\d+)?)(?: ?- ?(\d+)(?: un[cf])?| (un[cf]))$/.exec(text);
  if (match === null) return undefined;
  const [, size, count, series] = match;
  const known = UNIFIED[size!];
  if (count === undefined) {
    if (known === undefined)
      return { problem: `'${size}' is in no series known here; say its threads an inch` };
    const own = known[series as 'unc' | 'unf'];
    return { name: `${size}-${own}`, pitch: MM_PER_INCH / own, standard: true };
  }
  const own = Number(count);
  return held({
    name: `${size}-${own}`,
    pitch: MM_PER_INCH / own,
    standard: known !== undefined && (known.unc === own || known.unf === own),
  });
}

function metric(text: string): Thread | { readonly problem: string } | undefined {
  const match = /^m ?(\d+)(?: ?[x×*] ?(\d*\.?\d+))?$/.exec(text);
  if (match === null) return undefined;
  const [, size, own] = match;
  const coarse = METRIC[size!];
  if (own === undefined) {
    if (coarse === undefined) return { problem: `the pitch of M${size} is not known here; say it` };
    return { name: `M${size}x${coarse}`, pitch: coarse, standard: true };
  }
  return held({
    name: `M${size}x${Number(own)}`,
    pitch: Number(own),
    standard: Number(own) === coarse,
  });
}

function held(thread: Thread): Thread | { readonly problem: string } {
  if (thread.pitch >= FINEST && thread.pitch <= COARSEST) return thread;
  return { problem: 'no thread moves so far, or so little, in a turn' };
}

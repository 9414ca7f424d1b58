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
  '9/16': { unc: 12, unf: 18 },
  '7/8': { unc: 9, unf: 14 },
  '1': { unc: 8, unf: 12 },
  '1 1/8': { unc: 7, unf: 12 },
  '1 1/4': { unc: 7, unf: 12 },
};

/**
 * Pitches in millimetres, the coarse one first (ISO 261, as printed in fastener charts for M10, M12 and M16 coarse;
 * the others from memory).
 */
const METRIC: Readonly<Record<string, readonly number[]>> = {
  '10': [1.5, 1.25, 1],
  '12': [1.75, 1.5, 1.25],
  '14': [2, 1.5],
  '16': [2, 1.5],
  '18': [2.5, 1.5],
  '20': [2.5, 2, 1.5],
  '22': [2.5, 1.5],
  '24': [3, 2],
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
  const match =
    /^((?:1 )?[1-9]\d?\/(?:2|4|8|16|32)|[12])(?: ?- ?(\d+)(?: (un[cf]))?| (un[cf]))$/.exec(text);
  if (match === null) return undefined;
  const [, size, count, series, alone] = match;
  const [over, under] = size!.replace(/^1 /, '').split('/').map(Number);
  if (under !== undefined && over! >= under) return undefined;
  const known = UNIFIED[size!];
  const wanted = (series ?? alone) as 'unc' | 'unf' | undefined;
  if (wanted !== undefined && known === undefined) {
    return { problem: `'${size}' is in no series known here; say its threads an inch alone` };
  }
  if (count === undefined) {
    const own = known![wanted!];
    return { name: `${size}-${own}`, pitch: MM_PER_INCH / own, standard: true };
  }
  const own = Number(count);
  if (wanted !== undefined && known![wanted] !== own) {
    return {
      problem: `${size} ${wanted.toUpperCase()} has ${known![wanted]} threads an inch, not ${own}`,
    };
  }
  return held({
    name: `${size}-${own}`,
    pitch: MM_PER_INCH / own,
    standard: known !== undefined && (known.unc === own || known.unf === own),
  });
}

function metric(text: string): Thread | { readonly problem: string } | undefined {
  const match = /^m ?([1-9]\d?)(?: ?[x×*] ?(\d*\.?\d+))?$/.exec(text);
  if (match === null) return undefined;
  const [, size, own] = match;
  const known = METRIC[size!];
  if (own === undefined) {
    if (known === undefined) return { problem: `the pitch of M${size} is not known here; say it` };
    return { name: `M${size}x${known[0]!}`, pitch: known[0]!, standard: true };
  }
  const pitch = Number(own);
  return held({ name: `M${size}x${pitch}`, pitch, standard: known?.includes(pitch) === true });
}

function held(thread: Thread): Thread | { readonly problem: string } {
  if (thread.pitch >= FINEST && thread.pitch <= COARSEST) return thread;
  return { problem: 'no thread moves so far, or so little, in a turn' };
}

/** A world for the commands that stands in memory: streams, clock, terminal and interrupts. */

import type { Io } from '../../src/cli/io.js';
import { run } from '../../src/cli/run.js';

export interface World extends Io {
  readonly said: { out: string; err: string };
  /** As Ctrl-C does. */
  interrupt(): void;
  listeners: number;
}

export interface Setup {
  readonly stdin?: string | Uint8Array;
  /** Called when standard input is first read. */
  readonly onStdin?: () => void;
  readonly terminal?: boolean;
  /** Of the terminal, where it says. */
  readonly rows?: number;
  readonly width?: number;
  readonly env?: Record<string, string>;
  /** Milliseconds that pass at each look at the clock; the real clock unless given. */
  readonly tick?: number;
  /** Whether memory is full, at the so-manieth look. */
  readonly full?: (look: number) => boolean;
  /** The date; 2026-03-01 unless given. */
  readonly today?: string;
  /** Called at every breath, with how many there have been. */
  readonly onBreath?: (world: World, count: number) => void;
}

export function world(setup: Setup = {}): World {
  const stops = new Set<() => void>();
  let now = 0;
  let breaths = 0;
  let looks = 0;
  let asked = false;
  const made: World = {
    said: { out: '', err: '' },
    listeners: 0,
    out: (text) => void (made.said.out += text),
    err: (text) => void (made.said.err += text),
    inIsTerminal: setup.terminal === true,
    outIsTerminal: setup.terminal === true,
    errIsTerminal: setup.terminal === true,
    outRows: setup.rows,
    errColumns: setup.width,
    env: setup.env ?? {},
    started: setup.tick === undefined ? performance.now() : 0,
    isFull: () => setup.full?.(++looks) === true,
    isAsked: () => asked,
    now: () => (setup.tick === undefined ? performance.now() : (now += setup.tick)),
    today: () => setup.today ?? '2026-03-01',
    breathe: () => {
      setup.onBreath?.(made, ++breaths);
      return new Promise((resolve) => setImmediate(resolve));
    },
    onInterrupt: (stop) => {
      stops.add(stop);
      made.listeners++;
      return () => {
        stops.delete(stop);
        made.listeners--;
      };
    },
    async *stdin() {
      const { stdin = '' } = setup;
      setup.onStdin?.();
      yield await Promise.resolve(
        typeof stdin === 'string' ? new TextEncoder().encode(stdin) : stdin,
      );
    },
    interrupt: () => {
      asked = stops.size > 0;
      stops.forEach((stop) => stop());
    },
  };
  return made;
}

export interface Outcome {
  readonly status: number;
  readonly out: string;
  readonly err: string;
}

/** Runs one command line in a world of its own. */
export async function berth(argv: readonly string[], setup: Setup = {}): Promise<Outcome> {
  const made = world(setup);
  const status = await run(argv, made);
  return { status, ...made.said };
}

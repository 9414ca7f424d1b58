/** What the first thread and the one that does the work share, and tell each other. */

/** Numbers in the memory that both threads see. */
export const SHARED = { busy: 0, asked: 1, listeners: 2, rows: 3, columns: 4 } as const;

/** Milliseconds that it takes a program to start before its own clock does. */
export const BEFORE_CLOCK = 40;

/** What the thread is started with. */
export interface Job {
  readonly argv: readonly string[];
  readonly shared: SharedArrayBuffer;
  /** Milliseconds since 1970 at which the program was started. */
  readonly origin: number;
  readonly terminal: { readonly in: boolean; readonly out: boolean; readonly err: boolean };
}

/** What it tells. */
export type Told =
  | { readonly out: string }
  | { readonly err: string }
  | { readonly stdin: true }
  | { readonly status: number };

/** What it is told: a piece of standard input, its end, or why there is no more. */
export type Heard =
  { readonly piece: Uint8Array } | { readonly end: true } | { readonly failed: string };

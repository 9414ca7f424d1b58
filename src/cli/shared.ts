/** What the first thread and the one that does the work share, and tell each other. */

/** Numbers in the memory that both threads see. */
export const SHARED = { busy: 0, asked: 1, listeners: 2, rows: 3, columns: 4 } as const;

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
  /** Milliseconds since the start of the program by which an answer must be there. */
  | { readonly until: number }
  | { readonly stdin: true }
  | { readonly status: number };

/** What it is told: a piece of standard input, its end, or why there is no more. */
export type Heard =
  { readonly piece: Uint8Array } | { readonly end: true } | { readonly failed: string };

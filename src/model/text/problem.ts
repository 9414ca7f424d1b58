/**
 * A mistake in what a person gave us. Problems are data: a file is read to its end and every problem
 * is reported at once, each with its place, what was read and what was expected.
 */

import type { Path } from '../scenario.js';

export type ProblemCode =
  | 'unreadable'
  | 'too large'
  | 'syntax'
  | 'alias'
  | 'missing'
  | 'unknown key'
  | 'unknown name'
  | 'wrong type'
  | 'bad length'
  | 'bad number'
  | 'bad range'
  | 'bad solid'
  | 'bad rule'
  | 'tie'
  | 'side unclear'
  | 'uncovered'
  | 'bad option'
  | 'excluded'
  | 'bad limit'
  | 'bad trim'
  | 'bad path'
  | 'bad pin'
  | 'bad wish'
  | 'bad motion'
  | 'duplicate';

export interface Problem {
  readonly code: ProblemCode;
  /** An error stops the work; a warning is said and the work goes on. */
  readonly severity: 'error' | 'warning';
  /** One sentence: what is wrong, in the builder's words. */
  readonly message: string;
  /** Keys from the top of the file; empty for the file as a whole. */
  readonly path: Path;
  /** One-based, when the place in the text is known. */
  readonly line?: number;
  readonly column?: number;
  /** What was read, as the file has it. */
  readonly read?: string;
  /** What would have been right. */
  readonly expected?: string;
  /** The nearest known name for a misspelt one. */
  readonly nearest?: string;
}

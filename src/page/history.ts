/** Undo and redo over any value that is never changed in place. */

export interface History<T> {
  readonly past: readonly T[];
  readonly now: T;
  readonly future: readonly T[];
  /** What made `now`: changes of one name in a row, a drag say, are undone as one. */
  readonly by: string;
}

/** Values kept to go back to. */
const MOST = 200;

export function begun<T>(now: T): History<T> {
  return { past: [], now, future: [], by: '' };
}

/** @param by a change of the same name as the last one replaces it; '' never does. */
export function changed<T>(history: History<T>, now: T, by = ''): History<T> {
  const isMore = by !== '' && by === history.by;
  const past = isMore ? history.past : [...history.past, history.now].slice(-MOST);
  return { past, now, future: [], by };
}

/** Another value that is nothing to undo. */
export function replaced<T>(history: History<T>, now: T): History<T> {
  return { ...history, now };
}

/** The same with the next change of the same name standing for itself. */
export function ended<T>(history: History<T>): History<T> {
  return { ...history, by: '' };
}

export function undone<T>({ past, now, future, by }: History<T>): History<T> {
  const before = past.at(-1);
  if (before === undefined) return { past, now, future, by };
  return { past: past.slice(0, -1), now: before, future: [now, ...future], by: '' };
}

export function redone<T>({ past, now, future, by }: History<T>): History<T> {
  const [next, ...rest] = future;
  if (next === undefined) return { past, now, future, by };
  return { past: [...past, now], now: next, future: rest, by: '' };
}

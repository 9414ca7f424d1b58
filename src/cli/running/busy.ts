/** Files being written just now: nobody who ends the process may leave half of one behind. */

/** Shared with the thread that hears signals. */
let count: Int32Array = new Int32Array(new SharedArrayBuffer(4));

/** Counts in an array of somebody else's from now on. */
export function countBusyIn(shared: Int32Array): void {
  count = shared;
}

/** Whether a file is being written. */
export function isBusy(): boolean {
  return Atomics.load(count, 0) > 0;
}

/** Does what must not be cut short. */
export async function whole<T>(work: () => Promise<T>): Promise<T> {
  Atomics.add(count, 0, 1);
  try {
    return await work();
  } finally {
    Atomics.sub(count, 0, 1);
  }
}

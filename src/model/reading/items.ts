/** Every item read, so that every problem is said; undefined when any is not readable. */
export function all<T, U>(
  raw: readonly T[],
  read: (raw: T, index: number) => U | undefined,
): U[] | undefined {
  const items = raw.map(read);
  const good = items.filter((item) => item !== undefined);
  return good.length === items.length ? good : undefined;
}

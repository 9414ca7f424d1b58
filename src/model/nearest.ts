/** The nearest known name for a misspelt one. */

/** A name further off than this share of its own letters is no misspelling. */
const FURTHEST = 0.4;

/**
 * The known name that takes the fewest single-letter edits (swapped neighbours count as one) from
 * what was read, letter case aside; undefined when none is near.
 */
export function nearestName(read: string, names: Iterable<string>): string | undefined {
  const wanted = read.trim().toLowerCase();
  let best: string | undefined;
  let least = Infinity;
  for (const name of names) {
    const edits = editsBetween(wanted, name.toLowerCase());
    if (edits < least && edits <= Math.max(1, FURTHEST * name.length)) {
      best = name;
      least = edits;
    }
  }
  return best;
}

/** Optimal string alignment distance (restricted Damerau-Levenshtein). */
function editsBetween(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let edits = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        edits = Math.min(edits, before[j - 2]! + 1);
      }
      row.push(edits);
    }
    before = last;
    last = row;
  }
  return last[b.length]!;
}

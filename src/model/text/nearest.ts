/** The nearest known name for a misspelt one. */

/** A name further off than this share of its own letters is no misspelling. */
const FURTHEST = 0.4;
/** Letters: nobody types a longer one by hand, and comparing two takes the product of their lengths. */
const LONGEST = 100;

/**
 * The known name that takes the fewest single-letter edits (swapped neighbours count as one) from
 * what was read, letter case aside; where none is near, the first of which what was read is a word;
 * undefined when there is none, or what was read is no name's length.
 */
export function nearestName(read: string, names: Iterable<string>): string | undefined {
  const wanted = read.trim().toLowerCase();
  if (wanted.length > LONGEST) return undefined;
  let best: string | undefined;
  let holding: string | undefined;
  let least = Infinity;
  for (const name of names) {
    const most = Math.min(least - 1, Math.floor(Math.max(1, FURTHEST * name.length)));
    if (name.length > LONGEST) continue;
    if (wanted !== '' && name.toLowerCase().split(' ').includes(wanted)) holding ??= name;
    const edits = editsBetween(wanted, name.toLowerCase(), most);
    if (edits <= most) {
      best = name;
      least = edits;
    }
  }
  return best ?? holding;
}

/** Optimal string alignment distance (restricted Damerau-Levenshtein); Infinity once it is above `most`. */
function editsBetween(a: string, b: string, most: number): number {
  if (Math.abs(a.length - b.length) > most) return Infinity;
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  let leastBefore = 0;
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    let least = i;
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let edits = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        edits = Math.min(edits, before[j - 2]! + 1);
      }
      row.push(edits);
      least = Math.min(least, edits);
    }
    // Every later row comes from these two, and none of it is less than both.
    if (least > most && leastBefore > most) return Infinity;
    leastBefore = least;
    before = last;
    last = row;
  }
  return last[b.length]!;
}

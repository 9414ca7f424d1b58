/** Words broken into lines. */

/** Columns of a text to read or to print. */
export const WIDTH = 80;

/** Text broken between words, each line after an indent. */
export function wrapped(text: string, indent: string, width = WIDTH): string[] {
  const made = [indent];
  for (const word of text.split(' ')) {
    const last = made.at(-1)!;
    const longer = last === indent ? `${indent}${word}` : `${last} ${word}`;
    if (longer.length > width && last !== indent) made.push(`${indent}${word}`);
    else made[made.length - 1] = longer;
  }
  return made;
}

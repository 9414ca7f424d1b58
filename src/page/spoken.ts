/** Lengths and angles as a voice reads them: `25 1/2` is `25 and a half`. */

const UNDER: Readonly<Record<number, readonly [string, string]>> = {
  2: ['half', 'halves'],
  4: ['quarter', 'quarters'],
  8: ['eighth', 'eighths'],
  16: ['sixteenth', 'sixteenths'],
  32: ['thirty-second', 'thirty-seconds'],
  64: ['sixty-fourth', 'sixty-fourths'],
};

const FRACTION = /(-?)(?:(\d+) )?(\d+)\/(2|4|8|16|32|64)\b/g;

/** Text with its tape fractions and short words spoken out. */
export function spoken(text: string): string {
  return text
    .replace(
      FRACTION,
      (_, minus: string, whole: string | undefined, over: string, under: string) => {
        const [one, many] = UNDER[Number(under)]!;
        const part =
          over === '1' ? `${/^[aeiou]/.test(one) ? 'an' : 'a'} ${one}` : `${over} ${many}`;
        return `${minus === '' ? '' : 'minus '}${whole === undefined ? part : `${whole} and ${part}`}`;
      },
    )
    .replace(/(^|[\s(])-(?=\d)/g, '$1minus ')
    .replace(/\bdeg\b/g, 'degrees')
    .replace(/(\d) mm\b/g, '$1 millimetres')
    .replace(/(\S) - (\S)/g, '$1 to $2');
}

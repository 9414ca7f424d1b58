/** Differences between two files that say the same. */

/** Units that a bare number is in anyway, by the units of the file. */
const OWN = {
  in: /(?<=\d) *(?:in|"|deg|lb)(?= |;|$)/g,
  mm: /(?<=\d) *(?:mm|deg|kg)(?= |;|$)/g,
} as const;
/** Nothing is nothing in any unit. */
const NOUGHT = /(?<![\d./])-?0 *(?:mm|cm|m|in|ft|"|')?(?= |;|$)/g;
/** Left out, these are what the files say anyway, or what a part that is replaced had. */
const DEFAULTS: readonly RegExp[] = [
  /^\/worth: "1\/8" -> nothing$/,
  /^\/(error: "1\/16"|rake: 0|driveline\/joints: "two") -> nothing$/,
  /^\/mounts\/(loads\/(bump: 3|braking: 1)|plate: "1\/4"|.*\/thick: "1\/4") -> nothing$/,
  /\/replace\/[^/]*\/kind: "header" -> nothing$/,
];

/** A size with its unit or datum, or a wish. */
const LENGTH = /\d.* (?:lb|kg|in|mm|ft|behind|ahead|left|right|above|below)\b|=/i;

/** Whether a difference, as `differences` tells it, changes nothing of what is meant. */
export function isHarmless(difference: string, units: 'in' | 'mm'): boolean {
  const [, path, from, to] = /^(.*?): (.*) -> (.*)$/s.exec(difference) ?? [];
  if (path === undefined || from === undefined || to === undefined) return false;
  // A gap that was taped is that between two parts, whichever is named first.
  if (/^\/gaps\/\d+\/between\/[01]$/.test(path) || DEFAULTS.some((one) => one.test(difference)))
    return true;
  // Units, tape words and coordinates are read in capitals too.
  if (LENGTH.test(from) && from.toLowerCase() === to.toLowerCase()) return true;
  // Wishes name coordinates and margins in capitals too.
  if (/^\/cases\/[^/]*\/margin$/i.test(path) && [from, to].includes('nothing')) return true;
  // A direction counts, not its length; and the names of a choice's keys are in any order.
  if (/\/normal\/[0-2]$/.test(path) && Number(from) * Number(to) > 0) return true;
  // A sign may stand a little off its number.
  if (to === from.replace(/^-(.*)$/, '"- $1"')) return true;
  return plain(from, units) === plain(to, units);
}

/** A number in quotes is that number, and space within words is one space. */
function plain(shown: string, units: 'in' | 'mm'): string {
  return unquoted(shown)
    .replaceAll(/\s+/g, ' ')
    .trim()
    .replace(NOUGHT, '0')
    .replace(OWN[units], '');
}

/** A text without its quotes; one that was cut short stays as it is. */
function unquoted(shown: string): string {
  try {
    return shown.startsWith('"') ? (JSON.parse(shown) as string) : shown;
  } catch {
    return shown;
  }
}

/** How lines are drawn: told apart by weight and dashes, never by colour. Widths in millimetres. */

export const LINES = {
  engine: 'stroke="#000" stroke-width="0.45"',
  chassis: 'stroke="#000" stroke-width="0.2"',
  motion: 'stroke="#000" stroke-width="0.2" stroke-dasharray="1.6 1"',
  comesOut: 'stroke="#000" stroke-width="0.25" stroke-dasharray="0.2 1"',
  removed: 'stroke="#000" stroke-width="0.3" stroke-dasharray="3 0.9 0.4 0.9 0.4 0.9"',
  datum: 'stroke="#000" stroke-width="0.18" stroke-dasharray="5 1 0.8 1"',
  dimension: 'stroke="#000" stroke-width="0.3"',
  leader: 'stroke="#000" stroke-width="0.18"',
  frame: 'stroke="#000" stroke-width="0.4"',
  rule: 'stroke="#000" stroke-width="0.15"',
} as const;

/** The two hatchings of parts that a binding gap is between, and the crossed one of what is cut off. */
export function hatchings(id: string): string {
  const lines = (name: string, turn: number, more = '') =>
    `<pattern id="${id}-${name}" width="1.5" height="1.5" patternUnits="userSpaceOnUse" patternTransform="rotate(${turn})"><path d="M0 0.75H1.5${more}" stroke="#000" stroke-width="0.16"/></pattern>`;
  return `<defs>${lines('first', 45)}${lines('second', 135)}${lines('cut', 45, 'M0.75 0V1.5')}</defs>`;
}

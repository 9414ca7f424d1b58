/** What to ask next when nothing fits: only commands that exist. */

import { COORDINATES } from '../../model/scenario.js';
import type { Coordinate, OptionRef, Position } from '../../model/scenario.js';
import type { PlaceAnswer } from '../../solver/answer.js';
import { clean, columns } from './text.js';
import { coordinateWords } from './where.js';
import type { Telling } from './words.js';

/** What the person asked for, as far as the words of the answer depend on it. */
export interface Asked {
  readonly file: string;
  readonly pins: Partial<Position>;
  readonly options: readonly OptionRef[];
  /** Millimetres. */
  readonly keep: number;
  /** Seconds. */
  readonly timeLimit?: number;
}

/** Millimetres or radians: an optimum this close to the end of its range stands at it. */
const AT_END = 1e-6;

/** The longest file name worth repeating. */
const LONGEST_FILE = 40;

/** One suggestion a piece, the most useful first. */
export function next(asked: Asked, answer: PlaceAnswer, telling: Telling): string[] {
  const file = fileWord(asked.file, telling);
  const said: string[] = [];
  if (answer.stopped === 'time') said.push('a longer --time-limit');
  const pinned = COORDINATES.filter((coordinate) => asked.pins[coordinate] !== undefined);
  if (pinned.length > 0) said.push(`berth place ${file} without --pin ${pinned.join(', ')}`);
  if (asked.options.length > 0) said.push(`berth place ${file} without --option`);
  for (const coordinate of pressed(answer, telling)) {
    const at = coordinateWords(coordinate, answer.main.optimum.position[coordinate], telling);
    said.push(
      `${coordinate} is at the end of its range (${at}): widen it in the file if it can go`,
    );
  }
  said.push(`every rule: berth place ${file} --all`);
  return said;
}

/** Coordinates at an end of their range that a squeezed rule wants the engine to pass. */
function pressed(answer: PlaceAnswer, { scenario }: Telling): Coordinate[] {
  const { position, readings } = answer.main.optimum;
  const wanting = readings.filter((reading) => reading.margin < 0 && reading.slope !== undefined);
  return COORDINATES.filter((coordinate) => {
    const { min, max } = scenario.position[coordinate];
    if (min === max) return false;
    const slopes = wanting.map((reading) => reading.slope![coordinate]);
    return (
      (position[coordinate] >= max - AT_END && slopes.some((slope) => slope > 0.5)) ||
      (position[coordinate] <= min + AT_END && slopes.some((slope) => slope < -0.5))
    );
  });
}

/** The file as it can be typed again, or FILE where it is too long or odd for that. */
function fileWord(file: string, { look }: Telling): string {
  const safe = clean(file, look);
  if (safe !== file || columns(safe) > LONGEST_FILE || !/^[\w./ -]+$/.test(safe)) return 'FILE';
  if (file === '-') return '-';
  return safe.includes(' ') ? `"${safe}"` : safe;
}

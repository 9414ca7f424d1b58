/** What to ask next when nothing fits, as changes to what was typed: they hold however it was started. */

import { COORDINATES } from '../../model/scenario.js';
import type { Coordinate, OptionRef, Position } from '../../model/scenario.js';
import type { PlaceAnswer } from '../../solver/answer.js';
import { coordinateWords } from '../../words/where.js';
import { TYPICAL } from '../../words/words.js';
import type { Telling } from '../../words/words.js';

/** What the person asked for, as far as the words of the answer depend on it. */
export interface Asked {
  readonly pins: Partial<Position>;
  readonly options: readonly OptionRef[];
  /** Millimetres. */
  readonly keep: number;
  /** Seconds. */
  readonly timeLimit?: number;
}

/** Millimetres or radians: an optimum this close to the end of its range stands at it. */
const AT_END = 1e-6;

/** Margin, in millimetres, that one typical move must buy for a wider range to be worth a word. */
const WORTH_WIDENING = 0.5;

/** What to add to or take from what was typed, one suggestion a piece, the most useful first. */
export function next(
  asked: Asked,
  answer: PlaceAnswer,
  isOpen: boolean,
  telling: Telling,
): string[] {
  const said: string[] = [];
  if (isOpen) said.push(...longer(answer));
  const pinned = COORDINATES.filter((coordinate) => asked.pins[coordinate] !== undefined);
  if (pinned.length > 0) said.push(`leave out --pin ${pinned.join(', ')}`);
  if (asked.options.length > 0) said.push('leave out --option');
  for (const coordinate of pressed(answer, telling)) {
    const at = coordinateWords(coordinate, answer.main.optimum.position[coordinate], telling);
    said.push(
      `${coordinate} is at the end of its range (${at}): widen it in the file if it can go`,
    );
  }
  said.push('add --all to see every rule');
  return said;
}

function longer({ stopped, main }: PlaceAnswer): string[] {
  if (main.optimum.margin === Infinity) return [];
  if (stopped === 'asked') return ['let it run longer: it had not finished'];
  if (stopped === 'memory') return ['let it take more: a larger --memory-limit'];
  if (stopped === 'time') return ['let it run longer: a longer --time-limit, or none'];
  return ['a coarser --tolerance'];
}

/**
 * Coordinates at an end of their range that the tightest rules together want the engine to pass: the
 * margin gained per unit of range is the sum of their slopes, each by its share.
 */
function pressed(answer: PlaceAnswer, { scenario }: Telling): Coordinate[] {
  const { position, readings } = answer.main.optimum;
  const pulling = readings.filter(({ share, slope }) => share !== undefined && slope !== undefined);
  return COORDINATES.filter((coordinate) => {
    const { min, max } = scenario.position[coordinate];
    if (min === max) return false;
    const pull = pulling.reduce((sum, { share, slope }) => sum + share! * slope![coordinate], 0);
    const gain = pull * TYPICAL[coordinate];
    return (
      (position[coordinate] >= max - AT_END && gain > WORTH_WIDENING) ||
      (position[coordinate] <= min + AT_END && gain < -WORTH_WIDENING)
    );
  });
}

/** At what angles a universal joint may work. */

const DEGREE = Math.PI / 180;

/**
 * Largest angle of a joint by the speed of its shaft: revolutions a minute, degrees. Spicer J3311-1, from
 * memory; speed times angle hardly changes down the table.
 */
const LARGEST: readonly (readonly [rpm: number, degrees: number])[] = [
  [1500, 11 + 30 / 60],
  [2000, 8 + 40 / 60],
  [2500, 7],
  [3000, 5 + 50 / 60],
  [3500, 5],
  [4000, 4 + 15 / 60],
  [4500, 3 + 40 / 60],
  [5000, 3 + 15 / 60],
];

/**
 * Radians: the largest angle that a joint may work at for this shaft speed in revolutions a minute, more
 * than 0. Between the table's rows speed times angle runs straight; above them it stays as it is in the
 * last row, and below them the first row's angle stands.
 */
export function largestAngle(rpm: number): number {
  const [first, last] = [LARGEST[0]!, LARGEST.at(-1)!];
  if (rpm <= first[0]) return first[1] * DEGREE;
  if (rpm >= last[0]) return ((last[0] * last[1]) / rpm) * DEGREE;
  const i = LARGEST.findIndex(([speed]) => speed >= rpm);
  const [low, high] = [LARGEST[i - 1]!, LARGEST[i]!];
  const share = (rpm - low[0]) / (high[0] - low[0]);
  const product = (1 - share) * low[0] * low[1] + share * high[0] * high[1];
  return (product / rpm) * DEGREE;
}

/** Radians: printed for a constant-velocity joint as 'under 10 degrees'. */
export const CONSTANT_VELOCITY_MOST = 10 * DEGREE;

/**
 * A part over its motions, cut into cells so small that the hull of a cell's corners is what the part
 * passes over in it. A curved path is followed by chords: no more than PATH is left out beside a chord.
 * Millimetres and radians, in the frame of the part's side.
 */

import { placed } from '../geometry/placed.js';
import { rockRotation } from '../geometry/rotation.js';
import { shapeOf } from '../geometry/shape.js';
import type { Shape } from '../geometry/shape.js';
import type { PartInPlace } from '../model/options.js';
import type { Range } from '../model/scenario.js';
import { plus } from '../model/vector.js';
import * as trig from '../model/trig.js';

/** Millimetres that a part's path may bulge out past the chord drawn for it. */
const PATH = 0.1;

/** Chords along one turn, however far out the part reaches. */
const MOST_CHORDS = 96;

/**
 * The cells of a part in use: its turn, its sweep, and the engine's rock either way about the crankshaft.
 * Empty where nothing of it moves. Each is the solids at the corners of one cell.
 */
export function motionCells({ part, move }: PartInPlace, rock: number): readonly Shape[][] {
  const { turn, sweep, mirrored } = part;
  if (!turn && !sweep && rock === 0) return [];
  const at = turn && plus(turn.at, move);
  return part.solids.flatMap((solid) => {
    const turnedTo = (by: number): Shape =>
      shapeOf(solid, {
        mirrored,
        move,
        ...(turn && at && { turn: { about: turn.about, at, by } }),
        ...(sweep && { sweep }),
      });
    const still = turnedTo(0);
    const turns = turn && at ? chords(turn.by, reachFrom(still, at)) : [0];
    const rocks = rock > 0 ? chords({ min: -rock, max: rock }, reachFrom(still, [0, 0, 0])) : [0];
    return cellsOf(turns, rocks, turnedTo);
  });
}

/** The cells between successive angles of both turns. */
function cellsOf(
  turns: readonly number[],
  rocks: readonly number[],
  turnedTo: (by: number) => Shape,
): Shape[][] {
  const rows = turns.map((by) => {
    const shape = turnedTo(by);
    return rocks.map((rock) =>
      rock === 0 ? shape : placed(shape, rockRotation(rock, new Float64Array(9))),
    );
  });
  const cells: Shape[][] = [];
  for (let t = 0; t < Math.max(1, rows.length - 1); t++) {
    for (let r = 0; r < Math.max(1, rocks.length - 1); r++) {
      const near = [rows[t]!, rows[t + 1]].flatMap((row) => (row ? row.slice(r, r + 2) : []));
      cells.push(near);
    }
  }
  return cells;
}

/** Angles over a range, its ends among them, near enough for what reaches so far from the axis. */
function chords({ min, max }: Range, reach: number): readonly number[] {
  // A chord of angle a leaves r (1 - cos(a / 2)) of the arc beside it.
  const step = 2 * trig.acos(Math.max(0, 1 - PATH / Math.max(reach, PATH)));
  const count = Math.min(MOST_CHORDS, Math.max(1, Math.ceil((max - min) / step)));
  return Array.from({ length: count + 1 }, (_, k) => min + ((max - min) * k) / count);
}

/** No point of the shape lies further than this from a point, nor from any axis through it. */
function reachFrom(
  { center, radius }: Shape,
  [x, y, z]: readonly [number, number, number],
): number {
  return trig.hypot(center[0]! - x, center[1]! - y, center[2]! - z) + radius;
}

/** How a part moves in use, and the room it needs to come out. */

import { isRoundAbout } from '../solids/about-axis.js';
import { AXES } from '../scenario.js';
import type { Axis, Box, Part, Path, Range, Side, Taken, Turn } from '../scenario.js';
import type { RawMotion, RawPart } from '../schema.js';
import { Frame } from './frame.js';
import type { Reading } from './reading.js';

/** Radians: what turns by this much or more goes round, and is better drawn as what it fills. */
const HALF_TURN = Math.PI;
const NOTHING: Range = { min: 0, max: 0 };

/** A sweep or a way out; undefined where there is none, or its problem is said. */
export function readMotion(
  c: Reading,
  raw: RawMotion | undefined,
  path: Path,
  what: string,
): Box | undefined {
  if (raw === undefined || c.faulty(path)) return undefined;
  if (Object.keys(raw).length === 0) {
    c.say('missing', path, `the ${what} has no ranges`, { expected: 'x, y or z ranges' });
    return undefined;
  }
  const ranges = c.ranges(raw, path);
  if (ranges === undefined) return undefined;
  for (const axis of AXES) {
    const range = ranges[axis];
    if (range !== undefined) sayWithoutDrawn(c, range, [...path, axis], what);
  }
  return { x: NOTHING, y: NOTHING, z: NOTHING, ...ranges };
}

/** How a part turns in use; undefined where it does not, or a problem is said. */
export function readTurn(
  c: Reading,
  raw: RawPart['turn'],
  path: Path,
  side: Side,
): Turn | undefined {
  if (raw === undefined || c.faulty(path)) return undefined;
  const frame = new Frame(c, side);
  const at = frame.point(raw.at, [...path, 'at']);
  const by = c.range(raw.by, [...path, 'by'], 'angle');
  if (at === undefined || by === undefined) return undefined;
  if (by.max - by.min >= HALF_TURN) {
    c.say('bad range', [...path, 'by'], 'the part turns by half a turn or more', {
      expected: 'less than 180 degrees from end to end; draw what goes round as all it fills',
    });
    return undefined;
  }
  if (by.min === by.max) {
    c.say('bad motion', [...path, 'by'], 'the turn goes nowhere: both angles are the same', {
      expected: 'two angles; or tilt, for a solid that stands at an angle',
    });
    return undefined;
  }
  sayWithoutDrawn(c, by, [...path, 'by'], 'turn');
  const taken = takenOf(frame);
  return { about: raw.about, at, by, ...(taken === undefined ? {} : { taken }) };
}

/** Warns of a turn that cannot be seen: every solid of the part is round about its axis. */
export function sayIdleTurn(c: Reading, part: Part, { about, at }: Turn, path: Path): void {
  if (!isRoundAbout(part, about, at)) return;
  c.say('bad motion', path, `the turn moves nothing: '${part.name}' is round about its axis`, {
    severity: 'warning',
    expected: 'an axis beside the middle of the part',
  });
}

function sayWithoutDrawn(c: Reading, { min, max }: Range, path: Path, what: string): void {
  if (min <= 0 && max >= 0) return;
  c.say('bad range', path, `the ${what} leaves out where the part is drawn`, {
    severity: 'warning',
    expected: 'a range that holds 0',
  });
}

/** What the point that the frame has read rests on, by axis. */
function takenOf({ taken }: Frame): Turn['taken'] {
  if (taken.length === 0) return undefined;
  return Object.fromEntries(
    taken.map(({ path, from }): [Axis, Taken] => {
      return [AXES[Number(path.at(-1))]!, from];
    }),
  );
}

/** A sweep or way out as the mirror image has it. */
export function mirroredBox(box: Box): Box {
  return { ...box, y: reversed(box.y) };
}

/**
 * A turn as the mirror image has it. Seen in the mirror an axis along y keeps its sense of turning, and
 * those along x and z turn the other way.
 */
export function mirroredTurn(turn: Turn): Turn {
  const [x, y, z] = turn.at;
  // Adding 0 turns a negative zero into a plain one.
  const at = [x, -y + 0, z] as const;
  return { ...turn, at, by: turn.about === 'y' ? turn.by : reversed(turn.by) };
}

function reversed({ min, max }: Range): Range {
  return { min: -max + 0, max: -min + 0 };
}

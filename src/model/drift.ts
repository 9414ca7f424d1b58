/**
 * How far a taped coordinate may be off relative to the other side, once the engine is set by tape.
 *
 * **What moves.** Every measurement m with an error is off by some e_m, at most `error` either way, and
 * all are independent. A coordinate is the sum of the measurements it rests on (`taken`): its own, its
 * datum's, the datum's that this one is taped from. The engine is set by reading a tape, along each
 * axis, from one chassis datum to one engine datum (`setFrom`) until it shows what the position makes
 * it; pitch is set by an angle finder, which is not in error here.
 *
 * **Chassis.** If the datum the engine is set from is off by e, the engine goes with it: seen from the
 * engine, every chassis coordinate moves by -e. So along its axis a coordinate is off by the sum over
 * the measurements in one of the two and not in the other: what is taped from the datum that the
 * engine is set from does not feel that datum's error, and all the rest does. A mirrored part goes the
 * other way in y, so there the two add up, and nothing cancels.
 *
 * **Engine.** If the engine datum's x is off by e, the tape makes the builder set the engine off by
 * -e cos p along the vehicle's X (p the pitch), and -e cos p X is, in the engine's axes, (-e cos p cos p,
 * 0, -e cos p sin p); likewise its z along X, and both along Z where that datum sets the height. A
 * coordinate that rests on the datum's error moves by e along its own axis besides, so the two cancel
 * but for what pitch turns aside. Rock turns the engine's solids within that shift, so the shift is
 * turned back by rock. All of it is bounded by intervals over the file's pitch range and rock.
 *
 * The bound of a coordinate is the sum over measurements of error times the largest factor. Summing
 * is sound for any signs; a solid's coordinates are then let move independently, which only adds to
 * where they can be.
 */

import { cosines, exactly, largest, negative, product, sines, sum, ZERO } from './interval.js';
import { AXES } from './scenario.js';
import type { Axis, Range, Scenario, Side, Taken } from './scenario.js';
import { setFrom } from './set-from.js';

/** Millimetres that a coordinate along an axis (0, 1, 2) may be off, given what it rests on. */
export type Drift = (taken: Taken, axis: number) => number;

/** Three intervals: a shift in the axes of the part's own side, before its mirror is applied. */
type Shift = readonly [Range, Range, Range];

const NO_SHIFT: Shift = [ZERO, ZERO, ZERO];

/** For a part of one side, mirrored or not, measured against the other side. */
export function driftOf(s: Scenario, side: Side, mirrored: boolean): Drift {
  const shifts = side === 'engine' ? engineShifts(s) : chassisShifts(s);
  return (taken, axis) => {
    const matter = new Set([...taken, ...shifts.keys()]);
    let off = 0;
    for (const m of matter) {
      const shift = (shifts.get(m) ?? NO_SHIFT)[axis]!;
      const own = exactly(taken.includes(m) ? 1 : 0);
      const factor = sum(own, mirrored && axis === 1 ? negative(shift) : shift);
      off += errorOf(s, m) * largest(factor);
    }
    return off;
  };
}

/** For a part against others of its own side, which no position moves. */
export function ownDrift(s: Scenario): Drift {
  return (taken) => taken.reduce((off, m) => off + errorOf(s, m), 0);
}

function errorOf(s: Scenario, m: number): number {
  return s.measurements[m]!.error;
}

/** By measurement: how the chassis moves, seen from the engine, per unit of its error. */
function chassisShifts(s: Scenario): ReadonlyMap<number, Shift> {
  const shifts = new Map<number, Shift>();
  AXES.forEach((axis, i) => {
    const unit = NO_SHIFT.map((_, k) => exactly(k === i ? -1 : 0)) as unknown as Shift;
    for (const m of setFrom(axis, 'chassis', s)?.taken?.[axis] ?? []) add(shifts, m, unit);
  });
  return shifts;
}

/** By measurement: how the engine's solids move in its own axes per unit of its error. */
function engineShifts(s: Scenario): ReadonlyMap<number, Shift> {
  const shifts = new Map<number, Shift>();
  const [cos, sin] = [cosines(s.position.pitch), sines(s.position.pitch)];
  // The vehicle's X and Z in the engine's axes, and the engine's x and z along each of them.
  const alongX = { x: cos, z: sin };
  const alongZ = { x: negative(sin), z: cos };
  const correct = (setBy: Axis, along: typeof alongX) => {
    const datum = setFrom(setBy, 'engine', s);
    for (const axis of ['x', 'z'] as const) {
      const by = negative(along[axis]);
      const shift: Shift = [product(by, along.x), ZERO, product(by, along.z)];
      for (const m of datum?.taken?.[axis] ?? []) add(shifts, m, rocked(shift, s.rock));
    }
  };
  correct('x', alongX);
  correct('z', alongZ);
  for (const m of setFrom('y', 'engine', s)?.taken?.y ?? []) {
    add(shifts, m, rocked([ZERO, exactly(-1), ZERO], s.rock));
  }
  return shifts;
}

/** A shift seen from a solid that rocks within it, either way. */
function rocked([x, y, z]: Shift, rock: number): Shift {
  const turn = { min: -rock, max: rock };
  const [cos, sin] = [cosines(turn), sines(turn)];
  return [x, sum(product(y, cos), product(z, sin)), sum(product(z, cos), product(y, sin))];
}

function add(shifts: Map<number, Shift>, m: number, shift: Shift): void {
  const known = shifts.get(m) ?? NO_SHIFT;
  shifts.set(m, known.map((range, axis) => sum(range, shift[axis]!)) as unknown as Shift);
}

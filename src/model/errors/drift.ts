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
 * turned back by rock. All of it is bounded by intervals over the file's pitch range and rock. For an
 * engine that leans, R its turn: an error e along its axis k moves what the tape along axis i of the vehicle
 * reads by e R[i][k], so it is set off by -e R[i][k] along that axis, which is row i of R in its own axes.
 *
 * **Turns.** A part that turns in use by t takes each of its points q to T(q - p) + p, T the turn and p its
 * pivot. With the point off by a, the pivot by b and the whole side by s as above, it comes to be off by
 * T a + (1 - T) b + s. That is what turning a solid would do whose points were off, before the turn,
 * by a + T'(s + b) - b, T' the turn back: so that is how the solid drifts. What a is the same as b, and
 * both against s, still cancels. It is bounded over all angles of the turn and 0, where a tape
 * meets the part.
 *
 * The bound of a coordinate is the sum over measurements of error times the largest factor. Summing
 * is sound for any signs; a solid's coordinates are then let move independently, which only adds to
 * where they can be.
 */

import { cosines, exactly, largest, negative, product, sines, sum, ZERO } from '../interval.js';
import { AXES } from '../scenario.js';
import type { Axis, Part, Range, Scenario, Side, Taken, Turn } from '../scenario.js';
import { setFrom } from './set-from.js';
import type { Stance } from '../stance.js';
import * as trig from '../trig.js';

/** Millimetres that a coordinate along an axis (0, 1, 2) may be off, given what it rests on. */
export type Drift = (taken: Taken, axis: number) => number;

/** How the engine leans while it is set. */
export type Lean = Pick<Stance, 'roll' | 'yaw'>;

/** Three intervals: a shift in the axes of the part's own side, before its mirror is applied. */
type Shift = readonly [Range, Range, Range];

const NO_SHIFT: Shift = [ZERO, ZERO, ZERO];

/** How what a part rests on comes to move it. */
type Moving = Pick<Part, 'mirrored' | 'turn'>;

/** For a part of one side, measured against the other side. */
export function driftOf(s: Scenario, side: Side, part: Moving, lean: Lean = UPRIGHT): Drift {
  return shiftedDrift(s, side === 'engine' ? engineShifts(s, lean) : chassisShifts(s), part);
}

/** For a part against others of its own side, which no position moves. */
export function ownDrift(s: Scenario, part: Moving): Drift {
  return shiftedDrift(s, new Map(), part);
}

/** Millimetres: the sum of the errors of the measurements that a number rests on. */
export function errorsOf(s: Scenario, taken: Taken): number {
  return taken.reduce((off, m) => off + errorOf(s, m), 0);
}

function shiftedDrift(
  s: Scenario,
  ofSide: ReadonlyMap<number, Shift>,
  { mirrored, turn }: Moving,
): Drift {
  const shifts = turn === undefined ? ofSide : turnedBack(ofSide, turn, mirrored);
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

/** By measurement: how a solid that turns drifts before its turn, in its axes already mirrored. */
function turnedBack(
  ofSide: ReadonlyMap<number, Shift>,
  { about, by, taken = {} }: Turn,
  mirrored: boolean,
): ReadonlyMap<number, Shift> {
  const back = { min: -Math.max(by.max, 0), max: -Math.min(by.min, 0) };
  const [cos, sin] = [cosines(back), sines(back)];
  const i = AXES.indexOf(about);
  const [j, k] = [(i + 1) % 3, (i + 2) % 3];
  const shifts = new Map<number, Shift>();
  for (const m of new Set([...ofSide.keys(), ...Object.values(taken).flat()])) {
    const pivot = AXES.map((axis) => {
      const own = taken[axis]?.includes(m) ? 1 : 0;
      return exactly(mirrored && axis === 'y' ? -own : own);
    });
    const both = (ofSide.get(m) ?? NO_SHIFT).map((range, axis) => sum(range, pivot[axis]!));
    const turned = [...both];
    turned[j] = sum(product(both[j]!, cos), negative(product(both[k]!, sin)));
    turned[k] = sum(product(both[k]!, cos), product(both[j]!, sin));
    shifts.set(m, turned.map((range, axis) => sum(range, negative(pivot[axis]!))) as never);
  }
  return shifts;
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

const UPRIGHT: Lean = { roll: 0, yaw: 0 };

/** By measurement: how the engine's solids move in its own axes per unit of its error. */
function engineShifts(s: Scenario, lean: Lean): ReadonlyMap<number, Shift> {
  if (lean.roll !== 0 || lean.yaw !== 0) return leaningShifts(s, lean);
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

/** The same for an engine that leans. */
function leaningShifts(s: Scenario, { roll, yaw }: Lean): ReadonlyMap<number, Shift> {
  const shifts = new Map<number, Shift>();
  const [cp, sp] = [cosines(s.position.pitch), sines(s.position.pitch)];
  const [cr, sr] = [exactly(trig.cos(roll)), exactly(trig.sin(roll))];
  const [cy, sy] = [exactly(trig.cos(yaw)), exactly(trig.sin(yaw))];
  const times = (...all: readonly Range[]): Range => all.reduce(product);
  const rows: readonly Shift[] = [
    [
      times(cy, cp),
      sum(times(cy, sp, sr), negative(times(sy, cr))),
      sum(times(cy, sp, cr), times(sy, sr)),
    ],
    [
      times(sy, cp),
      sum(times(sy, sp, sr), times(cy, cr)),
      sum(times(sy, sp, cr), negative(times(cy, sr))),
    ],
    [negative(sp), times(cp, sr), times(cp, cr)],
  ];
  AXES.forEach((setBy, i) => {
    const row = rows[i]!;
    const datum = setFrom(setBy, 'engine', s);
    AXES.forEach((axis, k) => {
      const shift = row.map((along) => negative(product(row[k]!, along))) as unknown as Shift;
      for (const m of datum?.taken?.[axis] ?? []) add(shifts, m, rocked(shift, s.rock));
    });
  });
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

/** One mount of plates and tube with the engine at its place: every piece of it, in the vehicle frame. */

import type { PlateMount } from '../../model/fitup/mounts.js';
import type { Vec3 } from '../../model/scenario.js';
import { carried, stanceOf, turnedWith } from '../../model/stance.js';
import type { Seat } from '../../model/stance.js';
import { dot, lengthOf, minus, plus } from '../../model/vector.js';
import * as trig from '../../model/trig.js';
import { faultsOf } from './faults.js';
import type { MountFault } from './faults.js';
import { gussetsOf } from './gusset.js';
import { back, between, lieOf } from './lie.js';
import type { Lie } from './lie.js';
import { basePlate, upperPlate } from './plate.js';
import type { MountPieces } from './pieces.js';
import { cutTube } from './tube.js';
import type { CutTube } from './tube.js';

export interface MountStanding {
  readonly mount: PlateMount;
  /** The middle of the boss's holes, and the pad's point. */
  readonly boss: Vec3;
  readonly pad: Vec3;
  /** From the pad to the boss, and its length. */
  readonly vector: Vec3;
  readonly reach: number;
  /** Out of the block at the boss, length 1. */
  readonly facing: Vec3;
  /** Absent where the plates do not face each other: nothing can be cut to them. */
  readonly pieces?: MountPieces;
  /** Why it cannot be made so; empty where it can. */
  readonly faults: readonly MountFault[];
}

/** Cosine of the steepest angle of a tube to a plate that is worked out at all. */
const STEEPEST = 0.05;

export function mountAt(mount: PlateMount, seat: Seat): MountStanding {
  const stance = stanceOf(seat);
  const holes = mount.boss.holes.map((hole) => carried(stance, hole));
  const boss = holes.reduce<Vec3>((sum, hole) => plus(sum, hole, 1 / holes.length), [0, 0, 0]);
  const facing = turnedWith(stance, mount.boss.normal);
  const pad = mount.pad.at;
  const vector = minus(boss, pad);
  const known = { mount, boss, pad, vector, reach: lengthOf(vector), facing };
  const from = plus(pad, mount.pad.normal, mount.base.thick);
  const to = plus(boss, facing, (mount.insulator?.height ?? 0) + mount.upper.thick);
  const run = minus(to, from);
  const least = STEEPEST * lengthOf(run);
  if (dot(run, mount.pad.normal) <= least) return { ...known, faults: [{ of: 'boss below pad' }] };
  if (-dot(run, facing) <= least) return { ...known, faults: [{ of: 'pad behind boss' }] };
  const normals = { base: mount.pad.normal, upper: facing };
  const tube = cutTube(mount.tube, from, to, normals);
  const base = basePlate(mount, from, normals.base, lieOf(normals.base));
  // Drawn in the engine's own directions: the pattern of holes does not turn with the pitch.
  const own = lieOf(mount.boss.normal);
  const lie: Lie = {
    along: turnedWith(stance, own.along),
    across: turnedWith(stance, own.across),
    u: turnedWith(stance, own.u),
    v: turnedWith(stance, own.v),
    up: own.up,
  };
  const foot = footOf(tube, facing, lie);
  const upper = upperPlate(mount, to, facing, lie, holes, foot);
  const gussets = gussetsOf(tube, mount.gussets);
  const pieces = { base, upper, tube, gussets, tilt: between(normals.base, back(normals.upper)) };
  return { ...known, pieces, faults: faultsOf(pieces, mount) };
}

/** How far the tube's foot on a plate reaches from its centre along u and v: a disc seen along the axis. */
function footOf({ axis, radius }: CutTube, normal: Vec3, { u, v }: Lie): readonly [number, number] {
  // The foot is an ellipse, long in the direction in which the tube leans, by 1 / cos.
  const lean = plus(axis, normal, -dot(axis, normal));
  const over = 1 / trig.squared(dot(axis, normal));
  const half = (way: Vec3): number => radius * Math.sqrt(1 + over * trig.squared(dot(lean, way)));
  return [half(u), half(v)];
}

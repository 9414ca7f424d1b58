/**
 * Where a gap is: the two places between which a rule is measured, in the vehicle frame. Millimetres.
 */

import { createGap, gapBetween } from '../geometry/gap.js';
import { support } from '../geometry/reach.js';
import type { Shape } from '../geometry/shape.js';
import { partUnder, sideOf } from '../model/options.js';
import type { OptionSet, Position, Scenario, Vec3 } from '../model/scenario.js';
import { dot, plus } from '../model/vector.js';
import * as trig from '../model/trig.js';
import type { Reading } from '../solver/answer.js';
import { compileBay } from '../solver/measuring/compile.js';
import type { Bay } from '../solver/measuring/bay.js';
import type { Contact } from '../solver/measuring/contact.js';
import { alongAxis } from '../solver/measuring/fixed.js';
import { chassisAt } from '../solver/measuring/motion.js';
import { createProbe, probe } from '../solver/measuring/probe.js';
import { keyOf } from '../solver/measuring/reading-key.js';
import { solidsOf } from '../solver/measuring/solids.js';

/** Two places and the way between them: `gap` is `along . (from - to)`, below 0 where parts overlap. */
export interface Witness {
  /** On the reading's first part. */
  readonly from: Vec3;
  /** On its second. */
  readonly to: Vec3;
  /** Unit, from the second part to the first: the way that the gap is measured. */
  readonly along: Vec3;
  readonly gap: number;
}

/** Where a reading's gap is on the still vehicle and, where a motion makes it less, at the worst moment. */
interface Witnesses {
  readonly atRest: Witness;
  /** Absent where nothing moves, or both parts ride together and no position changes their gap. */
  readonly inUse?: Witness;
}

type Asked = Pick<Reading, 'between' | 'measured' | 'comingOut' | 'withdrawn' | 'fixed' | 'atRest'>;

/** Finds where readings under one option set are taken, with the engine at a position. */
export type WitnessFinder = (reading: Asked, position: Position) => Witnesses | undefined;

/**
 * Makes the bay ready once; what it returns may be asked at any position. A reading of another scenario or
 * another option set has no witnesses.
 */
export function witnessFinder(scenario: Scenario, set: OptionSet): WitnessFinder {
  const bay = compileBay(scenario, { allowed: set.map((option) => [option]) });
  return (reading, position) =>
    reading.fixed
      ? fixedWitnesses(scenario, set, reading, position)
      : contactWitnesses(bay, set, reading, position);
}

function contactWitnesses(
  bay: Bay,
  set: OptionSet,
  reading: Asked,
  position: Position,
): Witnesses | undefined {
  const group = bay.groups.find(
    (one) => keyOf(one) === keyOf(reading) && one.withdrawn === reading.withdrawn?.part,
  );
  const ids = group?.combos[group.comboOf(set)]?.contacts ?? [];
  const contacts = ids.map((id) => bay.contacts[id]!);
  const atRest = least(contacts.map((contact) => restWitness(contact, position)));
  if (atRest === undefined) return undefined;
  const moving = contacts.some(moves);
  const inUse = moving ? least(contacts.map((contact) => useWitness(contact, position))) : atRest;
  return { atRest, ...(inUse && inUse !== atRest && { inUse }) };
}

/** Whether anything but the position changes what the contact is measured between. */
function moves(c: Contact): boolean {
  return (
    c.rock > 0 ||
    c.motion !== undefined ||
    c.engine !== c.engineStill ||
    c.chassis !== c.chassisStill
  );
}

function restWitness(c: Contact, position: Position): Witness {
  const { setback, offset, height, pitch } = position;
  const engine = c.engineStill.at(pitch, 0);
  const at: Vec3 = [setback, offset, height];
  if (c.axis < 0) return nearest(engine, c.chassisStill, at);
  return alongWitness(engine, c.chassisStill, at, alongAxis(c.axis, c.sign));
}

/** At the worst moment of the motions; on the solids as they stand then. */
function useWitness(c: Contact, { setback, offset, height, pitch }: Position): Witness {
  const found = createProbe();
  probe(c, setback, offset, height, pitch, found);
  const [cos, sin] = [trig.cos(pitch), trig.sin(pitch)];
  const engine: Vec3 = [
    setback + found.ex * cos + found.ez * sin,
    offset + found.ey,
    height - found.ex * sin + found.ez * cos,
  ];
  const along: Vec3 = [found.nx, found.ny, found.nz];
  const chassis = chassisAt(c, found);
  const core: Vec3 =
    c.axis < 0 ? [found.bx, found.by, found.bz] : farthest(chassis, along, [0, 0, 0]);
  return joined(engine, core, along, c.engine.shape.ball, chassis.ball, c.axis < 0);
}

const scratch = createGap();
const point = new Float64Array(3);

function nearest(a: Shape, b: Shape, [x, y, z]: Vec3): Witness {
  scratch.nx = scratch.ny = scratch.nz = 0;
  gapBetween(a, b, x, y, z, scratch);
  const { ax, ay, az, bx, by, bz, nx, ny, nz } = scratch;
  return joined([ax, ay, az], [bx, by, bz], [nx, ny, nz], a.ball, b.ball, true);
}

/** Between the extents of two solids along a direction. */
function alongWitness(a: Shape, b: Shape, at: Vec3, along: Vec3): Witness {
  const back: Vec3 = [-along[0], -along[1], -along[2]];
  return joined(farthest(a, back, at), farthest(b, along, [0, 0, 0]), along, a.ball, b.ball, false);
}

/** A point of the core that lies farthest along a direction. */
function farthest(shape: Shape, [x, y, z]: Vec3, at: Vec3): Vec3 {
  support(shape, x, y, z, point);
  return [point[0]! + at[0], point[1]! + at[1], point[2]! + at[2]];
}

/** @param free whether the way may be that between the two points, which rounding spoils least. */
function joined(
  coreA: Vec3,
  coreB: Vec3,
  n: Vec3,
  ballA: number,
  ballB: number,
  free: boolean,
): Witness {
  const between: Vec3 = [coreA[0] - coreB[0], coreA[1] - coreB[1], coreA[2] - coreB[2]];
  const apart = trig.hypot(...between);
  const isApart = free && apart > FAR && dot(n, between) > 0;
  const along: Vec3 = isApart
    ? [between[0] / apart, between[1] / apart, between[2] / apart]
    : [n[0], n[1], n[2]];
  const from = plus(coreA, along, -ballA);
  const to = plus(coreB, along, ballB);
  return { from, to, along, gap: dot(along, between) - ballA - ballB };
}

/** Millimetres between two points from which they tell a direction. */
const FAR = 1e-4;

function least(all: readonly Witness[]): Witness | undefined {
  return all.reduce<Witness | undefined>(
    (best, one) => (best && best.gap <= one.gap ? best : one),
    undefined,
  );
}

/** Of two parts of one side: as drawn, and carried to where the engine is if they ride with it. */
function fixedWitnesses(
  scenario: Scenario,
  set: OptionSet,
  reading: Asked,
  position: Position,
): Witnesses | undefined {
  const [a, b] = reading.between.map((name) => partUnder(scenario.oneSide ?? scenario, name, set));
  if (!a || !b) return undefined;
  const pairs = solidsOf(a).still.flatMap((one) =>
    solidsOf(b).still.map((other) => [one, other] as const),
  );
  const origin: Vec3 = [0, 0, 0];
  const axis = AXIS[reading.measured];
  const found =
    axis < 0
      ? least(pairs.map(([one, other]) => nearest(one, other, origin)))
      : bySide(pairs, axis, reading.atRest);
  if (found === undefined) return undefined;
  const side = sideOf(scenario, reading.between[0]);
  return { atRest: side === 'chassis' ? found : carried(found, position) };
}

const AXIS = { nearest: -1, 'fore-aft': 0, 'side-to-side': 1, 'up-down': 2 } as const;

/** On whichever side of the other the first part lies: the side that the reading tells of. */
function bySide(
  pairs: readonly (readonly [Shape, Shape])[],
  axis: number,
  gap: number,
): Witness | undefined {
  const [over, under] = ([1, -1] as const).map((sign) =>
    least(pairs.map(([a, b]) => alongWitness(a, b, [0, 0, 0], alongAxis(axis, sign)))),
  );
  if (!over || !under) return undefined;
  return Math.abs(over.gap - gap) <= Math.abs(under.gap - gap) ? over : under;
}

/** What lies in the engine's frame, in the vehicle's. */
function carried(witness: Witness, position: Position): Witness {
  const { setback, offset, height, pitch } = position;
  const [cos, sin] = [trig.cos(pitch), trig.sin(pitch)];
  const turn = ([x, y, z]: Vec3): Vec3 => [x * cos + z * sin, y, z * cos - x * sin];
  const move = (place: Vec3): Vec3 => plus(turn(place), [setback, offset, height]);
  return {
    from: move(witness.from),
    to: move(witness.to),
    along: turn(witness.along),
    gap: witness.gap,
  };
}

import { partUnder } from '../../model/options.js';
import type { OptionSet, Scenario, Vec3 } from '../../model/scenario.js';
import {
  carried,
  leans,
  slopesAlong,
  stanceFrom,
  stanceOf,
  stanceVector,
} from '../../model/stance.js';
import type { Seat, Stance } from '../../model/stance.js';
import type { LimitReading, Reading, Standing } from '../answer.js';
import { compileBay } from './compile.js';
import { Leaning } from './leaning.js';
import type { Bay, FixedGroup, Group } from './bay.js';
import type { Contact } from './contact.js';
import { DECISION_SLACK, LIMIT_SLACK } from '../decision.js';
import { limitSlack, limitValue } from './limits.js';
import { Meter } from './meter.js';
import { TURN_TOLERANCE } from '../../geometry/motion/moved-gap.js';
import { ROCK_TOLERANCE } from '../../geometry/motion/rocked-gap.js';
import { createProbe, gapAtRest, probe } from './probe.js';
import type { Probe } from './probe.js';
import { isOpen } from './view.js';

/** Millimetres by which the least gap over a motion may be printed below what it is. */
const BRACKET = Math.max(ROCK_TOLERANCE, TURN_TOLERANCE);

/** Millimetres within which a rule counts as at the tightest margin. */
const BINDING_WITHIN = 0.0254;

/**
 * Every rule measured at one position, or stance with roll and yaw, under one option set, exactly: gaps are
 * certified from below, tightest margin first. Millimetres and radians, vehicle frame.
 */
export function measureAt(scenario: Scenario, set: OptionSet, at: Seat): Standing {
  const bay = compileBay(scenario, { allowed: set.map((option) => [option]) });
  return standingAt(new Meter(bay), set, vectorOf(at));
}

/** Four numbers in the order of `positionOf`; six where the engine leans, in that of `stanceFrom`. */
export function vectorOf(p: Seat): Float64Array {
  if (leans(p)) return stanceVector(p);
  return Float64Array.of(p.setback, p.offset, p.height, p.pitch);
}

export function positionOf(x: ArrayLike<number>): Seat {
  if (x.length === 6) return stanceFrom(x);
  return { setback: x[0]!, offset: x[1]!, height: x[2]!, pitch: x[3]! };
}

/**
 * `measureAt` on a compiled bay, which must allow the set; `x` as `vectorOf` has it.
 * @param depth rules across the sides further above the tightest than this, millimetres, may be left out.
 */
export function standingAt(
  meter: Meter,
  set: OptionSet,
  x: Float64Array,
  depth = Infinity,
): Standing {
  const { bay } = meter;
  const near = depth === Infinity ? undefined : nearTightest(meter, set, x, depth);
  const readings = readingsAt(meter, set, x, (group) => !near || near(group));
  for (const group of bay.fixed) {
    const reading = readFixed(bay, group, set);
    if (reading) readings.push(reading);
  }
  readings.sort((a, b) => a.margin - b.margin);
  const free = readings.filter((reading) => !reading.fixed);
  const tightest = free[0]?.margin ?? Infinity;
  const limits = readLimits(meter, set, x);
  const margin = readings[0]?.margin ?? Infinity;
  return {
    position: positionOf(x),
    margin,
    fits: margin >= -DECISION_SLACK && limits.every((limit) => limit.met),
    readings: readings.map((reading) =>
      reading.fixed
        ? reading
        : { ...reading, binding: reading.margin <= tightest + BINDING_WITHIN },
    ),
    limits,
  };
}

/** Tells the groups that may be within `depth` of the tightest margin at a place: all that are, and some more. */
function nearTightest(
  meter: Meter,
  set: OptionSet,
  x: Float64Array,
  depth: number,
): (group: Group) => boolean {
  const most = meter.marginAt(meter.contactsOf(set), x, -Infinity) + depth;
  return (group) => {
    const contacts = group.combos[group.comboOf(set)]?.contacts ?? [];
    return contacts.some((id) => {
      const contact = meter.bay.contacts[id]!;
      return meter.rememberedAt(contact, x) - contact.needed <= most;
    });
  };
}

/** The rules across the sides that are asked for, measured as `standingAt` does, in the order of the bay. */
export function readingsAt(
  meter: Meter,
  set: OptionSet,
  x: Float64Array,
  isAsked: (group: Group) => boolean,
): Reading[] {
  const measured = leans(positionOf(x)) ? leaningMeasure(x) : levelMeasure(meter, x);
  return meter.bay.groups.filter(isAsked).flatMap((group) => {
    const reading = readGroup(meter.bay, group, set, measured);
    return reading ? [reading] : [];
  });
}

/** How a contact is measured where the engine sits. */
interface Measured {
  /** Its direction n in the vehicle frame. */
  inUse(contact: Contact, out: Probe): void;
  atRest(contact: Contact): number;
  /** The turn of where the engine sits, at the origin. */
  readonly turn: Stance;
}

function levelMeasure(meter: Meter, x: Float64Array): Measured {
  return {
    inUse: (contact, out) => meter.measureAfresh(contact, x, out),
    atRest: (contact) => gapAtRest(contact, x[0]!, x[1]!, x[2]!, x[3]!),
    turn: stanceOf({ setback: 0, offset: 0, height: 0, pitch: x[3]! }),
  };
}

/** Leaves the meter's memory alone, which is of level engines. */
function leaningMeasure(at: Float64Array): Measured {
  const stance = stanceFrom(at);
  const leaning = new Leaning(stance);
  const [x, y, z, pitch] = leaning.x as unknown as [number, number, number, number];
  return {
    inUse: (contact, out) => {
      out.nx = out.ny = out.nz = NaN;
      probe(leaning.contact(contact), x, y, z, pitch, out);
      [out.nx, out.ny, out.nz] = leaning.inVehicle([out.nx, out.ny, out.nz]);
    },
    atRest: (contact) => gapAtRest(leaning.contact(contact), x, y, z, pitch),
    turn: { ...stance, setback: 0, offset: 0, height: 0 },
  };
}

/** What moving and turning the engine does to the gap that a probe has found. */
function slopeOf({ nx, ny, nz, ex, ey, ez }: Probe, turn: Stance): Stance {
  const n: Vec3 = [nx, ny, nz];
  return stanceFrom(slopesAlong(turn, carried(turn, [ex, ey, ez]), n));
}

const scratch = createProbe();

function readGroup(
  bay: Bay,
  group: Group,
  set: OptionSet,
  measured: Measured,
): Reading | undefined {
  const combo = group.combos[group.comboOf(set)];
  if (!combo?.rule || combo.contacts.length === 0) return undefined;
  let gap = Infinity;
  let atRest = Infinity;
  let slope: Stance | undefined;
  for (const id of combo.contacts) {
    const contact = bay.contacts[id]!;
    measured.inUse(contact, scratch);
    if (scratch.lower < gap) {
      gap = scratch.lower;
      slope = slopeOf(scratch, measured.turn);
    }
    const still = standsStill(contact);
    atRest = Math.min(atRest, still ? scratch.lower : measured.atRest(contact));
  }
  return {
    between: group.between,
    measured: group.measured,
    comingOut: group.comingOut,
    ...withdrawal(bay, group, set),
    rule: combo.rule,
    needed: combo.needed,
    gap,
    // Where rest is one of the motion's moments, the brackets must not print it the smaller.
    atRest: gap - atRest <= BRACKET ? Math.max(atRest, gap) : atRest,
    margin: gap - combo.needed,
    fixed: false,
    binding: false,
    ...(slope && { slope }),
  };
}

/** Whether its gap in use is its gap at rest: it is measured between the same solids, and neither moves. */
function standsStill(c: Contact): boolean {
  return c.rock === 0 && !c.motion && c.engine === c.engineStill && c.chassis === c.chassisStill;
}

function withdrawal(bay: Bay, { withdrawn }: Group, set: OptionSet): Pick<Reading, 'withdrawn'> {
  const room = withdrawn && partUnder(bay.scenario, withdrawn, set)?.part.comesOut;
  return room ? { withdrawn: { part: withdrawn, room } } : {};
}

function readFixed(bay: Bay, group: FixedGroup, set: OptionSet): Reading | undefined {
  const domains = set.map((option) => [option]);
  const combo = group.combos.find((c) => isOpen(group.choices, c.options, domains));
  if (!combo?.holds || !combo.rule) return undefined;
  return {
    between: group.between,
    measured: group.measured,
    comingOut: false,
    rule: combo.rule,
    needed: combo.needed,
    gap: combo.gap,
    atRest: combo.atRest,
    margin: combo.gap - combo.needed,
    fixed: true,
    binding: false,
  };
}

function readLimits(meter: Meter, set: OptionSet, x: Float64Array): LimitReading[] {
  return meter.contactsOf(set).limits.flatMap((limit) => {
    const value = limitValue(limit, set, x);
    if (value === undefined) return [];
    return [{ limit: limit.limit, value, met: limitSlack(limit, set, x) >= -LIMIT_SLACK }];
  });
}

import { partUnder } from '../../model/options.js';
import type { OptionSet, Position, Scenario } from '../../model/scenario.js';
import type { LimitReading, Reading, Standing } from '../answer.js';
import { compileBay } from './bay.js';
import type { Bay, FixedGroup, Group } from './bay.js';
import type { Contact } from './contact.js';
import { DECISION_SLACK } from '../decision.js';
import { LIMIT_SLACK, limitSlack, limitValue } from './limits.js';
import { Meter } from './meter.js';
import { TURN_TOLERANCE } from '../../geometry/motion/moved-gap.js';
import { ROCK_TOLERANCE } from '../../geometry/motion/rocked-gap.js';
import { createProbe, gapAtRest } from './probe.js';
import { isOpen } from './view.js';

/** Millimetres by which the least gap over a motion may be printed below what it is. */
const BRACKET = Math.max(ROCK_TOLERANCE, TURN_TOLERANCE);

/** Millimetres within which a rule counts as at the tightest margin. */
const BINDING_WITHIN = 0.0254;

/**
 * Every rule measured at one position under one option set, exactly: gaps are certified from below,
 * tightest margin first. Millimetres and radians, vehicle frame.
 */
export function measureAt(scenario: Scenario, set: OptionSet, position: Position): Standing {
  const bay = compileBay(scenario, { allowed: set.map((option) => [option]) });
  return standingAt(new Meter(bay), set, vectorOf(position));
}

/** A position as a vector, in the order of `positionOf`. */
export function vectorOf(p: Position): Float64Array {
  return Float64Array.of(p.setback, p.offset, p.height, p.pitch);
}

export function positionOf(x: ArrayLike<number>): Position {
  return { setback: x[0]!, offset: x[1]!, height: x[2]!, pitch: x[3]! };
}

/** `measureAt` on a compiled bay, which must allow the set. */
export function standingAt(meter: Meter, set: OptionSet, x: Float64Array): Standing {
  const { bay } = meter;
  const readings: Reading[] = [];
  for (const group of bay.groups) {
    const reading = readGroup(meter, group, set, x);
    if (reading) readings.push(reading);
  }
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

const scratch = createProbe();

function readGroup(
  meter: Meter,
  group: Group,
  set: OptionSet,
  x: Float64Array,
): Reading | undefined {
  const combo = group.combos[group.comboOf(set)];
  if (!combo?.rule || combo.contacts.length === 0) return undefined;
  let gap = Infinity;
  let atRest = Infinity;
  let slope: Position | undefined;
  for (const id of combo.contacts) {
    const contact = meter.bay.contacts[id]!;
    meter.measureAfresh(contact, x, scratch);
    if (scratch.lower < gap) {
      gap = scratch.lower;
      const cos = Math.cos(x[3]!);
      const sin = Math.sin(x[3]!);
      const px = scratch.ex * cos + scratch.ez * sin;
      const pz = -scratch.ex * sin + scratch.ez * cos;
      const { nx, ny, nz } = scratch;
      slope = { setback: nx, offset: ny, height: nz, pitch: nx * pz - nz * px };
    }
    const still = standsStill(contact);
    const rest = still ? scratch.lower : gapAtRest(contact, x[0]!, x[1]!, x[2]!, x[3]!);
    atRest = Math.min(atRest, rest);
  }
  return {
    between: group.between,
    measured: group.measured,
    comingOut: group.comingOut,
    ...withdrawal(meter.bay, group, set),
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

/** Mounts for programs: lengths, forces and weights in the units asked for, angles in degrees. */

import { loadsAt, supportedUnder } from '../../geometry/mounts/load-cases.js';
import type { LoadStanding } from '../../geometry/mounts/load-cases.js';
import { stockOf } from '../../geometry/mounts/stock.js';
import { mountAt } from '../../geometry/mounts/standing.js';
import type { MountStanding } from '../../geometry/mounts/standing.js';
import { inForceUnits, inTorqueUnits } from '../../model/text/force.js';
import { inMassUnit, massUnit } from '../../model/text/mass.js';
import type { Mounts } from '../../model/fitup/mounts.js';
import type { OptionSet, Scenario, Vec3 } from '../../model/scenario.js';
import type { Seat } from '../../model/stance.js';
import { inUnits } from '../../model/text/tape.js';
import type { Units } from '../../model/text/tape.js';
import * as trig from '../../model/trig.js';
import type { Placement } from '../../solver/answer.js';
import { DECISION_SLACK } from '../../solver/decision.js';
import { mountGaps } from '../../solver/fitup/mount-gaps.js';
import type { MountGap, MountGaps } from '../../solver/fitup/mount-gaps.js';
import { leanJson } from './placement.js';

export interface MountsAnswer extends MountGaps {
  readonly mounts: Mounts;
  readonly position: Seat;
  readonly standings: readonly MountStanding[];
  readonly loads: LoadStanding;
  /** Where the engine was searched for: whether it fits there, and whether that is proved to be the best. */
  readonly found?: Pick<Placement, 'fits' | 'best'>;
}

/** The mounts worked out with the engine there, all that is told of them. */
export function mountsAnswer(
  scenario: Scenario,
  mounts: Mounts,
  set: OptionSet,
  position: Seat,
  found?: MountsAnswer['found'],
): MountsAnswer {
  const standings = mounts.make.map((mount) => mountAt(mount, position));
  return {
    mounts,
    position,
    standings,
    ...mountGaps(scenario, set, position, standings),
    loads: loadsAt(mounts, position, supportedUnder(scenario, set)),
    ...(found && { found }),
  };
}

/** Whether every mount can be made, and leaves what it must. */
export function isMade({ standings, gaps }: Pick<MountsAnswer, 'standings' | 'gaps'>): boolean {
  return standings.every(({ faults }) => faults.length === 0) && gaps.every(isClear);
}

export function isClear({ margin }: Pick<MountGap, 'margin'>): boolean {
  return margin >= -DECISION_SLACK;
}

interface As {
  readonly units: Units;
  readonly length: (mm: number) => number;
  readonly angle: (radians: number) => number;
}

export function mountsJson(
  answer: MountsAnswer & { readonly written: readonly string[] },
  { scenario, units }: { readonly scenario: Scenario; readonly units: Units },
): object {
  const as: As = {
    units,
    length: (mm) => rounded(inUnits(mm, units), 5),
    angle: (radians) => rounded((radians * 180) / Math.PI, 5),
  };
  const { position, standings, gaps, contacts, found, written } = answer;
  return {
    title: scenario.title,
    units,
    clear: isMade(answer),
    ...(found && { fits: found.fits, best: found.best }),
    position: {
      setback: as.length(position.setback),
      offset: as.length(position.offset),
      height: as.length(position.height),
      pitch: as.angle(position.pitch),
      ...leanJson(position),
    },
    mounts: standings.map((standing) => mountJson(standing, as)),
    gaps: gaps.map(({ piece, other, comingOut, needed, gap, atRest, margin }) => ({
      piece,
      other,
      comingOut,
      needed: as.length(needed),
      ...(Number.isFinite(gap) && {
        gap: as.length(gap),
        atRest: as.length(atRest),
        margin: as.length(margin),
      }),
    })),
    fixedTo: contacts.map(({ piece, part, gap }) => ({ piece, part, gap: as.length(gap) })),
    loads: loadsJson(answer.loads, answer.mounts, as),
    ...(written.length > 0 && { written }),
  };
}

function mountJson({ mount, vector, reach, pieces, faults }: MountStanding, as: As): object {
  const { length, angle } = as;
  const known = {
    name: mount.name,
    padToBoss: vector.map(length),
    trueLength: length(reach),
    solid: mount.insulator === undefined,
    faults: faults.map((fault) => faultJson(fault, as)),
  };
  if (!pieces) return known;
  const { tube, gussets, tilt } = pieces;
  const { base, upper } = tube.cuts;
  const cut = (one: typeof base) => ({
    offSquare: angle(one.mitre),
    longSideLonger: length(one.longer),
    longSideClock: angle(one.long),
  });
  return {
    ...known,
    tilt: angle(tilt),
    tube: {
      centreline: length(tube.length),
      overall: length(tube.overall),
      shortest: length(tube.shortest),
      base: cut(base),
      upper: cut(upper),
      cutsRound: angle(tube.round),
      ...leansOf(tube.axis, angle),
    },
    gussets: gussets.map((gusset) => ({
      end: gusset.end,
      number: gusset.number,
      clock: angle(gusset.clock),
      angle: angle(gusset.angle),
      onPlate: length(mount.gussets!.onPlate),
      onTube: length(mount.gussets!.onTube),
      slant: length(gusset.slant),
    })),
    cutList: stockOf(pieces).map((piece) => ({
      ...piece,
      ...(piece.of === 'tube'
        ? {
            diameter: length(piece.diameter),
            wall: length(piece.wall),
            length: length(piece.length),
          }
        : {
            thick: length(piece.thick),
            size: piece.size.map(length),
            ...(piece.legs && {
              legs: {
                onPlate: length(piece.legs.onPlate),
                onTube: length(piece.legs.onTube),
                angle: angle(piece.legs.angle),
              },
            }),
          }),
      mass: rounded(inMassUnit(piece.mass, massUnit(as.units)), 5),
    })),
  };
}

/** How a tube lies: from straight across in plan, and from plumb in side and front view. */
export function leansOf<T>(
  [x, y, z]: Vec3,
  angle: (radians: number) => T,
): { readonly plan: T; readonly sideView: T; readonly frontView: T } {
  return {
    plan: angle(trig.atan2(x, Math.abs(y))),
    sideView: angle(trig.atan2(x, z)),
    frontView: angle(trig.atan2(y, z)),
  };
}

function faultJson(fault: MountStanding['faults'][number], { length, angle }: As): object {
  switch (fault.of) {
    case 'too sharp':
      return { ...fault, mitre: angle(fault.mitre) };
    case 'no tube left':
      return { ...fault, shortest: length(fault.shortest) };
    case 'tube off plate':
      return { ...fault, by: length(fault.by) };
    case 'gussets too long':
      return { ...fault, needs: length(fault.needs), has: length(fault.has) };
    default:
      return fault;
  }
}

function loadsJson({ supports, mass, cases }: LoadStanding, { loads }: Mounts, as: As): object {
  const { units, length } = as;
  const force = (newtons: number): number => rounded(inForceUnits(newtons, units), 3);
  return {
    forceUnits: units === 'in' ? 'lbf' : 'N',
    momentUnits: units === 'in' ? 'lbf ft' : 'N m',
    ...(mass && {
      supported: {
        weight: rounded(inMassUnit(mass.kilograms, massUnit(units)), 3),
        at: mass.at.map(length),
      },
    }),
    ...(loads.torque && {
      torque: {
        engine: rounded(inTorqueUnits(loads.torque.engine, units), 3),
        gear: loads.torque.gear,
        loadFactor: loads.torque.factor,
        loadFactorBy: loads.torque.factorBy,
      },
    }),
    supports: supports.map(({ name, at }) => ({ name, at: at.map(length) })),
    cases: cases.map(({ of, times, forces, left }) => ({
      case: of,
      times: rounded(times, 6),
      onSupports: forces.map((vector) => vector.map(force)),
      momentLeft: left.map((one) => rounded(inTorqueUnits(one / 1000, units), 3)),
    })),
  };
}

function rounded(value: number, places: number): number {
  return Number(value.toFixed(places)) + 0;
}

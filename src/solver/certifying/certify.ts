/**
 * The certificate of an answer: what is claimed, each claim with its tree, and the answer's places with the
 * directions that part every pair there. Written for `src/verify`, which believes none of it.
 */

import { norm } from '../../model/trig.js';
import { createGap, gapBetween } from '../../geometry/gap.js';
import { createMovedGap, movedGap, TURN_TOLERANCE } from '../../geometry/motion/moved-gap.js';
import { movingPair } from '../../geometry/motion/moving-pair.js';
import { CERTIFICATE_FORMAT } from '../../model/certificate.js';
import type {
  Certificate,
  CertifiedPair,
  CertifiedPlace,
  Claim,
  Four,
} from '../../model/certificate.js';
import { partUnder, workOf } from '../../model/options.js';
import type { OptionDomains } from '../../model/options.js';
import type { OptionSet, PositionRanges, Scenario, Vec3 } from '../../model/scenario.js';
import { vectorOf } from '../measuring/measure.js';
import type { PlaceAnswer, Progress, Standing } from '../answer.js';
import type { PlaceRequest, Signal } from '../asked.js';
import { endsOf } from '../box.js';
import { DECISION_SLACK } from '../decision.js';
import { compileBay } from '../measuring/compile.js';
import type { Bay } from '../measuring/bay.js';
import type { Contact } from '../measuring/contact.js';
import { Meter } from '../measuring/meter.js';
import { chassisAt, engineAt } from '../measuring/motion.js';
import { createProbe } from '../measuring/probe.js';
import { solidsOf as solidsOfPart } from '../measuring/solids.js';
import { MARGIN } from '../searching/objective.js';
import type { SearchRequest } from '../searching/request.js';
import { pairOfGroup, solidsOf } from './certified-pair.js';
import { Refutation } from './refutation.js';

/** A certificate but for what only its text has. */
export type Unsealed = Omit<Certificate, 'digest' | 'scenario'>;

/** Why there is none. */
export interface Uncertified {
  readonly why: string;
}

/**
 * Write the proof of an answer down. Yields like `place`; stopped, there is none.
 * @param scenario what was searched: the worst case of a file's errors where that was asked.
 * @param answer of a finished search for the roomiest place.
 */
export function* certify(
  scenario: Scenario,
  request: PlaceRequest,
  answer: PlaceAnswer,
  guaranteed: boolean,
): Generator<Progress, Unsealed | Uncertified, Signal> {
  const { main } = answer;
  if (answer.aim !== 'margin') return { why: 'only the roomiest place has a certificate' };
  if (answer.stopped || main.best !== 'proved') return { why: 'nothing is proved of it' };
  if (!main.optimum.limits.every(({ met }) => met)) return { why: 'no place keeps its limits' };
  const bay = compileBay(scenario, { allowed: request.allowed });
  const meter = new Meter(bay);
  const ranges: PositionRanges = { ...scenario.position, ...request.pins };
  const names = new PairNames();
  const claims: Claim[] = [];
  for (const { about, most, domains, less } of claimsOf(answer, bay, request.tolerance)) {
    const search: SearchRequest = {
      meter,
      domains,
      objective: MARGIN,
      ranges,
      tolerance: request.tolerance,
      start: [],
      // Then the choice that stops the cheapest set is decided first.
      ...(less && { reach: most }),
    };
    const work = less && workOf(scenario, main.options);
    const refutation = new Refutation(
      { request: search, most, ...(work && { less: work }) },
      (pair) => names.numberOf(pair),
    );
    const steps = refutation.tree();
    let step = steps.next(true);
    while (!step.done) {
      const signal = yield { doing: 'certificate', effort: meter.counts() };
      step = steps.next(signal === 'go');
    }
    if (!step.value) return { why: refutation.why };
    claims.push({ about, most, tree: step.value });
  }
  const placed = (standing: Standing): CertifiedPlace =>
    placeOf(bay, meter, main.options, standing, names);
  const { lo, hi } = endsOf(ranges);
  return {
    certificate: CERTIFICATE_FORMAT,
    title: scenario.title,
    asked: {
      guaranteed,
      from: [...lo] as unknown as Four,
      to: [...hi] as unknown as Four,
      allowed: request.allowed,
    },
    answer: {
      options: main.options,
      place: placed(main.optimum),
      setting: placed(main.setting),
    },
    claims,
    pairs: names.list,
  };
}

interface ToClaim {
  readonly about: Claim['about'];
  readonly most: number;
  readonly domains: OptionDomains;
  readonly less?: true;
}

/** What the answer says, as claims: each bound no tighter than the answer's tolerance asks for. */
function claimsOf(answer: PlaceAnswer, bay: Bay, tolerance: number): ToClaim[] {
  const { main, bestBound, cheaperUndecided } = answer;
  const own = main.options.map((option) => [option]);
  const best = main.optimum.margin;
  // A bound may be as loose as it is proved to be, as long as it says what the answer says; and some of the
  // tolerance is left even where a set that is not taken has all that its bound allows: rows with their proof lie a
  // hair above what there is.
  const loosened = (bound: number, least: number): number => {
    const loose = Math.max(bound + tolerance / 4, least + tolerance);
    return bound < -DECISION_SLACK ? Math.min(loose, bound / 2) : loose;
  };
  const claims: ToClaim[] = [
    {
      about: 'all options',
      most: loosened(bestBound, best),
      domains: bay.domains,
    },
  ];
  if (bay.domains.some((domain) => domain.length > 1)) {
    claims.push({ about: 'these options', most: loosened(main.bound, best), domains: own });
    // Cheaper sets were refuted at what is best less `worth`; that may lie a hair above what they leave.
    const reach = bestBound - bay.scenario.worth + tolerance;
    if (cheaperUndecided.length === 0) {
      claims.push({ about: 'less work', most: reach, domains: bay.domains, less: true });
    }
  }
  return claims;
}

/** The pairs that a certificate speaks of, numbered as they come. */
class PairNames {
  readonly list: CertifiedPair[] = [];
  private readonly numbers = new Map<string, number>();

  numberOf(pair: CertifiedPair): number {
    const key = JSON.stringify([pair.parts, pair.measured, pair.out ?? '']);
    let number = this.numbers.get(key);
    if (number === undefined) {
      this.numbers.set(key, (number = this.list.length));
      this.list.push(pair);
    }
    return number;
  }
}

const probe = createProbe();
const gap = createGap();
const moved = createMovedGap();

/** A standing with the directions that part every pair of solids there. */
function placeOf(
  bay: Bay,
  meter: Meter,
  set: OptionSet,
  standing: Standing,
  names: PairNames,
): CertifiedPlace {
  const x = vectorOf(standing.position);
  const parted: (readonly [number, readonly [number, number], Vec3])[] = [];
  const domains = set.map((option) => [option]);
  for (const id of meter.contactsOf(set).contacts) {
    const contact = bay.contacts[id]!;
    if (contact.axis >= 0) continue;
    const group = bay.groups[contact.group]!;
    const pair = names.numberOf(pairOfGroup(group));
    const solids = solidsOf(bay.scenario, group, id, domains);
    for (const along of directionsOf(contact, x, meter)) parted.push([pair, solids, along]);
  }
  const all = [...parted, ...withinSides(bay, set, names)];
  return { at: [x[0]!, x[1]!, x[2]!, x[3]!], margin: standing.margin, parted: all };
}

/** The direction at the worst moment, and those at the ends of the motions. */
function directionsOf(c: Contact, x: Float64Array, meter: Meter): Vec3[] {
  meter.measureAfresh(c, x, probe);
  const all: Vec3[] = [[probe.nx, probe.ny, probe.nz]];
  if (c.rock === 0 && !c.motion) return all;
  const { low, high } = c.motion ?? {
    low: Float64Array.of(0, -c.rock, 0, 0),
    high: Float64Array.of(0, c.rock, 0, 0),
  };
  const ends = (k: number): number[] =>
    low[k] === high[k] ? [low[k]!] : [low[k]!, (low[k]! + high[k]!) / 2, high[k]!];
  for (const turnA of ends(0))
    for (const rock of ends(1))
      for (const turnB of ends(2))
        for (const lift of ends(3)) {
          const state = { turnA, rock, turnB, lift };
          gap.nx = gap.ny = gap.nz = 0;
          gapBetween(engineAt(c, x[3]!, state), chassisAt(c, state), x[0]!, x[1]!, x[2]!, gap);
          const n: Vec3 = [gap.nx, gap.ny, gap.nz];
          if (!all.some((one) => norm(one.map((v, k) => v - n[k]!)) < 1e-9)) all.push(n);
        }
  return all;
}

/** The same for pairs of one side. */
function withinSides(
  bay: Bay,
  set: OptionSet,
  names: PairNames,
): (readonly [number, readonly [number, number], Vec3])[] {
  const s = bay.scenario.oneSide ?? bay.scenario;
  return bay.fixed.flatMap(({ between: parts, measured }) => {
    if (measured !== 'nearest') return [];
    const [a, b] = parts.map((name) => partUnder(s, name, set));
    if (!a || !b) return [];
    const pair = names.numberOf({ parts, measured });
    return solidsOfPart(a).moving.flatMap((one, i) =>
      solidsOfPart(b).moving.map((other, j) => {
        movedGap(movingPair(one, other, 0, 0), [0, 0, 0, 0], undefined, TURN_TOLERANCE, moved);
        return [pair, [i, j] as const, [moved.nx, moved.ny, moved.nz] as Vec3] as const;
      }),
    );
  });
}

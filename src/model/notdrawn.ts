/**
 * The part nobody drew is the one that hits: what a bay of this sort has and its file does not show.
 *
 * Common practice, no source: a list for running road vehicles with a piston engine. `not fitted`
 * answers a kind that this one lacks, and with it what only goes with that kind.
 */

import { partExtents } from './solids/extents.js';
import { KINDS } from './kinds.js';
import type { Kind } from './kinds.js';
import { partNames } from './options.js';
import { variantsOf } from './part-history.js';
import type { Part, Scenario } from './scenario.js';

/** What the parts of a file, under any option, tell of its bay. */
interface Bay {
  /** Whether a part of any of these kinds is drawn. */
  has(...kinds: Kind[]): boolean;
  /** Whether such a bay has one, drawn or not: it is not listed as not fitted. */
  mayHave(kind: Kind): boolean;
  /** Whether a shaft runs forward past the engine, so that the front wheels are driven too. */
  readonly frontDriven: boolean;
  /** Whether the name of a transmission, or of the option that brings it, says so. */
  readonly automatic: boolean;
}

/** A kind, and the bays that have one; every bay unless said. */
type Row = readonly [kind: Kind, when?: (bay: Bay) => boolean];

/** Water-cooled: nothing says that there is no radiator. */
const wet = (bay: Bay) => bay.mayHave('radiator');
const geared = (bay: Bay) => bay.mayHave('transmission');

const ROWS: readonly Row[] = [
  ['block'],
  ['head'],
  ['valve cover'],
  ['intake'],
  ['air cleaner'],
  ['distributor'],
  ['pulley'],
  ['balancer'],
  ['belt'],
  ['alternator'],
  ['oil pan'],
  ['oil filter'],
  ['dipstick'],
  ['starter'],
  ['fuel pump', (bay) => bay.has('carburettor')],
  ['throttle linkage', (bay) => bay.has('carburettor')],
  ['header'],
  ['exhaust'],
  ['water pump', wet],
  ['radiator'],
  ['hose', wet],
  ['heater', wet],
  // The one or the other blows through the core.
  ['mechanical fan', (bay) => wet(bay) && !bay.has('electric fan')],
  [
    'electric fan',
    (bay) => wet(bay) && !bay.has('mechanical fan') && !bay.mayHave('mechanical fan'),
  ],
  ['fan shroud', (bay) => bay.has('mechanical fan')],
  ['oil line', (bay) => bay.has('turbocharger')],
  ['power steering pump', (bay) => bay.has('steering valve')],
  ['bell housing', geared],
  ['transmission'],
  ['shifter', geared],
  // A clutch, unless the transmission is said to do without: what is not known is listed.
  ['clutch linkage', (bay) => geared(bay) && !bay.automatic],
  ['transfer case', (bay) => bay.frontDriven],
  ['driveshaft', geared],
  ['engine mount'],
  ['frame rail'],
  ['crossmember'],
  ['firewall'],
  ['tunnel'],
  ['floor'],
  ['hood'],
  ['inner fender'],
  ['steering box'],
  ['steering shaft'],
  ['steering linkage'],
  // A wheel is carried somehow: by a beam axle, which sits on springs, or by arms.
  ['axle', (bay) => !bay.has('suspension')],
  ['suspension', (bay) => !bay.has('axle') && !bay.mayHave('axle')],
  ['spring', (bay) => bay.has('axle') && !bay.has('suspension')],
  ['brake booster'],
  ['brake line'],
  ['fuel line'],
  ['wiring'],
];

/**
 * Kinds a bay of this sort has that the file neither draws, under any option, nor lists as not
 * fitted, in the rule book's order of kinds.
 */
export function notDrawn(s: Scenario): readonly Kind[] {
  const bay = bayOf(s);
  const missing = new Set(
    ROWS.filter(([kind, when]) => !bay.has(kind) && bay.mayHave(kind) && (when?.(bay) ?? true)).map(
      ([kind]) => kind,
    ),
  );
  return KINDS.filter((kind) => missing.has(kind));
}

function bayOf(s: Scenario): Bay {
  const parts = partNames(s).flatMap((name) => variantsOf(s, name));
  const drawn = new Set(parts.map(({ kind }) => kind));
  const absent = new Set(s.notFitted);
  return {
    has: (...kinds) => kinds.some((kind) => drawn.has(kind)),
    mayHave: (kind) => !absent.has(kind),
    frontDriven: parts.some((part) => runsForward(s, part)),
    automatic: namesOfTransmissions(s, parts).some((name) => /\bautomatic\b/i.test(name)),
  };
}

/** A driveshaft of the chassis that starts ahead of wherever the rear face of the block may go. */
function runsForward(s: Scenario, part: Part): boolean {
  if (part.kind !== 'driveshaft' || part.side !== 'chassis' || part.solids.length === 0)
    return false;
  return partExtents(part).x.min < s.position.setback.min;
}

function namesOfTransmissions(s: Scenario, parts: readonly Part[]): readonly string[] {
  const isOne = ({ kind }: Part) => kind === 'transmission';
  const brought = s.choices
    .flatMap(({ options }) => options)
    .filter(({ add, replace }) => [...add, ...replace].some(isOne));
  return [...parts.filter(isOne), ...brought].map(({ name }) => name);
}

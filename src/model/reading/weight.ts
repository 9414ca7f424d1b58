/** What the vehicle weighs, what comes out of it and what goes in. */

import { MASS_EXPECTED, massUnit, parseMass } from '../text/mass.js';
import type { Path, Side } from '../scenario.js';
import type { RawMass, RawWeight } from '../schema.js';
import { frontShare } from '../fitup/weight.js';
import type { Load, Weights } from '../fitup/weight.js';
import type { Census } from './census.js';
import { Frame } from './frame.js';
import type { Reading } from './reading.js';

const HERE: Path = ['weight'];

/** The weights; `faulty` once their problems are said. */
export function readWeight(
  c: Reading,
  raw: RawWeight | undefined,
  census: Census,
): Weights | 'faulty' | undefined {
  if (raw === undefined) return undefined;
  if (typeof raw !== 'object' || raw === null || Array.isArray(raw) || c.faulty(HERE))
    return 'faulty';
  const before = c.problems.length;
  const axles = readAxles(c, raw.axles);
  const front = readMass(c, raw.before.front, [...HERE, 'before', 'front']);
  const { rear: given } = raw.before;
  const rear = given === undefined ? undefined : readMass(c, given, [...HERE, 'before', 'rear']);
  const out = readLoads(c, raw.out, 'out', () => 'chassis');
  const into = readLoads(c, raw.in, 'in', (load, path) => sideOf(c, load, path, census));
  if (Object.keys(raw.in).length === 0)
    c.say('missing', [...HERE, 'in'], 'nothing goes in', { expected: 'the engine, at least' });
  if (c.problems.length > before || axles === undefined || front === undefined) return 'faulty';
  const weights: Weights = {
    axles,
    before: { front, ...(rear !== undefined && { rear }) },
    out,
    in: into,
  };
  return sayTooMuchOut(c, weights) ? 'faulty' : weights;
}

/** Kilograms, more than 0; or undefined once its problem is said. */
export function readMass(c: Reading, raw: RawMass, path: Path): number | undefined {
  const mass = parseMass(raw, massUnit(c.units));
  const problem = 'problem' in mass ? mass.problem : 'a weight must be more than 0';
  if ('kg' in mass && mass.kg > 0) return mass.kg;
  c.say('bad number', path, problem, { expected: MASS_EXPECTED });
  return undefined;
}

function readAxles(c: Reading, raw: RawWeight['axles']): Weights['axles'] | undefined {
  const path = [...HERE, 'axles'];
  const frame = new Frame(c, 'chassis', 'chosen');
  const front = frame.coordinate(raw.front, [...path, 'front'], 'x');
  const rear = frame.coordinate(raw.rear, [...path, 'rear'], 'x');
  if (front === undefined || rear === undefined) return undefined;
  if (front < rear) return { front, rear };
  const message = 'the rear axle is not behind the front axle';
  c.say('bad range', path, message, { expected: 'the front axle ahead: X goes back' });
  return undefined;
}

type RawLoad = RawWeight['in'][string];

function readLoads<R extends Pick<RawLoad, 'weight' | 'at'>>(
  c: Reading,
  raw: Readonly<Record<string, R>> | undefined,
  key: 'out' | 'in',
  side: (load: R, path: Path) => Side | undefined,
): readonly Load[] {
  return c.entries(raw, [...HERE, key]).flatMap(([name, load]) => {
    const path = [...HERE, key, name];
    const rides = side(load, path);
    const mass = readMass(c, load.weight, [...path, 'weight']);
    // Without its side a place may name datums of either.
    if (rides === undefined) return [];
    const at = new Frame(c, rides, 'chosen').point(load.at, [...path, 'at']);
    if (mass === undefined || at === undefined) return [];
    const part = 'part' in load ? (load.part as string | undefined) : undefined;
    return [{ name, side: rides, mass, at, ...(part !== undefined && { part }) }];
  });
}

/** Which side a load rides with: its part's, where it names one. */
function sideOf(c: Reading, load: RawLoad, path: Path, census: Census): Side | undefined {
  if (load.part === undefined) {
    if (load.side === undefined)
      c.say('missing', [...path, 'side'], "'side' is missing", { expected: 'engine or chassis' });
    return load.side;
  }
  const known = census.parts.get(load.part)?.[0]!.part.side;
  if (known === undefined) {
    c.sayUnknown([...path, 'part'], load.part, census.parts.keys(), 'a part');
  } else if (load.side !== undefined && load.side !== known) {
    const message = `'${load.part}' rides with the ${known}`;
    c.say('bad option', [...path, 'side'], message, { expected: known });
  }
  return known;
}

/** Whether more comes out than there was on an axle, which is then said. */
function sayTooMuchOut(c: Reading, { axles, before, out }: Weights): boolean {
  const all = out.reduce((sum, { mass }) => sum + mass, 0);
  const front = out.reduce((sum, { mass, at }) => sum + mass * frontShare(axles, at[0]), 0);
  const path = [...HERE, 'out'];
  const { rear } = before;
  const message =
    rear !== undefined && all >= before.front + rear
      ? 'what comes out weighs as much as the whole vehicle'
      : front >= before.front
        ? 'what comes out weighs as much on the front axle as was there'
        : rear !== undefined && all - front >= rear
          ? 'what comes out weighs as much on the rear axle as was there'
          : undefined;
  if (message === undefined) return false;
  c.say('bad number', path, message, { at: 'key', expected: 'less than `before`' });
  return true;
}

/** Engine mounts: those to make, other supports, and what must stay open beside them. */

import type { Driveline } from '../fitup/driveline.js';
import { mirrorPoint } from '../fitup/mounts.js';
import type { PlateMount, Support } from '../fitup/mounts.js';
import type { Passage, Path, Scenario, Side } from '../scenario.js';
import type { RawMounts } from '../schema.js';
import type { Census } from './census.js';
import { Frame } from './frame.js';
import { readMount } from './mount.js';
import { readMountLoads } from './mount-loads.js';
import { readAllSolids } from './parts.js';
import { FLAT_MM } from './profile.js';
import type { Reading } from './reading.js';

interface Known {
  readonly census: Census;
  readonly driveline: Driveline | undefined;
}

const HERE: Path = ['mounts'];

/** The mounts, or undefined where there are none or their problems are said. */
export function readMounts(
  c: Reading,
  raw: RawMounts | undefined,
  { census, driveline }: Known,
): Scenario['mounts'] {
  if (typeof raw !== 'object' || raw === null || Array.isArray(raw) || c.faulty(HERE))
    return undefined;
  const before = errors(c);
  const plate = readPlate(c, raw.plate, [...HERE, 'plate']);
  const make = readMake(c, raw.make, plate, census);
  const supports = readSupports(c, raw.supports, make);
  const passages = (['engine', 'chassis'] as const).flatMap((side) =>
    readPassages(c, raw.passages?.[side], side),
  );
  sayTwice(c, passages);
  const gap = readGap(c, raw.gap, [...HERE, 'gap']);
  const loads = readMountLoads(c, raw, HERE, driveline);
  if (errors(c) > before) return undefined;
  return { make, supports, passages: passages.map(({ passage }) => passage), gap, loads };
}

function errors(c: Reading): number {
  return c.problems.filter(({ severity }) => severity === 'error').length;
}

/** Millimetres: 1/4 in is common practice for mount plates, no source; 6 mm is the metric size near it. */
function readPlate(c: Reading, raw: RawMounts['plate'], path: Path): number {
  const unlessGiven = c.units === 'in' ? 6.35 : 6;
  if (raw === undefined) return unlessGiven;
  return c.size(raw, path, 'a plate', 'bad length', FLAT_MM) ?? unlessGiven;
}

function readMake(
  c: Reading,
  raw: RawMounts['make'],
  plate: number,
  census: Census,
): readonly PlateMount[] {
  const path = [...HERE, 'make'];
  const entries = c.entries(raw, path);
  if (entries.length === 0) c.say('missing', path, 'there is no mount to make');
  const made: PlateMount[] = [];
  const names = new Set<string>();
  const name = (one: string, at: Path, which: 'key' | 'value'): void => {
    if (names.has(one)) c.say('duplicate', at, `two mounts are called '${one}'`, { at: which });
    names.add(one);
  };
  for (const [called, given] of entries) {
    const at = [...path, called];
    name(called, at, 'key');
    const mount = readMount(c, called, given, at, { plate, census });
    if (mount) made.push(mount);
    if (given.mirror === undefined) continue;
    const mirror = [...at, 'mirror'];
    if (given.mirror.trim() === '') c.say('missing', mirror, 'the mirror image has no name');
    name(given.mirror, mirror, 'value');
    if (mount) made.push(mirrored(mount, given.mirror, census));
  }
  return made;
}

/** The same mount on the other side; what it is fixed to, and stands for, are the mirror images of those parts. */
function mirrored(mount: PlateMount, name: string, census: Census): PlateMount {
  const { boss, pad, gussets } = mount;
  const twin = (part: string): string => {
    const own = census.base.find((drawn) => drawn.part.name === part)?.part;
    const other = census.base.find(
      (drawn) => own && drawn.part.mirrored !== own.mirrored && drawn.part.solids === own.solids,
    );
    return other?.part.name ?? part;
  };
  const on = <T extends { readonly on?: string }>(of: T): T =>
    of.on === undefined ? of : { ...of, on: twin(of.on) };
  return {
    ...mount,
    name,
    boss: on({ ...boss, holes: boss.holes.map(mirrorPoint), normal: mirrorPoint(boss.normal) }),
    pad: on({ ...pad, at: mirrorPoint(pad.at), normal: mirrorPoint(pad.normal) }),
    base: { ...mount.base, holes: mount.base.holes.map((hole) => mirroredHole(hole, pad.normal)) },
    ...(gussets && { gussets: { ...gussets, first: 0 - gussets.first } }),
    inPlaceOf: mount.inPlaceOf.map(twin),
  };
}

/** Across a face that looks more up or down than to a side, a hole lies to the right: it changes sides. */
function mirroredHole(
  [along, across]: readonly [number, number],
  normal: PlateMount['pad']['normal'],
): readonly [number, number] {
  const isFlat = Math.abs(normal[2]) > Math.SQRT1_2;
  if (isFlat) return [along, 0 - across];
  return Math.abs(normal[0]) > Math.abs(normal[1]) ? [0 - along, across] : [along, across];
}

function readSupports(
  c: Reading,
  raw: RawMounts['supports'],
  make: readonly PlateMount[],
): readonly Support[] {
  const path = [...HERE, 'supports'];
  return c.entries(raw, path).flatMap(([name, given]): Support[] => {
    const here = [...path, name];
    if (make.some((mount) => mount.name === name)) {
      c.say('duplicate', here, `a mount is called '${name}' already`, { at: 'key' });
    }
    const at = new Frame(c, 'engine', 'chosen').point(given.at, [...here, 'at']);
    const pad = given.pad && new Frame(c, 'chassis', 'chosen').point(given.pad, [...here, 'pad']);
    return at ? [{ name, at, ...(pad && { pad }) }] : [];
  });
}

function readPassages(
  c: Reading,
  raw: NonNullable<RawMounts['passages']>[Side],
  side: Side,
): { readonly passage: Passage; readonly path: Path }[] {
  const path = [...HERE, 'passages', side];
  return c.entries(raw, path).flatMap(([name, given]) => {
    const here = [...path, name];
    // Chosen, not taped: it must not count among the measurements that place the engine.
    const solids = readAllSolids(new Frame(c, side, 'chosen'), given, here);
    const gap = readGap(c, given.gap, [...here, 'gap']);
    if (!solids) return [];
    const part = { name, side, solids, mirrored: false };
    const why = given.why === undefined ? {} : { why: given.why };
    return [{ passage: { part, gap, ...why }, path: here }];
  });
}

function sayTwice(c: Reading, passages: ReturnType<typeof readPassages>): void {
  passages.forEach(({ passage, path }, i) => {
    const { name } = passage.part;
    if (passages.findIndex((other) => other.passage.part.name === name) === i) return;
    c.say('duplicate', path, `two passages are called '${name}'`, { at: 'key' });
  });
}

function readGap(c: Reading, raw: RawMounts['gap'], path: Path): number {
  if (raw === undefined) return 0;
  const gap = c.length(raw, path) ?? 0;
  if (gap < 0) c.say('bad length', path, 'a gap needed cannot be less than 0');
  return gap;
}

/** Planted bays of degenerate parts: the margin that was planted is still the best. */

import { readScenario } from '../../src/model/read.js';
import { place } from '../../src/solver/place.js';
import { between } from '../../tests/geometry/random.js';
import type { Random } from '../../tests/geometry/random.js';
import { fileOf, scaled, scenarioOf, unitOf } from '../../tests/support/doc.js';
import type { BayDoc, PartDoc, Point, Span } from '../../tests/support/doc.js';
import { plant } from '../../tests/support/planted.js';
import { requestFor, toEnd, TOLERANCE } from '../../tests/support/solve.js';
import { oneOf } from '../mutated/pick.js';
import type { Notes } from '../subject.js';

/** Millimetres. */
const ROUNDING = 1e-6;

export function bayCase(notes: Notes, random: Random): string {
  const pitch = oneOf(random, ['pinned', 'free', 'tilted'] as const);
  const planted = plant({
    random,
    pitch,
    play: [-1, 4],
    decoys: 2,
    pieces: oneOf(random, [undefined, { engine: 4, chassis: 4 }])!,
  });
  const { doc, scale, how } = degenerated(planted.doc, pitch === 'pinned', random);
  notes.count('bays');
  notes.count(how);
  if (how === 'a million inches off') {
    const { problems } = readScenario(fileOf(doc), 'json');
    notes.hold(problems.length > 0, 'lengths of a million inches are read');
    notes.hold(
      problems.every(({ line, column, message }) => line! > 0 && column! > 0 && message !== ''),
      'a mistake without a place',
    );
    return fileOf(doc);
  }
  const margin = planted.marginOf([]) * unitOf(doc) * scale;
  // What is 50 times the size is asked for 50 times as coarsely: the same work.
  const tolerance = oneOf(random, [TOLERANCE, 0.1 * TOLERANCE]) * Math.max(1, scale);
  const scenario = scenarioOf(doc);
  // To the end: where solids overlap, a tenth of the tolerance may take 20,000 boxes.
  const { main } = toEnd(place(scenario, requestFor(scenario, { only: 'main', tolerance })));
  const { best, bound, optimum, fits } = main;
  const said = `${how}: margin ${optimum.margin}, bound ${bound}, planted ${margin} mm`;
  notes.hold(best === 'proved', `${said}: not proved`);
  notes.hold(bound >= optimum.margin, `${said}: a bound under its own margin`);
  notes.hold(bound >= margin - ROUNDING, `${said}: a bound under the truth`);
  notes.hold(optimum.margin <= margin + ROUNDING, `${said}: more than there is`);
  notes.hold(optimum.margin >= margin - tolerance, `${said}: less than the tolerance allows`);
  if (Math.abs(margin) > 1.5 * tolerance)
    notes.hold(fits === (margin > 0 ? 'yes' : 'no'), `${said}: fits ${fits}`);
  if (best === 'proved') notes.count('bays proved');
  return fileOf(doc);
}

interface Degenerated {
  readonly doc: BayDoc;
  readonly scale: number;
  readonly how: string;
}

function degenerated(doc: BayDoc, pinned: boolean, random: Random): Degenerated {
  const kept = { doc, scale: 1 };
  switch (Math.floor(8 * random())) {
    case 0:
      return { ...kept, doc: doubled(doc), how: 'every part drawn twice' };
    case 1:
      return { ...kept, doc: eachBox(doc, spared(random)), how: 'hulls with points to spare' };
    case 2: {
      const by = oneOf(random, [0.02, 50]);
      return { doc: scaled(doc, by), scale: by, how: by < 1 ? 'tiny' : 'huge' };
    }
    case 3: {
      const far = between(random, 1000, 30_000) * oneOf(random, [1, -1]);
      return {
        ...kept,
        doc: chassisMoved(doc, [far, far / 3, -far / 2]),
        how: 'a chassis far off',
      };
    }
    case 4: {
      const far = pinned ? between(random, 1000, 20_000) : between(random, 10, 60);
      const back = engineMoved(doc, [0, far, 0]);
      return { ...kept, doc: back, how: 'an engine drawn far off' };
    }
    case 5:
      return { ...kept, doc: chassisMoved(doc, [1e6, 0, 0]), how: 'a million inches off' };
    case 6:
      return { ...kept, doc: needled(doc, random), how: 'needles and plates within' };
    default:
      return {
        ...kept,
        doc: eachBox(needled(doubled(doc), random), spared(random)),
        how: 'all of it',
      };
  }
}

/** Every part a second time under another name, in the same groups. */
function doubled(doc: BayDoc): BayDoc {
  const twice = (all: BayDoc['engine']) =>
    Object.fromEntries(
      Object.entries(all).flatMap(([name, part]) => [
        [name, part],
        [`${name} again`, part],
      ]),
    );
  const groups = Object.entries(doc.groups ?? {}).map(
    ([name, list]) => [name, list.flatMap((one) => [one, `${one} again`])] as const,
  );
  return {
    ...doc,
    engine: twice(doc.engine),
    chassis: twice(doc.chassis),
    groups: Object.fromEntries(groups),
  };
}

type Box = { x: Span; y: Span; z: Span };

function eachBox(doc: BayDoc, change: (box: Box) => object): BayDoc {
  const parts = (all: BayDoc['engine']): BayDoc['engine'] =>
    Object.fromEntries(
      Object.entries(all).map(([name, part]) => {
        if (!('box' in part)) return [name, part];
        const { box, ...rest } = part;
        return [name, { ...rest, ...change(box) } as PartDoc];
      }),
    );
  return { ...doc, engine: parts(doc.engine), chassis: parts(doc.chassis) };
}

/** A box as the hull of its corners, of points on its faces and edges, and of some of them again. */
function spared(random: Random): (box: Box) => object {
  return ({ x, y, z }) => {
    const points = x.flatMap((p) => y.flatMap((q) => z.map((r): Point => [p, q, r])));
    const middle = ([low, high]: Span) => (low + high) / 2;
    points.push([x[0], middle(y), middle(z)], [middle(x), y[1], z[1]], points[0]!, points[7]!);
    if (random() < 0.5) points.reverse();
    return { hull: { points } };
  };
}

/** Needles and plates inside the first piece of the block, flush with its faces where they can be. */
function needled(doc: BayDoc, random: Random): BayDoc {
  const block = doc.engine['block 1']!;
  if (!('box' in block)) return doc;
  const { x, y, z } = block.box;
  const thin = oneOf(random, [0.0001, 0.001, 0.05]);
  const made: Record<string, PartDoc> = {
    'top plate': { ...block, box: { x, y, z: [z[1] - thin, z[1]] } },
    'side plate': { ...block, box: { x, y: [y[0], y[0] + thin], z } },
    needle: { ...block, box: { x, y: [y[1] - thin, y[1]], z: [z[0], z[0] + thin] } },
  };
  const hard = [...doc.groups!['hard parts']!, ...Object.keys(made)];
  return {
    ...doc,
    engine: { ...doc.engine, ...made },
    groups: { ...doc.groups, 'hard parts': hard },
  };
}

function partMoved(part: PartDoc, by: Point): PartDoc {
  const at = (p: Point): Point => [p[0] + by[0], p[1] + by[1], p[2] + by[2]];
  const span = ([low, high]: Span, k: number): Span => [low + by[k]!, high + by[k]!];
  const tilt = part.tilt && { tilt: { ...part.tilt, at: at(part.tilt.at) } };
  if ('box' in part)
    return {
      ...part,
      ...tilt,
      box: { x: span(part.box.x, 0), y: span(part.box.y, 1), z: span(part.box.z, 2) },
    };
  if ('ball' in part)
    return { ...part, ...tilt, ball: { ...part.ball, center: at(part.ball.center) } };
  if (!('cylinder' in part)) throw new Error('planted bays are of boxes, balls and cylinders');
  const { from, to, center, ...rest } = part.cylinder;
  return {
    ...part,
    ...tilt,
    cylinder: {
      ...rest,
      from: from + by[0],
      to: to + by[0],
      center: span(center, 0).map((_, i) => center[i]! + by[i + 1]!) as unknown as Span,
    },
  };
}

const moved = (all: BayDoc['engine'], by: Point): BayDoc['engine'] =>
  Object.fromEntries(Object.entries(all).map(([name, part]) => [name, partMoved(part, by)]));

function rangesMoved(position: BayDoc['position'], by: Point): BayDoc['position'] {
  const range = (of: Span | number, k: number): Span | number =>
    typeof of === 'number' ? of + by[k]! : [of[0] + by[k]!, of[1] + by[k]!];
  const { setback, offset, height, pitch } = position;
  return { setback: range(setback, 0), offset: range(offset, 1), height: range(height, 2), pitch };
}

/** The chassis datum far from the chassis. */
function chassisMoved(doc: BayDoc, by: Point): BayDoc {
  return { ...doc, chassis: moved(doc.chassis, by), position: rangesMoved(doc.position, by) };
}

/** The engine datum far to the side of the engine: pitch turns about a line across, and changes nothing. */
function engineMoved(doc: BayDoc, by: Point): BayDoc {
  const back: Point = [-by[0], -by[1], -by[2]];
  return { ...doc, engine: moved(doc.engine, by), position: rangesMoved(doc.position, back) };
}

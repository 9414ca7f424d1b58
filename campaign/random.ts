/**
 * Random bays whose answer nobody knows, against brute force, against `highs`, and measured again by a
 * modeller that shares nothing with us.
 */

import type { Scenario, Solid, Vec3 } from '../src/model/scenario.js';
import type { Standing } from '../src/solver/answer.js';
import { compileBay } from '../src/solver/measuring/compile.js';
import { measureAt } from '../src/solver/measuring/measure.js';
import { openOracle } from '../tests/geometry/oracle.js';
import type { Oracle } from '../tests/geometry/oracle.js';
import { denseSearch } from '../tests/support/dense.js';
import { fileOf, scenarioOf } from '../tests/support/doc.js';
import type { BayDoc, PartDoc } from '../tests/support/doc.js';
import { loadHighs } from '../tests/support/highs.js';
import type { Highs } from '../tests/support/highs.js';
import { straightBayOf, straightMargin, straightProgram } from '../tests/support/milp.js';
import { randomBay } from '../tests/support/random-bays.js';
import { solve, TOLERANCE } from '../tests/support/solve.js';
import { straightOf } from '../tests/support/straight-doc.js';
import { boundedCase } from './bounded.js';
import { atLeast, Notes } from './subject.js';
import type { Case, Subject } from './subject.js';

/** Millimetres: a bracketed motion is printed at its lower end, which may differ by so much. */
const ROUNDING = 1e-3;
/** Millimetres: the tolerances of `highs` through a big constant. */
const THEIRS = 1e-5;
/** Millimetres between bound and margin where `highs` is asked the same. */
const CLOSE = 0.02;
/** The modeller's own error, as a share of a distance. */
const MODELLER = 1e-6;

export const RANDOM: Subject = {
  claim:
    'no place found by brute force beats the bound, and none found by highs at a fixed pitch; every margin printed is what another modeller measures there',
  runs: 3000,
  shortRuns: 18,
  seconds: 120,
  memory: 1024,
  open: async () => {
    const [highs, oracle] = [await loadHighs(), await openOracle()];
    return ({ random }: Case) => {
      const notes = new Notes();
      const roll = random();
      const doc =
        roll < 0.5
          ? againstBruteForce(notes, random, oracle)
          : roll < 0.75
            ? againstBoxes(notes, random, highs)
            : againstFaces(notes, random, highs);
      return notes.result({ ending: 'json', text: fileOf(doc) });
    };
  },
  judge: (counts, cases) =>
    atLeast(counts, cases, {
      'brute force': 40,
      'brute force came near': 35,
      'gaps measured by the modeller': 100,
      'places in open boxes': 100,
      'highs, boxes': 18,
      'highs, boxes: equal': 3,
      'highs, faces': 18,
      choices: 20,
      rock: 3,
      limits: 3,
    }),
};

/** Anything at all, against many places tried under every option set and the best of them improved. */
function againstBruteForce(notes: Notes, random: Case['random'], oracle: Oracle): BayDoc {
  const doc = randomBay({ random });
  const scenario = scenarioOf(doc);
  // Asked for closely, so that a bound a little too low has nothing to hide behind.
  const tolerance = doc.rock ? TOLERANCE : CLOSE;
  const { main, bestBound } = solve(scenario, { only: 'main', tolerance });
  const said = `margin ${main.optimum.margin}, bound ${main.bound}, best bound ${bestBound} mm`;
  notes.hold(main.best === 'proved', `${said}: not proved`);
  notes.hold(
    main.bound - main.optimum.margin <= tolerance,
    `${said}: further apart than the tolerance`,
  );
  notes.hold(main.bound >= main.optimum.margin, `${said}: a bound under its own margin`);
  notes.hold(
    main.optimum.limits.every(({ met }) => met),
    `${said}: a limit is missed`,
  );
  const effort = doc.rock ? { places: 120, polished: 1 } : { places: 500, polished: 3 };
  const dense = denseSearch(scenario, { random, ...effort });
  notes.hold(
    dense.score <= bestBound + ROUNDING,
    `${said}: ${dense.score} at ${JSON.stringify(dense.position)}, options ${dense.set.join()}`,
  );
  const own = denseSearch(scenario, { random, places: 60, polished: 1, sets: [main.options] });
  notes.hold(
    own.score <= main.bound + ROUNDING,
    `${said}: ${own.score} under the same options, at ${JSON.stringify(own.position)}`,
  );
  notes.hold(
    own.score <= main.optimum.margin + tolerance + ROUNDING,
    `${said}: ${own.score} is better by more than the tolerance`,
  );
  notes.count('brute force');
  if (dense.score > bestBound - 2) notes.count('brute force came near');
  if (doc.choices) notes.count('choices');
  if (doc.rock) notes.count('rock');
  if (doc.limits) notes.count('limits');
  if (!doc.rock)
    boundedCase(notes, scenario, { position: main.optimum.position, set: main.options }, random);
  for (const standing of [main.optimum, main.setting]) {
    again(notes, scenario, main.options, standing);
    modelled(notes, doc, standing, oracle);
  }
  return doc;
}

/** What is printed is what a fresh measuring gives, number for number. */
function again(notes: Notes, scenario: Scenario, set: readonly number[], standing: Standing): void {
  const fresh = measureAt(scenario, set, standing.position);
  notes.hold(
    Math.abs(fresh.margin - standing.margin) <= ROUNDING,
    `printed ${standing.margin}, measured ${fresh.margin}`,
  );
}

/** The nearest gaps at rest of parts that no option touches, by the modeller. */
function modelled(
  notes: Notes,
  doc: BayDoc,
  { position, readings }: Standing,
  oracle: Oracle,
): void {
  const pitch = position.pitch;
  const [cos, sin] = [Math.cos(pitch), Math.sin(pitch)];
  // Tail-down: what is behind the datum goes down.
  const turn = Float64Array.of(cos, 0, sin, 0, 1, 0, -sin, 0, cos);
  const level = Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1);
  const shift: Vec3 = [position.setback, position.offset, position.height];
  const touched = new Set(doc.choices ? ['loose part', 'bracket'] : []);
  for (const { between, measured, comingOut, atRest } of readings) {
    if (measured !== 'nearest' || comingOut || between.some((name) => touched.has(name))) continue;
    const [one, other] = [doc.engine[between[0]], doc.chassis[between[1]]];
    const [a, b] = [one && solidOf(one), other && solidOf(other)];
    if (!a || !b || atRest < 0.01) continue;
    const [ours, theirs] = [oracle.faceted(a, turn, shift), oracle.faceted(b, level)];
    const distance = ours.body.minGap(theirs.body, 1e4);
    const slack = MODELLER * Math.max(1, distance) + 1e-5;
    // Their facets lie inside, so that they can only stand farther apart, by no more than that.
    const facets = ours.inside + theirs.inside;
    notes.hold(
      distance >= atRest - slack && distance <= atRest + facets + slack + ROUNDING,
      `${between.join(' to ')}: ${atRest} mm at rest, ${distance} by the modeller (facets ${facets})`,
    );
    notes.count('gaps measured by the modeller');
    ours.body.delete();
    theirs.body.delete();
  }
}

/** A solid of a file in millimetres, read by nothing of ours; undefined for those left out. */
function solidOf(part: PartDoc): Solid | undefined {
  if (part.tilt) return undefined;
  if ('box' in part) {
    const span = ([min, max]: readonly [number, number]) => ({ min, max });
    return { shape: 'box', x: span(part.box.x), y: span(part.box.y), z: span(part.box.z) };
  }
  if ('cylinder' in part) return { shape: 'cylinder', ...part.cylinder };
  if ('ball' in part) return { shape: 'ball', ...part.ball };
  if ('hull' in part) return { shape: 'hull', points: part.hull.points };
  if ('prism' in part) return { shape: 'prism', ...part.prism };
  if ('tube' in part && part.tube.through.length === 2) {
    const [from, to] = part.tube.through;
    return { shape: 'tube', from: from!, to: to!, diameter: part.tube.diameter };
  }
  return undefined;
}

/** Boxes at pitch 0, as a mixed-integer program from the file's own numbers. */
function againstBoxes(notes: Notes, random: Case['random'], highs: Highs): BayDoc {
  const { choices: _, worth: __, ...doc } = randomBay({ random, straight: true });
  const scenario = scenarioOf(doc);
  const straight = straightOf(doc);
  const theirs = straightProgram(straight).solve(highs);
  const { main } = solve(scenario, { only: 'main', tolerance: CLOSE });
  const { margin, position } = main.optimum;
  const said = `margin ${margin}, bound ${main.bound}, highs ${theirs.margin} mm`;
  notes.count('highs, boxes');
  notes.hold(main.best === 'proved', `${said}: not proved`);
  notes.hold(main.bound >= theirs.margin - THEIRS, `${said}: a bound under what highs found`);
  notes.hold(margin >= theirs.margin - CLOSE - THEIRS, `${said}: less than what highs found`);
  const [setback, offset, height] = theirs.position;
  const there = measureAt(scenario, [], { setback, offset, height, pitch: 0 });
  notes.hold(
    there.margin >= theirs.margin - THEIRS,
    `${said}: ${there.margin} is measured where highs says`,
  );
  const here = straightMargin(straight, [position.setback, position.offset, position.height], []);
  notes.hold(
    here <= margin + THEIRS,
    `${said}: ${here} straight across at our place is more than printed`,
  );
  if (here > margin - 1e-6) {
    notes.count('highs, boxes: equal');
    notes.hold(
      Math.abs(margin - theirs.margin) <= CLOSE + THEIRS,
      `${said}: not equal where it must be`,
    );
  }
  return doc;
}

/** Flat-faced parts with choices at one pitch, parted along their faces: `highs` never finds more. */
function againstFaces(notes: Notes, random: Case['random'], highs: Highs): BayDoc {
  const bay = randomBay({ random });
  const degrees = Math.round(40 * random() - 20) / 10;
  const { limits: _, rock: __, datums: ___, ...rest } = flatFaced(bay);
  const doc: BayDoc = { ...rest, position: { ...rest.position, pitch: degrees } };
  const scenario = scenarioOf(doc);
  const straight = straightBayOf(compileBay(scenario), scenario.position.pitch.min);
  const theirs = straightProgram(straight).solve(highs);
  const { main, bestBound } = solve(scenario, { only: 'main' });
  const said = `margin ${main.optimum.margin}, best bound ${bestBound}, highs ${theirs.margin} mm`;
  notes.count('highs, faces');
  if (doc.choices) notes.count('choices');
  notes.hold(main.best === 'proved', `${said}: not proved`);
  notes.hold(bestBound >= theirs.margin - THEIRS, `${said}: a bound under what highs found`);
  const { setback, offset, height } = main.optimum.position;
  const here = straightMargin(straight, [setback, offset, height], main.options);
  notes.hold(
    here <= main.optimum.margin + ROUNDING,
    `${said}: ${here} along faces at our place is more than printed`,
  );
  const [x, y, z] = theirs.position;
  const there = measureAt(scenario, theirs.set, {
    setback: x,
    offset: y,
    height: z,
    pitch: scenario.position.pitch.min,
  });
  notes.hold(
    there.margin >= theirs.margin - ROUNDING,
    `${said}: ${there.margin} is measured where highs says`,
  );
  return doc;
}

/** Round parts become boxes about them; parts that options bring too. */
function flatFaced(doc: BayDoc): BayDoc {
  const text = JSON.stringify(doc, (_, value: unknown) => {
    if (typeof value !== 'object' || value === null) return value;
    const { cylinder, ball, tube, ...rest } = value as Record<string, unknown>;
    return cylinder || ball || tube ? { ...rest, box: boxAbout(value as PartDoc) } : value;
  });
  return JSON.parse(text) as BayDoc;
}

function boxAbout(part: PartDoc): object {
  const points: readonly (readonly number[])[] =
    'ball' in part
      ? [part.ball.center]
      : 'tube' in part
        ? part.tube.through
        : 'cylinder' in part
          ? [part.cylinder.from, part.cylinder.to].map((end) => {
              const at: number[] = [...part.cylinder.center];
              at.splice('xyz'.indexOf(part.cylinder.axis), 0, end);
              return at;
            })
          : [];
  const { diameter } =
    'ball' in part
      ? part.ball
      : 'tube' in part
        ? part.tube
        : (part as { cylinder: { diameter: number } }).cylinder;
  const span = (k: number) => {
    const along = points.map((point) => point[k]!);
    return [Math.min(...along) - diameter / 2, Math.max(...along) + diameter / 2];
  };
  return { x: span(0), y: span(1), z: span(2) };
}

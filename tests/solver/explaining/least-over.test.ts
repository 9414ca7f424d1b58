/** A bound over a box lies under every gap in it, and comes up to the least as the box shrinks. */

import { expect, test } from 'vitest';
import { movingPair } from '../../../src/geometry/motion/moving-pair.js';
import { TurningShape } from '../../../src/geometry/motion/turning-shape.js';
import { shapeOf } from '../../../src/geometry/shape.js';
import { cellOf, createOver, leastOver } from '../../../src/solver/explaining/least-over.js';
import type { Contact } from '../../../src/solver/measuring/contact.js';
import { motionReach } from '../../../src/solver/measuring/motion.js';
import { EngineSolid } from '../../../src/solver/measuring/pose.js';
import { createProbe, probe } from '../../../src/solver/measuring/probe.js';
import { between, point, seeded, solid, SORTS } from '../../geometry/random.js';
import type { Random } from '../../geometry/random.js';

const DEGREE = Math.PI / 180;
/** Millimetres: brackets of curved solids, overlapping ones included. */
const BRACKET = 2e-3;

/** Solids at rest, rocking, or one of them turning and the engine lifted; every measure. */
function randomContact(random: Random, i: number): Contact {
  const from = solid(random, SORTS[i % SORTS.length]!, 80);
  const to = solid(random, SORTS[(i + 3) % SORTS.length]!, 80);
  const engine = new EngineSolid(shapeOf(from));
  const chassis = shapeOf(to);
  const rock = i % 2 === 0 ? 0 : between(random, 0.5, 2) * DEGREE;
  const turn = { about: 'z', at: point(random, 60), by: { min: -0.1, max: 0.15 } } as const;
  const moves = i % 10 === 5 || i % 40 === 0;
  const motion = movingPair(shapeOf(from), new TurningShape(to, {}, turn), rock, 12);
  return {
    id: 0,
    group: 0,
    engine,
    chassis,
    engineStill: engine,
    chassisStill: chassis,
    rock,
    ...(moves && { motion }),
    reach: moves ? motionReach(motion) : engine.reach(rock),
    axis: i % 4 === 0 ? (((i / 4) % 3) as 0 | 1 | 2) : -1,
    sign: i % 8 === 0 ? 1 : -1,
    needed: 0,
  };
}

test('the bound is under every gap of the box, whatever moves', () => {
  const random = seeded(31);
  const over = createOver();
  const w = createProbe();
  const applied = { axis: 0, moving: 0, rocking: 0, still: 0 };
  let near = 0;
  for (let i = 0; i < 400; i++) {
    const c = randomContact(random, i);
    const small = i % 3 === 0;
    const at = [...point(random, 160), between(random, -0.1, 0.1)];
    const half = [0, 1, 2].map(() => between(random, 0, small ? 0.2 : 12));
    half.push(between(random, 0, small ? 3e-4 : 0.03));
    const lo = at.map((v, k) => v - half[k]!);
    const hi = at.map((v, k) => v + half[k]!);
    leastOver(c, cellOf(c, lo, hi), over);
    let least = Infinity;
    for (let n = 0; n < 24; n++) {
      const x = at.map((v, k) => {
        const u = between(random, -1, 1);
        return v + half[k]! * (n < 12 ? Math.sign(u) : u);
      });
      probe(c, x[0]!, x[1]!, x[2]!, x[3]!, w);
      least = Math.min(least, w.upper);
    }
    expect(over.least, `case ${i}`).toBeLessThanOrEqual(least + BRACKET);
    // What is said of single places is true of them.
    const [x, y, z, pitch] = over.corner as unknown as [number, number, number, number];
    probe(c, x, y, z, pitch, w);
    expect(over.atCorner, `case ${i}`).toBeGreaterThanOrEqual(w.lower - BRACKET);
    applied[c.axis >= 0 ? 'axis' : c.motion ? 'moving' : c.rock > 0 ? 'rocking' : 'still']++;
    if (small && !c.motion && c.rock === 0 && least - over.least < 0.05) near++;
  }
  for (const [name, count] of Object.entries(applied)) expect(count, name).toBeGreaterThan(25);
  expect(near).toBeGreaterThan(25);
});

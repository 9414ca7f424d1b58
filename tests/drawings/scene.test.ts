import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { aroundAll, outlineOf } from '../../src/drawings/outline.js';
import { posing, sceneOf } from '../../src/drawings/scene.js';
import { viewOf } from '../../src/drawings/view.js';
import { witnessFinder } from '../../src/drawings/witness.js';
import { extent } from '../../src/geometry/reach.js';
import { firstOptions, optionSets, partNames, partUnder } from '../../src/model/options.js';
import { readScenario } from '../../src/model/read.js';
import type { Position, Scenario } from '../../src/model/scenario.js';
import { measureAt } from '../../src/solver/measuring/measure.js';
import { between, seeded } from '../geometry/random.js';
import { scenarioOf } from '../support/doc.js';
import { randomBay } from '../support/random-bays.js';

const ROOM = new URL('../../scenarios/', import.meta.url);
const files = readdirSync(ROOM).filter((name) => name.endsWith('.yaml'));
const read = (name: string): Scenario =>
  readScenario(readFileSync(new URL(name, ROOM), 'utf8'), 'yaml').scenario!;

function middle(s: Scenario): Position {
  const of = ({ min, max }: { min: number; max: number }) => (min + max) / 2;
  const { setback, offset, height, pitch } = s.position;
  return { setback: of(setback), offset: of(offset), height: of(height), pitch: of(pitch) };
}

const BAY = {
  units: 'mm' as const,
  position: { setback: [0, 10], offset: [0, 0], height: [0, 0], pitch: [0, 2] } as const,
  rock: 2,
  engine: { block: { box: { x: [0, 100], y: [-50, 50], z: [-40, 60] } } },
  chassis: {
    wall: { box: { x: [150, 190], y: [-200, 200], z: [-100, 100] } },
    arm: {
      box: { x: [200, 260], y: [-5, 5], z: [-5, 5] },
      sweep: { z: [-3, 7] },
    },
  },
  rules: [{ between: ['engine', 'chassis'] as const, gap: 3 }],
  trims: [{ part: 'wall', cut: 'back', over: { y: [-60, 60] }, 'up to': 20, hours: 1 }],
};

describe('a scene', () => {
  it('holds the parts that stand, in the file order, under every option of the demo', () => {
    const s = read('orchard-hauler.yaml');
    for (const set of optionSets(s)) {
      const { parts } = sceneOf(s, set);
      const standing = partNames(s).filter((name) => partUnder(s, name, set));
      expect(parts.map(({ name }) => name)).toEqual(standing);
    }
    const { parts } = sceneOf(s, firstOptions(s));
    expect(parts.find(({ name }) => name === 'oil filter')!.comesOut).toHaveLength(1);
  });

  it('shows what a trim takes off, and the part without it', () => {
    const s = scenarioOf(BAY as never);
    const wall = sceneOf(s, [], [12]).parts.find(({ name }) => name === 'wall')!;
    expect(wall.removed).toHaveLength(1);
    const [off] = wall.removed;
    expect([extent(off!, -1, 0, 0), extent(off!, 1, 0, 0)]).toEqual([-150, 162]);
    expect([extent(off!, 0, 1, 0), extent(off!, 0, 0, 1)]).toEqual([60, 100]);
    const left = wall.solids.map((solid) => -extent(solid, -1, 0, 0)).sort((a, b) => a - b);
    expect(left).toEqual([150, 150, 162]);
    expect(sceneOf(s, []).parts.every(({ removed }) => removed.length === 0)).toBe(true);
  });

  it('poses engine parts by turning about the engine datum and then moving, and no others', () => {
    const s = scenarioOf(BAY as never);
    const pitch = 0.1;
    const at = { setback: 20, offset: 3, height: -4, pitch };
    const [block] = sceneOf(s, []).parts;
    const posed = posing('engine', at)(block!.solids[0]!);
    // The lowest point is the rear lower edge: z = -x sin + z cos.
    const low = -100 * Math.sin(pitch) - 40 * Math.cos(pitch) - 4;
    expect(-extent(posed, 0, 0, -1)).toBeCloseTo(low, 9);
    expect(extent(posed, 0, 1, 0)).toBeCloseTo(53, 9);
    const [wall] = sceneOf(s, []).parts.filter(({ side }) => side === 'chassis');
    expect(posing('chassis', at)(wall!.solids[0]!)).toBe(wall!.solids[0]);
  });

  it('passes over what the engine rocks through, and what a sweep takes in', () => {
    const s = scenarioOf(BAY as never);
    const { parts } = sceneOf(s, []);
    const [block, arm] = [parts[0]!, parts.find(({ name }) => name === 'arm')!];
    const outlines = block.motions.map((cell) =>
      aroundAll(cell.map((shape) => outlineOf(shape, viewOf('front')))),
    );
    const rock = (2 * Math.PI) / 180;
    const top = Math.max(...outlines.flat().map(([, v]) => v));
    expect(top).toBeCloseTo(60 * Math.cos(rock) + 50 * Math.sin(rock), 6);
    expect(arm.motions.flat().map((shape) => extent(shape, 0, 0, 1))).toEqual([12]);
    expect(parts.find(({ name }) => name === 'wall')!.motions).toEqual([]);
  });
});

describe('witnesses', () => {
  it.each(files)(
    'of every rule of %s: as far apart as the solver says, at rest and in use',
    (name) => {
      const s = read(name);
      let moving = 0;
      for (const set of [firstOptions(s), s.choices.map(({ options }) => options.length - 1)]) {
        const find = witnessFinder(s, set);
        const { readings, position } = measureAt(s, set, middle(s));
        expect(readings.length).toBeGreaterThan(100);
        for (const reading of readings) {
          const found = find(reading, position)!;
          // Where rest is a moment of the motion, the solver prints its lower bracket for both.
          expect(Math.abs(found.atRest.gap - reading.atRest)).toBeLessThan(2e-3);
          if (found.inUse) {
            moving++;
            expect(Math.abs(found.inUse.gap - reading.gap)).toBeLessThan(0.011);
          } else if (!reading.fixed)
            expect(Math.abs(found.atRest.gap - reading.gap)).toBeLessThan(1e-5);
          const { from, to, along, gap } = found.atRest;
          const apart = from.reduce((sum, v, i) => sum + (v - to[i]!) * along[i]!, 0);
          expect(apart).toBeCloseTo(gap, 6);
          if (reading.measured === 'nearest' && gap > 0) {
            expect(Math.hypot(...from.map((v, i) => v - to[i]!))).toBeCloseTo(gap, 6);
          }
        }
      }
      expect(moving).toBeGreaterThan(50);
    },
  );

  it('lie on the two parts, of random bays too', () => {
    let seen = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const random = seeded(seed * 131);
      const s = scenarioOf(randomBay({ random }));
      const set = firstOptions(s);
      const { position: p } = s;
      const position = {
        setback: between(random, p.setback.min, p.setback.max),
        offset: between(random, p.offset.min, p.offset.max),
        height: between(random, p.height.min, p.height.max),
        pitch: between(random, p.pitch.min, p.pitch.max),
      };
      const scene = sceneOf(s, set);
      const find = witnessFinder(s, set);
      for (const reading of measureAt(s, set, position).readings) {
        if (reading.comingOut) continue;
        const found = find(reading, position)!;
        expect(Math.abs(found.atRest.gap - reading.atRest)).toBeLessThan(2e-3);
        reading.between.forEach((name, i) => {
          const part = scene.parts.find((one) => one.name === name)!;
          const place = i === 0 ? found.atRest.from : found.atRest.to;
          const { along, gap } = found.atRest;
          // Nearer or deeper along the way of measuring no point of the part lies.
          const sense = i === 0 ? -1 : 1;
          const [x, y, z] = along.map((v) => sense * v) as [number, number, number];
          const most = Math.max(
            ...part.solids.map((solid) => extent(posing(part.side, position)(solid), x, y, z)),
          );
          const here = place[0] * x + place[1] * y + place[2] * z;
          if (part.solids.length === 1) expect(Math.abs(here - most)).toBeLessThan(2e-3);
          expect(Number.isFinite(gap)).toBe(true);
          seen++;
        });
      }
    }
    expect(seen).toBeGreaterThan(500);
  });
});

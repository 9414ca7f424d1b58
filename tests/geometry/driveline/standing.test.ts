import * as fc from 'fast-check';
import { create, all } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { bestPinion } from '../../../src/geometry/driveline/best-pinion.js';
import { drivelineChecks, isKept } from '../../../src/geometry/driveline/checks.js';
import { drivelineAt, jointsAt } from '../../../src/geometry/driveline/standing.js';
import type { Driveline } from '../../../src/model/fitup/driveline.js';
import type { Position } from '../../../src/model/scenario.js';

const math = create(all!);
const DEGREE = Math.PI / 180;

const LINE: Driveline = {
  output: [950, 0, 0],
  aim: { down: 0, right: 0 },
  joints: 'two',
  pinion: {
    ride: { at: [2700, 0, -110], up: 2 * DEGREE, right: 0 },
    bump: { at: [2690, 0, -40], up: 3 * DEGREE, right: 0 },
    droop: { at: [2685, 0, -150], up: 2 * DEGREE, right: 0 },
  },
  tube: { diameter: 76.2, wall: 2.1 },
  slip: { in: 25, out: 25 },
  speed: 2500,
  gears: { transmission: [] },
  angles: { least: 0.5 * DEGREE, most: 7 * DEGREE, mostBy: 'speed', within: 1 * DEGREE },
  share: 0.75,
};
const AT: Position = { setback: 530, offset: 30, height: 10, pitch: 3 * DEGREE };

const position = fc.record({
  setback: fc.double({ min: 300, max: 800, noNaN: true }),
  offset: fc.double({ min: -80, max: 80, noNaN: true }),
  height: fc.double({ min: -50, max: 150, noNaN: true }),
  pitch: fc.double({ min: -0.1, max: 0.1, noNaN: true }),
});

describe('joints', () => {
  test('true angles are those of vector algebra done by mathjs', () => {
    fc.assert(
      fc.property(position, (at) => {
        const turn = math.rotationMatrix(at.pitch, [0, 1, 0]) as unknown as number[][];
        const apply = (v: readonly number[]) => math.multiply(turn, [...v]);
        const centre = math.add(apply(LINE.output), [at.setback, at.offset, at.height]);
        const shaft = math.subtract([...LINE.pinion.ride.at], centre);
        const before = apply([1, 0, 0]);
        const { up } = LINE.pinion.ride;
        const after = [Math.cos(up), 0, -Math.sin(up)];
        const between = (a: number[], b: number[]): number =>
          Math.acos(math.dot(a, b) / (Number(math.norm(a)) * Number(math.norm(b))));
        const told = jointsAt(LINE, at, LINE.pinion.ride);
        expect(told.length).toBeCloseTo(Number(math.norm(shaft)), 8);
        // acos keeps half the digits near zero.
        expect(told.front.true).toBeCloseTo(between(before, shaft), 6);
        expect(told.rear!.true).toBeCloseTo(between(shaft, after), 6);
      }),
    );
  });

  test('tail-down turns the output down, and lowers it', () => {
    const level = jointsAt(LINE, { ...AT, pitch: 0 }, LINE.pinion.ride);
    const tail = jointsAt(LINE, { ...AT, pitch: 1 * DEGREE }, LINE.pinion.ride);
    // The shaft behind points less far down than the output does, by that and by the output's drop.
    expect(tail.front.side).toBeLessThan(level.front.side - 1 * DEGREE);
  });

  test('one joint has no second, and all of its ripple is left', () => {
    const { rear, ripple, front } = jointsAt({ ...LINE, joints: 'one' }, AT, LINE.pinion.ride);
    expect(rear).toBeUndefined();
    expect(ripple.least).toBe(Math.cos(front.true));
  });
});

describe('best pinion', () => {
  test('is parallel to the engine where nothing is skewed', () => {
    const best = bestPinion(LINE, { ...AT, offset: 0 })!;
    expect(best.up / DEGREE).toBeCloseTo(3, 4);
    expect(best.by / DEGREE).toBeCloseTo(1, 4);
    expect(best.swing).toBeLessThan(1e-7);
  });

  test('points at the joint of constant velocity', () => {
    const line: Driveline = { ...LINE, joints: 'constant velocity' };
    const best = bestPinion(line, { ...AT, offset: 0 })!;
    const turned = { ...line.pinion.ride, up: best.up };
    expect(jointsAt(line, { ...AT, offset: 0 }, turned).rear!.true / DEGREE).toBeLessThan(1e-4);
  });

  test('is beaten by no angle looked at one by one', () => {
    fc.assert(
      fc.property(position, fc.constantFrom('two', 'constant velocity'), (at, joints) => {
        const line: Driveline = { ...LINE, joints };
        const best = bestPinion(line, at)!;
        for (let up = -13; up <= 17; up += 0.05) {
          const { ripple } = jointsAt(line, at, { ...line.pinion.ride, up: up * DEGREE });

          expect(ripple.greatest / ripple.least - 1).toBeGreaterThan(best.swing - 5.1e-4);
        }
      }),
      { numRuns: 20 },
    );
  });

  test('there is none where the pinion is one with the tube', () => {
    expect(bestPinion({ ...LINE, joints: 'one' }, AT)).toBeUndefined();
  });
});

describe('checks', () => {
  const failing = (line: Driveline, at = AT) =>
    drivelineChecks(line, drivelineAt(line, at)).filter((check) => !isKept(check));

  test('a driveline with room passes them all', () => {
    expect(failing(LINE)).toEqual([]);
  });

  test('each is told by what it misses', () => {
    const { states, critical } = drivelineAt(LINE, AT);
    const [ride, , droop] = states;
    const most = droop!.rear!.true - 1e-6;
    expect(failing({ ...LINE, angles: { ...LINE.angles, most } })).toEqual([
      expect.objectContaining({ of: 'joint angle', state: 'droop', joint: 'rear', max: most }),
    ]);
    const within = Math.abs(ride!.front.true - ride!.rear!.true) - 1e-6;
    expect(failing({ ...LINE, angles: { ...LINE.angles, within } })).toEqual([
      expect.objectContaining({ of: 'joint difference', state: 'ride' }),
    ]);
    const least = Math.min(ride!.front.true, ride!.rear!.true) + 1e-6;
    expect(failing({ ...LINE, angles: { ...LINE.angles, least } })).toEqual([
      expect.objectContaining({ of: 'joint angle', state: 'ride', min: least }),
    ]);
    expect(failing({ ...LINE, slip: { in: 1, out: 25 } })).toEqual([
      expect.objectContaining({ of: 'slip', way: 'in', max: 1 }),
    ]);
    const share = (2500 / critical!.at) * 0.999;
    expect(failing({ ...LINE, share })).toEqual([expect.objectContaining({ of: 'speed' })]);
  });

  test('an angle at its very limit is kept', () => {
    const { states } = drivelineAt(LINE, AT);
    const most = Math.max(...states.flatMap(({ front, rear }) => [front.true, rear!.true]));
    expect(failing({ ...LINE, angles: { ...LINE.angles, most } })).toEqual([]);
  });
});

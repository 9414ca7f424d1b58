/**
 * Files whose numbers may be off, as drawn and as they truly are, and where the builder's tape then sets
 * the engine. Millimetres and radians.
 */

import { expect } from 'vitest';
import { readScenario } from '../../src/model/read.js';
import type { Position, Scenario } from '../../src/model/scenario.js';
import type { Standing } from '../../src/solver/answer.js';
import { measureAt } from '../../src/solver/measuring/measure.js';

/** Writes a number that may be off, with what follows it. */
export type Write = (value: number, error: number, place?: string) => string;

export const written: Write = (value, error, place = '') => `${value} +- ${error}${place}`;

/** Every number off by the next share of its error; `off` keeps how far each one is. */
export function truly(shares: readonly number[], off: number[] = []): Write {
  return (value, error, place = '') => {
    const by = error * shares[off.length % shares.length]!;
    off.push(by);
    const at = value + by;
    // A distance goes without a sign; ours are long enough to stay on their side of the datum.
    expect(place === '' || at >= 0).toBe(true);
    return `${at.toFixed(9)}${place}`;
  };
}

export function read(doc: object): Scenario {
  const { scenario, problems } = readScenario(JSON.stringify(doc), 'json');
  const errors = problems.filter(({ severity }) => severity === 'error');
  expect(errors.map(({ message, path }) => `${path.join('/')}: ${message}`)).toEqual([]);
  return scenario!;
}

/** The datums as they truly are, read off a scenario by name: nothing of the code under test. */
export function at(
  s: Scenario,
  side: 'engine' | 'chassis',
  name: string,
  axis: 'x' | 'y' | 'z',
): number {
  return s.datums[side].find((datum) => datum.name === name)?.[axis] ?? 0;
}

/** What the tape shows along each axis when the engine is at a position of a bay. */
function readings(s: Scenario, p: Position, padFirst: boolean): [number, number, number] {
  const [cos, sin] = [Math.cos(p.pitch), Math.sin(p.pitch)];
  const pulley = { x: at(s, 'engine', 'pulley face', 'x'), z: at(s, 'engine', 'pulley face', 'z') };
  const high = padFirst ? { x: 0, z: at(s, 'engine', 'carb pad', 'z') } : pulley;
  return [
    p.setback + pulley.x * cos + pulley.z * sin - at(s, 'chassis', 'front axle', 'x'),
    p.offset + at(s, 'engine', 'crank nose', 'y') - at(s, 'chassis', 'frame centre', 'y'),
    p.height + high.z * cos - high.x * sin - at(s, 'chassis', 'rail top', 'z'),
  ];
}

/** Where the engine is once its tape shows in the true bay what it should in the one as drawn. */
export function setIn(truth: Scenario, drawn: Scenario, p: Position, padFirst: boolean): Position {
  const wanted = readings(drawn, p, padFirst);
  const shown = readings(truth, p, padFirst);
  return {
    setback: p.setback + wanted[0] - shown[0],
    offset: p.offset + wanted[1] - shown[1],
    height: p.height + wanted[2] - shown[2],
    pitch: p.pitch,
  };
}

const key = ({ between, measured }: Standing['readings'][number]) =>
  `${between.join()} ${measured}`;

/** Margins by rule. */
export function margins(s: Scenario, p: Position): Map<string, number> {
  return new Map(measureAt(s, [], p).readings.map((one) => [key(one), one.margin]));
}

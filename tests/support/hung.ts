/** A bay whose engine hangs on six links, what is taped on it, and stances about level with noise. */

import fc from 'fast-check';
import type { MeasuredReading } from '../../src/model/fitup/measured.js';
import { readMeasured } from '../../src/model/fitup/read-measured.js';
import { readScenario } from '../../src/model/read.js';
import type { Scenario } from '../../src/model/scenario.js';
import { stanceFrom } from '../../src/model/stance.js';
import type { Stance } from '../../src/model/stance.js';
import type { Observed } from '../../src/solver/fitup/estimate.js';
import { observed, PairBook } from '../../src/solver/fitup/observed.js';

const { scenario: read } = readScenario(
  `
berth: 1
units: mm
driver: left
datums:
  chassis: { axle: { x: 0 }, centre: { y: 0 }, rail top: { z: 0 } }
  engine: { pulley: { x: -600, y: 0, z: 0 }, pad: { z: 400 } }
position: { setback: [-100, 100], offset: [-100, 100], height: [-100, 100], pitch: [-5, 5] }
engine:
  block: { kind: block, box: { x: [-600, 0], y: [-200, 200], z: [-100, 250] } }
  pump: { kind: water pump, cylinder: { axis: x, from: -700, to: -600, center: [0, 100], diameter: 150 } }
chassis:
  radiator: { kind: radiator, box: { x: [-900, -850], y: [-350, 350], z: [-150, 450] } }
  left rail: { kind: frame rail, mirror: right rail, box: { x: [-900, 900], y: [-450, -350], z: [-150, 0] } }
  firewall: { kind: firewall, panel: { corners: [[80, -500, -100], [80, 500, -100], [160, 500, 600], [160, -500, 600]], thick: 3 } }
  crossmember: { kind: crossmember, box: { x: [-450, -350], y: [-400, 400], z: [-320, -200] } }
rules:
  - { between: [engine, chassis], gap: 10 }
  - { between: [pump, radiator], gap: 20, measured: fore-aft, side: ahead }
mock-up:
  adjusters:
    left front: { frame: [-450, -400, -250], engine: [-450, -200, 0], thread: M16, hand: turnbuckle, range: [100, 600] }
    right front: { frame: [-450, 400, -250], engine: [-450, 200, 0], thread: M16, hand: turnbuckle, range: [100, 600] }
    left rear: { frame: [50, -250, -400], engine: [0, -200, 0], thread: M16, range: [100, 700] }
    right rear: { frame: [50, 250, -400], engine: [0, 200, 0], thread: M16, range: [100, 700] }
    tail bar: { frame: [500, -400, 0], engine: [500, 0, 0], thread: M12, hand: left, range: [100, 700] }
    drag link: { frame: [900, 0, 0], engine: [500, 0, 0], thread: M12, range: [100, 700] }
`,
  'yaml',
);
export const hung: Scenario = read!;

const SHEET = `
measured: 1
error: 1.5
gaps:
  - { between: [pump, radiator], measured: fore-aft, reads: 150 }
  - { between: [block, left rail], reads: 150 }
  - { between: [block, right rail], reads: 150 }
  - { between: [block, firewall], reads: 80 }
  - { between: [block, crossmember], reads: 100 }
  - { between: [pump, radiator], reads: 150 }
points:
  - { of: pulley, is: 600 ahead of axle }
  - { of: pulley, is: 0 right of centre }
  - { of: pulley, is: 0 above rail top }
  - { of: pad, at: [-100, 150, 400], is: 400 above rail top }
  - { of: pad, at: [-500, 150, 400], is: 400 above rail top }
  - { of: pad, at: [-500, -150, 400], is: 400 above rail top }
angles: { pitch: 0, roll: 0 }
adjusters: { left front: 400, tail bar: 400 }
`;
export const { readings, problems } = readMeasured(SHEET, 'yaml', hung);
const book = new PairBook(hung, []);
export const LEVEL = stanceFrom([0, 0, 0, 0, 0, 0]);

/** Even from -1 to 1: what is counted must not lean to edges and zeros. */
const unit = fc.noBias(fc.integer({ min: -1_000_000, max: 1_000_000 })).map((n) => n / 1_000_000);
export const stances = fc
  .tuple(unit, unit, unit, unit, unit, unit)
  .map((u) => stanceFrom(u.map((value, k) => value * (k < 3 ? 25 : 0.03))));
export const noises = fc.array(unit, { minLength: 16, maxLength: 16 });

/** What the sheet would read at a stance, each reading off by a share of its error. */
export function readAt(stance: Stance, noise: readonly number[], which = readings!): Observed[] {
  return which.map((reading: MeasuredReading, k) => {
    const one = observed(reading, hung, book)!;
    return { ...one, value: one.expected(stance).value + noise[k]! * reading.error };
  });
}

/** A file of readings, and everything that can be wrong with it. */

import { describe, expect, it } from 'vitest';
import { readMeasured } from '../../src/model/fitup/read-measured.js';
import { readScenario } from '../../src/model/read.js';

const { scenario } = readScenario(
  `berth: 1
units: in
driver: left
rake: 1
datums:
  chassis: { core face: { x: -9 }, frame centre: { y: 0 }, rail top: { z: 0 } }
  engine: { pulley face: { x: -27 }, carb pad: { z: 14 } }
position: { setback: [20, 24], offset: 0, height: 0, pitch: [0, 4] }
engine:
  block: { kind: block, box: { x: [-20, 0], y: [-10, 10], z: [-4, 8] } }
  pan: { kind: oil pan, box: { x: [-20, 0], y: [-5, 5], z: [-9, -4] } }
chassis:
  rail: { kind: frame rail, box: { x: [-20, 100], y: [-16, -14], z: [-6, 0] } }
choices: { starter: { none: {}, low: { add: { engine: { starter: { kind: starter, box: { x: [-9, 0], y: [9, 11], z: [-4, 0] } } } } } } }
rules: [{ between: [engine, chassis], gap: 1/2 }]
mock-up: { adjusters: { tail: { frame: [50, 0, -8], engine: [26, 0, -3], thread: M16, range: [4, 10] } } }
`,
  'yaml',
);

const FILE = `measured: 1
gaps:
  - { between: [rail, block], measured: side-to-side, reads: 4 1/4 }
  - { between: [starter, rail], reads: 12 mm +- 1 mm }
points:
  - { of: pulley face, is: 2 7/8 +- 1/32 behind core face }
  - { of: carb pad, at: [-9, 1/2, 14], is: 13 3/4 above rail top }
angles: { pitch: 3, roll: -0.2, on: floor }
adjusters: { tail: 5 3/8 }
`;

function but(good: string, bad: string): readonly string[] {
  if (!FILE.includes(good)) throw new Error(`no '${good}'`);
  return readMeasured(FILE.replace(good, bad), 'yaml', scenario!).problems.map(
    ({ line, message, nearest }) =>
      `${line}: ${message}${nearest === undefined ? '' : ` (${nearest})`}`,
  );
}

describe('a file of readings', () => {
  it('is read in the units of the scenario, gaps with the part of the engine first', () => {
    const { readings, problems } = readMeasured(FILE, 'yaml', scenario!);
    expect(problems).toEqual([]);
    const degree = Math.PI / 180;
    const angle = { of: 'angle', error: expect.closeTo(0.1 * degree, 12) as number };
    expect(readings).toEqual([
      {
        of: 'gap',
        name: 'block - rail, side-to-side',
        between: ['block', 'rail'],
        measured: 'side-to-side',
        value: 107.95,
        error: 1.5875,
      },
      {
        of: 'gap',
        name: 'starter - rail',
        between: ['starter', 'rail'],
        measured: 'nearest',
        value: 12,
        error: 1,
      },
      {
        of: 'point',
        name: 'pulley face, fore-aft',
        point: [-685.8, 0, 0],
        axis: 'x',
        value: expect.closeTo(-6.125 * 25.4, 9) as number,
        error: 0.79375,
      },
      {
        of: 'point',
        name: 'carb pad, up-down',
        point: [-228.6, 12.7, 355.6],
        axis: 'z',
        value: 349.25,
        error: 1.5875,
      },
      // On a floor under a frame 1 degree nose down an engine 4 degrees tail-down reads 3.
      {
        ...angle,
        name: 'pitch by angle finder',
        angle: 'pitch',
        value: expect.closeTo(4 * degree, 12) as number,
      },
      {
        ...angle,
        name: 'roll by angle finder',
        angle: 'roll',
        value: expect.closeTo(-0.2 * degree, 12) as number,
      },
      { of: 'adjuster', name: 'tail', adjuster: 'tail', value: 136.525, error: 1.5875 },
    ]);
  });

  it.each([
    ['measured: 1', 'measured: 2', ["1: 'measured' is not what belongs here"]],
    ['gaps:', 'gasp:', ["2: 'gasp' is not read here (gaps)"]],
    ['[rail, block]', '[rial, block]', ["3: there is nothing called 'rial' here (rail)"]],
    [
      '[rail, block]',
      '[pan, block]',
      ['3: both ride with the engine: their gap tells nothing of the place'],
    ],
    ['side-to-side', 'side-to-sid', ["3: 'side-to-sid' is not known here (side-to-side)"]],
    ['reads: 4 1/4', 'reads: four', ['3: this is not a length']],
    [
      'reads: 4 1/4',
      'reads: 4 1/4 +- 0',
      ['3: a reading is never exact: its error must be more than 0'],
    ],
    [
      'of: pulley face',
      'of: pully face',
      ["6: there is nothing called 'pully face' here (pulley face)"],
    ],
    ['reads: 4 1/4', 'reads: -4', ['3: a tape reads no less than 0']],
    ['behind core face', 'behind core face +- 1/8', ['6: this carries two measuring errors']],
    ['pitch: 3', 'pitch: 93', ['8: no engine stands as steep as this']],
    ['tail: 5 3/8', 'tail: 15 3/8', ['9: this is outside the range of the adjuster']],
    ['2 7/8 +- 1/32 behind core face', '2 7/8', ['6: this does not say from which datum']],
    [
      'behind core face',
      'behind rail top',
      ["6: the datum 'rail top' fixes no place fore and aft"],
    ],
    [
      'behind core face',
      'behind cor face',
      ["6: there is no datum of the chassis called 'cor face' (core face)"],
    ],
    [', at: [-9, 1/2, 14]', '', ["7: it is not said where on 'carb pad' the tape was held"]],
    ['at: [-9, 1/2, 14]', 'at: [-9, 1/2, 13]', ["7: 'carb pad' is not there along z"]],
    ['pitch: 3', 'pitch: steep', ['8: this is not an angle in degrees']],
    ['tail: 5 3/8', 'tial: 5 3/8', ["9: there is nothing called 'tial' here (tail)"]],
  ])('with %s as %s is refused', (good, bad, said) => {
    expect(but(good, bad)).toEqual(said);
  });

  it('warns of a reading that is there twice', () => {
    expect(but('angles:', '  - { of: pulley face, is: 2 7/8 behind core face }\nangles:')).toEqual([
      "1: 'pulley face, fore-aft' is read more than once, and counts as often",
    ]);
  });

  it.each([
    ['', 'the file is empty'],
    ['- 1', 'this is no file of readings'],
    ['measured: 1', 'nothing is read in this file'],
  ])('that holds %j is refused', (text, said) => {
    expect(readMeasured(text, 'yaml', scenario!).problems.map(({ message }) => message)).toEqual([
      said,
    ]);
  });
});

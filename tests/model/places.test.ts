/** Tape words against plain coordinates: the same bay either way gives the identical scenario. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readScenario } from '../../src/model/read.js';
import type { Scenario } from '../../src/model/scenario.js';
import { tapeWordsIn } from '../../src/model/text/places.js';

type Axis = 'x' | 'y' | 'z';
const AXES = ['x', 'y', 'z'] as const;
const WORDS = {
  x: ['ahead of', 'behind'],
  y: ['left of', 'right of'],
  z: ['below', 'above'],
} as const;

/** Sixty-fourths of an inch, as a person writes them. */
function inches(parts: number): string {
  const [whole, over] = [Math.floor(Math.abs(parts) / 64), Math.abs(parts) % 64];
  return `${parts < 0 ? '-' : ''}${whole === 0 && over > 0 ? '' : whole}${over > 0 ? ` ${over}/64` : ''}`;
}

/** Writes a coordinate, in 64ths of an inch, on an axis of a side. */
type Writer = (parts: number, axis: Axis, side: 'engine' | 'chassis') => string;

const plain: Writer = inches;

/** The datums of both sides, in 64ths; `beta` is given from `alpha` where words are used. */
interface Datums {
  readonly alpha: readonly [number, number, number];
  readonly beta: readonly [number, number, number];
}

/** Every second coordinate or so in words, from the one datum or the other. */
function words(datums: Record<'engine' | 'chassis', Datums>, picks: readonly number[]): Writer {
  let n = 0;
  return (parts, axis, side) => {
    const pick = picks[n++ % picks.length]!;
    if (pick === 0) return inches(parts);
    const name = pick === 1 ? 'alpha' : 'beta';
    return fromDatum(parts, axis, name, datums[side][name][AXES.indexOf(axis)]!);
  };
}

function fromDatum(parts: number, axis: Axis, name: string, datum: number): string {
  const by = parts - datum;
  return `${inches(Math.abs(by)).trim()} ${WORDS[axis][by < 0 ? 0 : 1]} ${name}`;
}

interface Bay {
  readonly datums: Record<'engine' | 'chassis', Datums>;
  readonly at: readonly number[];
}

/** A bay with every solid, whose coordinates are the numbers drawn; sizes and moves are fixed. */
function document({ datums, at }: Bay, write: Writer, nested: boolean): object {
  let n = 0;
  const next = () => at[n++ % at.length]!;
  const side = (which: 'engine' | 'chassis') => {
    const one = (axis: Axis, more = 0) => write(next() + more, axis, which);
    const range = (axis: Axis) => {
      const from = next();
      return [write(from, axis, which), write(from + 64, axis, which)];
    };
    const point = () => AXES.map((axis) => one(axis));
    const corner = (dx: number, dy: number, dz: number, base: readonly number[]) =>
      [dx, dy, dz].map((by, i) => write(base[i]! + by, AXES[i]!, which));
    const base = () => [next(), next(), next()];
    const [p, q] = [base(), base()];
    const along = next();
    return {
      [`${which} box`]: {
        mirror: `${which} image`,
        box: { x: range('x'), y: range('y'), z: range('z') },
        tilt: { about: 'z', by: 10, at: point() },
      },
      [`${which} can`]: {
        cylinder: {
          axis: 'y',
          from: write(along, 'y', which),
          to: write(along + 99, 'y', which),
          center: [one('x'), one('z')],
          diameter: 2,
        },
        sweep: { x: [0, '1/2'] },
      },
      [`${which} bar`]: {
        prism: {
          axis: 'z',
          from: write(along, 'z', which),
          to: write(along + 7, 'z', which),
          profile: [
            [0, 0],
            [64, 0],
            [0, 64],
          ].map(([dx, dy]) => corner(dx!, dy!, 0, p).slice(0, 2)),
        },
      },
      [`${which} rail`]: {
        mirror: `${which} other rail`,
        rail: {
          stations: [0, 99].map((by) => ({
            x: write(along + by, 'x', which),
            inside: write(640, 'y', which),
            outside: write(768 - by, 'y', which),
            top: write(p[2]!, 'z', which),
            bottom: write(p[2]! - 64 - by, 'z', which),
          })),
        },
      },
      [`${which} rest`]: {
        solids: [
          { ball: { center: point(), diameter: 1 } },
          {
            panel: {
              corners: [corner(0, 0, 0, q), corner(640, 0, 64, q), corner(0, 640, 9, q)],
              thick: '1/8',
              behind: 'below',
            },
          },
          { tube: { through: [corner(0, 0, 0, q), corner(64, 9, 5, q)], diameter: 1 } },
          {
            hull: {
              points: [
                corner(0, 0, 0, p),
                corner(64, 0, 0, p),
                corner(0, 64, 0, p),
                corner(0, 0, 64, p),
              ],
            },
          },
        ],
      },
    };
  };
  const datumsOf = (which: 'engine' | 'chassis') => {
    const { alpha, beta } = datums[which];
    const coordinates = (value: (i: number) => string) =>
      Object.fromEntries(AXES.map((axis, i) => [axis, value(i)]));
    return {
      // `beta` before `alpha`: the order of datums must not matter.
      beta: coordinates((i) =>
        nested ? fromDatum(beta[i]!, AXES[i]!, 'alpha', alpha[i]!) : inches(beta[i]!),
      ),
      alpha: coordinates((i) => inches(alpha[i]!)),
    };
  };
  const engine = side('engine');
  const chassis = side('chassis');
  const pose = (axis: Axis, from: number) => [
    write(from, axis, 'chassis'),
    write(from + 640, axis, 'chassis'),
  ];
  return {
    berth: 1,
    units: 'in',
    driver: 'left',
    datums: { engine: datumsOf('engine'), chassis: datumsOf('chassis') },
    position: {
      setback: pose('x', 1280),
      offset: write(9, 'y', 'chassis'),
      height: pose('z', 0),
      pitch: [0, 5],
    },
    engine,
    chassis,
    rules: [{ between: ['engine', 'chassis'], gap: '1/2' }],
    limits: [{ quantity: 'setback', min: write(1300, 'x', 'chassis') }],
    choices: {
      box: {
        as: {},
        other: {
          replace: {
            'engine box': { ball: { center: AXES.map((a) => write(5, a, 'engine')), diameter: 1 } },
          },
          add: {
            chassis: {
              shelf: { ball: { center: AXES.map((a) => write(7, a, 'chassis')), diameter: 1 } },
            },
          },
        },
      },
    },
    trims: [
      {
        part: 'chassis box',
        cut: 'up',
        over: { y: [write(-64_000, 'y', 'chassis'), write(64_000, 'y', 'chassis')] },
        'up to': 1,
      },
    ],
  };
}

function read(doc: object): Scenario {
  const { scenario, problems } = readScenario(JSON.stringify(doc), 'json');
  expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  return scenario!;
}

const parts = fc.integer({ min: -3200, max: 3200 });
const datum = fc.tuple(parts, parts, parts);
const both = fc.record({ alpha: datum, beta: datum });
const bay = fc.record({
  datums: fc.record({ engine: both, chassis: both }),
  at: fc.array(parts, { minLength: 5, maxLength: 40 }),
});

describe('tape words', () => {
  it('give the identical scenario as the coordinates they stand for', () => {
    let spoken = 0;
    fc.assert(
      fc.property(
        bay,
        fc.array(fc.integer({ min: 0, max: 2 }), { minLength: 3, maxLength: 9 }),
        fc.boolean(),
        (one, picks, nested) => {
          const words_ = document(one, words(one.datums, picks), nested);
          spoken +=
            JSON.stringify(words_).split(/ of alpha| of beta|behind|above|below/).length - 1;
          expect(read(words_)).toEqual(read(document(one, plain, false)));
        },
      ),
      { numRuns: 60, seed: 31 },
    );
    expect(spoken).toBeGreaterThan(2000);
  }, 60_000);

  it('are told by their word, whatever the names and spaces', () => {
    expect(tapeWordsIn('9 ahead of front axle')).toEqual({
      distance: '9',
      word: 'ahead of',
      datum: 'front axle',
    });
    expect(tapeWordsIn(' 5 1/2"  Below   top of rail ')).toEqual({
      distance: '5 1/2"',
      word: 'below',
      datum: 'top of rail',
    });
    for (const text of ['9', '3/8 in', 'ahead', 'aboveboard', 9, 'x'.repeat(400)]) {
      expect(tapeWordsIn(text)).toBeUndefined();
    }
  });

  it('go the way they say: X rearward, Y to the right, Z up', () => {
    const at = (words_: string, axis: Axis) => {
      const datums = { chassis: { mark: { x: 10, y: 10, z: 10 } } };
      const doc = document({ datums: NOWHERE, at: [0, 1, 2] }, plain, false);
      const ball = { center: AXES.map((a) => (a === axis ? words_ : 0)), diameter: 1 };
      const s = read({ ...doc, datums, chassis: { 'chassis box': { ball } }, trims: [] });
      const solid = s.parts.find(({ name }) => name === 'chassis box')!.solids[0]!;
      return solid.shape === 'ball' ? solid.center[AXES.indexOf(axis)]! / 25.4 : NaN;
    };
    expect(at('3 ahead of mark', 'x')).toBeCloseTo(7, 12);
    expect(at('3 behind mark', 'x')).toBeCloseTo(13, 12);
    expect(at('3 left of mark', 'y')).toBeCloseTo(7, 12);
    expect(at('3 right of mark', 'y')).toBeCloseTo(13, 12);
    expect(at('3 above mark', 'z')).toBeCloseTo(13, 12);
    expect(at('3 below mark', 'z')).toBeCloseTo(7, 12);
  });
});

const ORIGIN: Datums = { alpha: [0, 0, 0], beta: [0, 0, 0] };
const NOWHERE = { engine: ORIGIN, chassis: ORIGIN };

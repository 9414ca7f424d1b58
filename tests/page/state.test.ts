import { describe, expect, it } from 'vitest';
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { isCompatible } from '../../src/model/options.js';
import { readScenario } from '../../src/model/read.js';
import { COORDINATES } from '../../src/model/scenario.js';
import type { Scenario } from '../../src/model/scenario.js';
import { addressOf, fromAddress } from '../../src/page/address.js';
import { carriedOver, heldInside, LOOKS, startOf, withOption } from '../../src/page/state.js';
import type { State } from '../../src/page/state.js';

const TEXT = readFileSync('scenarios/orchard-hauler.yaml', 'utf8');
const demo = read(TEXT);

function read(text: string): Scenario {
  const { scenario, problems } = readScenario(text, 'auto');
  if (!scenario) throw new Error(problems.map(({ message }) => message).join('; '));
  return scenario;
}

/** Any state of the demo that can be. */
const states = fc
  .record({
    shares: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 4, maxLength: 4 }),
    options: fc.tuple(...demo.choices.map((choice) => fc.nat({ max: choice.options.length - 1 }))),
    deep: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), {
      minLength: demo.trims.length,
      maxLength: demo.trims.length,
    }),
    looking: fc.constantFrom(...LOOKS),
    name: fc.string({ maxLength: 60, unit: 'grapheme' }),
  })
  .filter(({ options }) => isCompatible(demo, options))
  .map(({ shares, options, deep, looking, name }): State => {
    const [setback, offset, height, pitch] = COORDINATES.map((c, i) => {
      const { min, max } = demo.position[c];
      return min + shares[i]! * (max - min);
    });
    const place = {
      position: { setback: setback!, offset: offset!, height: height!, pitch: pitch! },
      options,
      depths: demo.trims.map(({ upTo }, t) => upTo * deep[t]!),
    };
    return { ...place, looking, kept: [{ ...place, name }] };
  });

describe('the state in the address', () => {
  it('comes back from its address', () => {
    fc.assert(
      fc.property(states, (state) => {
        const back = fromAddress(demo, `#${addressOf(demo, state)}`);
        for (const c of COORDINATES) {
          expect(back.position[c]).toBeCloseTo(state.position[c], 8);
          expect(back.kept[0]!.position[c]).toBeCloseTo(state.position[c], 8);
        }
        expect(back.options).toEqual(state.options);
        expect(back.looking).toBe(state.looking);
        expect(back.kept).toHaveLength(1);
        expect(back.kept[0]!.name).toBe(state.kept[0]!.name);
        back.depths.forEach((depth, t) => expect(depth).toBeCloseTo(state.depths[t]!, 8));
      }),
    );
  });

  it('is in the units of the file and short on tape marks', () => {
    const start = startOf(demo);
    const position = {
      setback: 25.5 * 25.4,
      offset: 0.25 * 25.4,
      height: 2.25 * 25.4,
      pitch: (3.1 * Math.PI) / 180,
    };
    const remote = withOption(demo, start.options, 0, 1)!;
    expect(addressOf(demo, { ...start, position, options: remote })).toBe(
      'at=25.5,0.25,2.25,3.1&with+oil+filter=remote&look=side',
    );
  });

  it('takes nothing from an address that is wrong, and throws nothing', () => {
    const start = startOf(demo);
    for (const bad of [
      '%',
      'at=a,b',
      'at=',
      'with+oil+filter=%zz',
      'with+oil+filter=gone',
      'look=up',
      '=&&=',
    ]) {
      expect(fromAddress(demo, bad)).toEqual(start);
    }
    fc.assert(fc.property(fc.string(), (text) => void fromAddress(demo, text)));
  });

  it('holds a place outside the ranges to them', () => {
    const { position } = fromAddress(demo, 'at=1000,-1000,2,3');
    expect(position.setback).toBe(demo.position.setback.max);
    expect(position.offset).toBe(demo.position.offset.min);
  });
});

describe('options', () => {
  it('brings along what an option needs, and refuses what cannot stand', () => {
    const s = read(
      TEXT.replace(
        /choices:[\s\S]*?\ntrims:/,
        `choices:
  one: { a: {}, b: { needs: { two: d } }, e: { rules out: { two: d } } }
  two: { c: {}, d: { needs: { one: b } } }
trims:`,
        // The parts that the options brought are gone, and so is what they weigh.
      ).replace(/^ {4}(puller|pusher): .*\n/gm, ''),
    );
    expect(withOption(s, [0, 0], 0, 1)).toEqual([1, 1]);
    expect(withOption(s, [1, 1], 1, 0)).toBeUndefined();
    expect(withOption(s, [1, 1], 0, 2)).toBeUndefined();
  });
});

describe('a file read anew', () => {
  it('keeps place, options and cuts by name', () => {
    const start = startOf(demo);
    const state: State = {
      ...start,
      options: withOption(demo, start.options, 0, 1)!,
      depths: demo.trims.map(({ upTo }) => upTo),
    };
    const other = read(
      TEXT.replace('setback: [19, 30]', 'setback: [27, 30]').replace(
        /choices:[^\n]*\n/,
        'choices:\n  paint: { red: {}, green: {} }\n',
      ),
    );
    const carried = carriedOver(demo, other, state);
    expect(carried.position.setback).toBe(27 * 25.4);
    expect(carried.options).toEqual([0, ...state.options]);
    expect(carried.depths).toEqual(state.depths);
    expect(heldInside(other, carried.position)).toEqual(carried.position);
  });
});

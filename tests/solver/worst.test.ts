/**
 * The worst case against bays as they might truly be: every length written with an error is drawn
 * anew within it, the engine is set by the same tape readings, and no margin may be below the worst.
 */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { takenAgain, worstCase } from '../../src/model/errors/worst.js';
import { measureAt } from '../../src/solver/measuring/measure.js';
import { at, margins, read, setIn, truly, written } from '../support/taped.js';
import type { Write } from '../support/taped.js';
import { cases } from '../support/times.js';

/** What varies between bays: how well things are known, how they are turned, what stands first. */
interface Sort {
  readonly error: number;
  readonly tilt: number;
  readonly rock: number;
  readonly padFirst: boolean;
  /** Whether parts are taped from the datums that the engine is set from. */
  readonly taped: boolean;
}

/** A bay of every solid on both sides. Its datums come first, in the order that `read` needs. */
function document(m: Write, { error: e, tilt, rock, padFirst, taped }: Sort): object {
  const chassis = {
    'front axle': { x: m(0, e) },
    'frame centre': { y: m(0, e / 2) },
    'rail top': { z: m(0, e / 3) },
    cowl: { x: m(900, e / 2, ' behind front axle') },
  };
  const pulley = { 'pulley face': { x: m(-600, e), z: m(60, e / 2) } };
  const pad = { 'carb pad': { z: m(380, e / 2) } };
  const crank = { 'crank nose': { y: m(0, e / 4), x: m(-560, e / 4) } };
  const engineDatums = padFirst ? { ...pad, ...pulley, ...crank } : { ...pulley, ...pad, ...crank };
  const ahead = (x: number) => (taped ? m(600 + x, e, ' behind pulley face') : m(x, e));
  const back = (x: number) => (taped ? m(x, e, ' behind front axle') : m(x, e));
  const lean = tilt === 0 ? {} : { tilt: { about: 'y', by: tilt, at: [m(0, e), 0, m(50, e)] } };
  return {
    berth: 1,
    units: 'mm',
    driver: 'left',
    datums: { chassis, engine: engineDatums },
    position: { setback: [500, 800], offset: [-40, 40], height: [0, 100], pitch: [-4, 6] },
    rock,
    engine: {
      block: {
        box: {
          x: [ahead(-550), ahead(0)],
          y: [m(-200, e), m(200, e)],
          z: [m(-90, e), m(210, e)],
        },
        ...lean,
      },
      fan: {
        cylinder: {
          axis: 'x',
          from: taped ? m(120, e, ' ahead of pulley face') : m(-720, e),
          to: taped ? m(60, e, ' ahead of pulley face') : m(-660, e),
          center: [m(0, e), m(80, e)],
          diameter: m(420, e),
        },
        ...lean,
      },
      filter: { ball: { center: [ahead(-450), m(180, e), m(-60, e)], diameter: m(90, e) } },
      header: {
        mirror: 'other header',
        tube: {
          through: [
            [m(-400, e), taped ? m(300, e, ' left of crank nose') : m(-300, e), m(150, e)],
            [m(-200, e), m(-350, e), m(0, e)],
            [m(-50, e), m(-350, e), m(-200, e / 2)],
          ],
          diameter: m(75, e),
        },
        ...lean,
      },
      pad: {
        panel: {
          corners: [
            [m(-300, e), m(-90, e), taped ? m(10, e, ' above carb pad') : m(390, e)],
            [m(-300, e), m(90, e), m(390, e)],
            [m(-150, e), m(90, e), m(410, e)],
            [m(-150, e), m(-90, e), m(405, e)],
          ],
          thick: m(12, e / 4),
          behind: 'above',
        },
      },
    },
    chassis: {
      radiator: {
        box: {
          x: [taped ? m(260, e, ' ahead of front axle') : m(-260, e), m(-200, e)],
          y: [m(-350, e), m(350, e)],
          z: [m(-100, e), m(420, e)],
        },
        sweep: { x: [0, 12] },
      },
      crossmember: {
        prism: {
          axis: 'y',
          from: m(-350, e),
          to: m(350, e),
          profile: [
            [back(100), m(-200, e)],
            [back(220), m(-200, e)],
            [back(200), m(-130, e)],
            [back(110), m(-140, e)],
          ],
        },
        ...lean,
      },
      firewall: {
        panel: {
          corners: [
            [taped ? m(40, e, ' ahead of cowl') : m(860, e), m(-500, e), m(100, e)],
            [taped ? m(40, e, ' ahead of cowl') : m(860, e), m(500, e), m(100, e)],
            [m(930, e), m(500, e), m(600, e)],
            [m(935, e), m(-500, e), m(600, e)],
          ],
          thick: m(2, e / 8),
        },
        ...lean,
      },
      'right rail': {
        mirror: 'left rail',
        rail: {
          stations: [
            {
              x: taped ? m(300, e, ' ahead of front axle') : m(-300, e),
              inside: taped ? m(380, e, ' right of frame centre') : m(380, e),
              outside: m(440, e),
              top: taped ? m(5, e / 4, ' above rail top') : m(5, e),
              bottom: m(-130, e),
            },
            {
              x: back(300),
              inside: m(400, e),
              outside: m(450, e),
              top: m(0, e),
              bottom: m(-120, e),
            },
            {
              x: back(900),
              inside: m(370, e),
              outside: m(430, e),
              top: m(20, e),
              bottom: m(-100, e),
            },
          ],
        },
      },
      tower: {
        hull: {
          points: [
            [back(50), m(380, e), m(0, e)],
            [m(250, e), m(330, e), m(0, e)],
            [m(250, e), m(480, e), m(0, e)],
            [m(150, e), m(400, e), m(300, e)],
          ],
        },
      },
      shaft: {
        tube: {
          through: [
            [m(200, e), m(-330, e), m(150, e)],
            [m(850, e), m(-420, e), m(330, e)],
          ],
          diameter: m(20, e),
        },
      },
    },
    rules: [
      { between: ['engine', 'chassis'], gap: 5 },
      { between: ['fan', 'radiator'], gap: 20, measured: 'fore-aft', side: 'ahead' },
      { between: ['block', 'firewall'], gap: 20, measured: 'fore-aft', side: 'behind' },
      { between: ['header', 'left rail'], gap: 5, measured: 'side-to-side', side: 'left' },
      { between: ['other header', 'right rail'], gap: 5, measured: 'side-to-side', side: 'right' },
      { between: ['filter', 'crossmember'], gap: 5, measured: 'up-down', side: 'below' },
    ],
    limits: [{ quantity: 'height above', of: 'filter', above: 'rail top', min: -150, max: 400 }],
  };
}

/** Brackets of gaps over rock are this wide at most, and more. */
const BRACKET = 0.01;

/** The datums' numbers, which are written first. */
const READ_FIRST = 9;

/** Whether a number, by its place among all that are written, is one of the pair's. */
function matters(pair: (m: Write) => object, index: number): boolean {
  let n = 0;
  const marked = pair((value, _, place = '') => (n++ === index ? 'HERE' : `${value}${place}`));
  return JSON.stringify(marked).includes('HERE');
}

const share = fc.integer({ min: -100, max: 100 }).map((n) => n / 100);
const position = fc.record({
  setback: fc.integer({ min: 500, max: 800 }),
  offset: fc.integer({ min: -40, max: 40 }),
  height: fc.integer({ min: 0, max: 100 }),
  pitch: fc.integer({ min: -40, max: 60 }).map((tenths) => (tenths * Math.PI) / 1800),
});
const sort: fc.Arbitrary<Sort> = fc.record({
  error: fc.constantFrom(0.5, 3, 8),
  tilt: fc.constantFrom(0, 0, 25, -70),
  rock: fc.constantFrom(0, 3),
  padFirst: fc.boolean(),
  taped: fc.boolean(),
});

describe('the worst case', () => {
  it.each([
    ['anywhere within the errors', fc.array(share, { minLength: 60, maxLength: 150 })],
    [
      'at the corners of the errors',
      fc.array(fc.constantFrom(-1, 1), { minLength: 60, maxLength: 150 }),
    ],
  ])(
    'is below every true bay, %s',
    (_, shares) => {
      let checked = 0;
      let fallen = 0;
      fc.assert(
        fc.property(sort, position, shares, (of, p, off) => {
          const drawn = read(document(written, of));
          const truth = read(document(truly(off), of));
          const worst = margins(worstCase(drawn), p);
          const true_ = margins(truth, setIn(truth, drawn, p, of.padFirst));
          const plain = margins(drawn, p);
          expect(true_.size).toBe(worst.size);
          for (const [rule, margin] of true_) {
            expect(margin, rule).toBeGreaterThan(worst.get(rule)! - BRACKET);
            expect(plain.get(rule)!, rule).toBeGreaterThan(worst.get(rule)! - BRACKET);
            checked++;
            if (margin < plain.get(rule)! - BRACKET) fallen++;
          }
        }),
        { numRuns: cases(18), seed: 71, endOnFailure: true },
      );
      expect(checked).toBeGreaterThan(700);
      expect(fallen).toBeGreaterThan(checked / 4);
    },
    120_000,
  );

  it('is below a pair whose every error is turned the way that hurts most', () => {
    const ENGINE = ['block', 'fan', 'filter', 'header', 'pad'];
    const CHASSIS = ['radiator', 'crossmember', 'firewall', 'right rail', 'tower', 'shaft'];
    const used: number[] = [];
    fc.assert(
      fc.property(
        sort,
        position,
        fc.constantFrom(...ENGINE),
        fc.constantFrom(...CHASSIS),
        (of, p, one, other) => {
          const pair = (m: Write) => {
            const doc = document(m, of) as Record<'engine' | 'chassis', Record<string, object>>;
            const engine = { [one]: doc.engine[one]! };
            const chassis = { [other]: doc.chassis[other]! };
            const rules = [{ between: ['engine', 'chassis'], gap: 0 }];
            return { ...doc, engine, chassis, rules, limits: [] };
          };
          const drawn = read(pair(written));
          const worst = measureAt(worstCase(drawn), [], p).margin;
          const margin = (shares: readonly number[]) => {
            const truth = read(pair(truly(shares)));
            return measureAt(truth, [], setIn(truth, drawn, p, of.padFirst)).margin;
          };
          const all: number[] = [];
          document(truly([0], all), of);
          const shares = all.map(() => 0);
          let least = margin(shares);
          const plain = least;
          all.forEach((_, i) => {
            // Numbers of other parts are written too, and change nothing.
            for (const way of [1, -1]) {
              const tried = [...shares];
              tried[i] = way;
              const found = i < READ_FIRST || matters(pair, i) ? margin(tried) : least;
              if (found < least) {
                shares[i] = way;
                least = found;
              }
            }
          });
          expect(least).toBeGreaterThan(worst - BRACKET);
          used.push((plain - least) / (plain - worst));
        },
      ),
      { numRuns: 20, seed: 72, endOnFailure: true },
    );
    // Most of what is feared can come about: the bound is not idle.
    used.sort((a, b) => a - b);
    expect(used[Math.floor(used.length / 2)]).toBeGreaterThan(0.6);
  }, 120_000);

  it('is reached, at some corner, where boxes face each other', () => {
    const doc = (m: Write) => ({
      berth: 1,
      units: 'mm',
      driver: 'left',
      datums: { chassis: { axle: { x: m(0, 2) } }, engine: { face: { x: m(-100, 3) } } },
      position: { setback: [400, 600], offset: 0, height: 0, pitch: 0 },
      engine: {
        fan: {
          box: { x: [m(40, 1, ' ahead of face'), -110], y: [-50, 50], z: [-50, m(50, 4)] },
        },
      },
      chassis: {
        core: { box: { x: [0, m(200, 1, ' behind axle')], y: [-60, 60], z: [-60, 60] } },
        hood: { box: { x: [0, 900], y: [-60, 60], z: [m(100, 5), 120] } },
        tower: { box: { x: [0, m(150, 1)], y: [-60, 60], z: [-200, 60] } },
      },
      rules: [{ between: ['engine', 'chassis'], gap: 0 }],
    });
    const drawn = read(doc(written));
    const p = { setback: 500, offset: 0, height: 0, pitch: 0 };
    const worst = margins(worstCase(drawn), p);
    const least = new Map<string, number>();
    const count = drawn.measurements.length;
    expect(count).toBe(7);
    for (let corner = 0; corner < 2 ** count; corner++) {
      const shares = Array.from({ length: count }, (_, i) => ((corner >> i) & 1 ? 1 : -1));
      const truth = read(doc(truly(shares)));
      const off = at(truth, 'chassis', 'axle', 'x') - (at(truth, 'engine', 'face', 'x') + 100);
      for (const [rule, margin] of margins(truth, { ...p, setback: 500 + off })) {
        least.set(rule, Math.min(margin, least.get(rule) ?? Infinity));
      }
    }
    for (const [rule, margin] of least) expect(margin, rule).toBeCloseTo(worst.get(rule)!, 6);
    // 500 - 140 - 200, less 1 each way: both are taped from what the engine is set from.
    expect(worst.get('fan,core nearest')).toBeCloseTo(160 - 1 - 1, 9);
    // The tower is not: the axle may be off by 2 from where it was measured.
    expect(worst.get('fan,tower nearest')).toBeCloseTo(210 - 1 - 1 - 2, 9);
    expect(worst.get('fan,hood nearest')).toBeCloseTo(50 - 4 - 5, 9);
  });

  describe('by hand, a ball above and ahead of what it must clear', () => {
    /** One ball on each side, gaps along axes, datums alone in error; pitch pinned at 30 degrees. */
    const bayOf = (engine: object, chassis: object, more: object, ball: object, wall: object) => ({
      berth: 1,
      units: 'mm',
      driver: 'left',
      datums: { engine, chassis },
      position: { setback: 500, offset: 0, height: 100, pitch: 30 },
      engine: { ball: { ...more, ball: { diameter: 10, ...ball } } },
      chassis: { wall: { box: wall } },
      rules: [
        { between: ['ball', 'wall'], gap: 0, measured: 'fore-aft', side: 'behind' },
        { between: ['ball', 'wall'], gap: 0, measured: 'up-down', side: 'below' },
        { between: ['ball', 'wall'], gap: 0, measured: 'side-to-side', side: 'right' },
      ],
    });
    const WALL = { x: [900, 910], y: [400, 410], z: [-300, -290] };
    const ALONG = ['fore-aft', 'up-down', 'side-to-side'];
    const P = { setback: 500, offset: 0, height: 100, pitch: Math.PI / 6 };
    const loss = (doc: object, part = 'ball') => {
      const drawn = read(doc);
      const [plain, worst] = [margins(drawn, P), margins(worstCase(drawn), P)];
      return ALONG.map((along) => {
        const rule = `${part},wall ${along}`;
        return plain.get(rule)! - worst.get(rule)!;
      });
    };
    const off = (doc: object, expected: readonly number[], part?: string) => {
      loss(doc, part).forEach((lost, i) => expect(lost, ALONG[i]).toBeCloseTo(expected[i]!, 9));
    };
    const plainly = { center: [-100, 0, 50] };

    it('a plain part goes the way that its engine datum sends the engine', () => {
      const face = { face: { x: '-600 +- 3', z: '50 +- 2' } };
      // 3 cos 30 + 2 sin 30 along X, 3 sin 30 + 2 cos 30 along Z.
      const [c, s] = [Math.cos(Math.PI / 6), 0.5];
      off(bayOf(face, {}, {}, plainly, WALL), [3 * c + 2 * s, 3 * s + 2 * c, 0]);
    });

    it('what is taped from the engine datum stays with it', () => {
      const face = { face: { x: '-600 +- 3', z: '50 +- 2' } };
      const ball = { center: ['500 behind face', 0, '5 above face'] };
      off(bayOf(face, {}, {}, ball, WALL), [0, 0, 0]);
    });

    it('what is taped from the chassis datum stays with the engine, and all else moves', () => {
      const chassis = { axle: { x: '0 +- 4' }, rail: { z: '0 +- 3' }, centre: { y: '0 +- 2' } };
      const taped = {
        x: ['900 behind axle', '910 behind axle'],
        y: ['400 right of centre', 410],
        z: ['300 below rail', '290 below rail'],
      };
      off(bayOf({}, chassis, {}, plainly, WALL), [4, 3, 2]);
      off(bayOf({}, chassis, {}, plainly, taped), [0, 0, 0]);
    });

    it('a mirror image goes the other way, so that nothing cancels', () => {
      const nose = { nose: { y: '0 +- 2' } };
      const ball = { center: [-100, '30 right of nose', 50] };
      const doc = bayOf(nose, {}, { mirror: 'image' }, ball, WALL);
      const rules = [
        { between: ['engine', 'wall'], gap: 0, measured: 'side-to-side', side: 'right' },
      ];
      const sideways = (part: string) => loss({ ...doc, rules }, part)[2];
      expect(sideways('ball')).toBeCloseTo(0, 9);
      expect(sideways('image')).toBeCloseTo(4, 9);
    });
  });

  it('is the scenario itself without errors, and takes one measurement out of it when asked', () => {
    const exact: Sort = { error: 3, tilt: 0, rock: 0, padFirst: false, taped: true };
    const plain = read(document((value, _, place = '') => `${value}${place}`, exact));
    expect(plain.measurements).toEqual([]);
    expect(worstCase(plain)).toBe(plain);
    const drawn = read(document(written, exact));
    const p = { setback: 650, offset: 0, height: 50, pitch: 0.03 };
    const before = margins(worstCase(drawn), p);
    let gained = 0;
    drawn.measurements.forEach((_, i) => {
      const after = margins(worstCase(takenAgain(drawn, i)), p);
      for (const [rule, margin] of after) {
        expect(margin).toBeGreaterThan(before.get(rule)! - 1e-6);
        if (margin > before.get(rule)! + 0.1) gained++;
      }
    });
    expect(gained).toBeGreaterThan(20);
    const none = drawn.measurements.reduce((s, __, i) => takenAgain(s, i), drawn);
    for (const [rule, margin] of margins(worstCase(none), p)) {
      expect(margin).toBeCloseTo(margins(plain, p).get(rule)!, 9);
    }
  });
});

/**
 * Certificates forged to fool not the arithmetic but what is looked up and remembered on the way: directions of
 * no length, options named twice, what one leaf left behind for the next. Each bay is told by hand.
 */

import { describe, expect, it } from 'vitest';
import type {
  Certificate,
  CertifiedPair,
  CertifiedRow,
  Four,
  Tree,
} from '../../src/model/certificate.js';
import type { Vec3 } from '../../src/model/scenario.js';
import { certificateFrom } from '../../src/model/schema/certificate.js';
import { bay, certificateOf, claiming, fault, RULES } from '../support/forging.js';

/** The certificate with its place put elsewhere, every pair parted along one direction. */
function placed(of: Certificate, at: Four, margin: number, along?: Vec3): Certificate {
  const parted = of.answer.place.parted.map(
    ([pair, solids, own]) => [pair, solids, along ?? own] as const,
  );
  const place = { at, margin, parted };
  return { ...of, answer: { ...of.answer, place, setting: place } };
}

describe('a forged place', () => {
  // At setback -60 the block is 40 deep in the front wall.
  const wide = bay(
    'rules: [{ between: [engine, chassis], gap: 0 }]',
    'setback: [-60, 60], offset: 0, height: 0, pitch: 0',
  );
  const certificate = certificateOf(wide);

  it.each([
    ['nothing', [0, 0, 0]],
    ['what has no square', [1e-200, 0, 0]],
    ['what has a square that is all rounding', [1e-160, 0, 0]],
    ['what has too large a square', [1e200, 0, 0]],
  ] as const)('may not part what overlaps by a direction as long as %s', (_, along) => {
    const forged = placed(certificate, [-60, 0, 0, 0], 0, along);
    expect(fault(wide, forged)).toContain('less is left there than is said');
  });

  it('is parted by a direction of whatever length that can be told', () => {
    for (const size of [1e-100, 1e-3, 3, 1e100]) {
      const parted = certificate.answer.place.parted.map(
        ([pair, solids, along]) =>
          [pair, solids, along.map((x) => x * size) as unknown as Vec3] as const,
      );
      const place = { ...certificate.answer.place, parted };
      const same = { ...certificate, answer: { ...certificate.answer, place } };
      expect(fault(wide, same)).toBe('none');
    }
  });

  it('may not be parted by what parts another pair whose names read the same in a row', () => {
    const named = bay(
      `${RULES}
choices: { more: { stays: {}, goes: { add: {
  engine: { 'a|b': { box: { x: [100, 110], y: [-10, 10], z: [300, 310] } },
    a: { box: { x: [200, 210], y: [-10, 10], z: [300, 310] } } },
  chassis: { c: { box: { x: [300, 310], y: [-10, 10], z: [300, 310] } },
    'b|c': { box: { x: [195, 205], y: [-10, 10], z: [300, 310] } } } }, hours: 1 } } }`,
    );
    const all = certificateOf(named);
    const pairs: CertifiedPair[] = [
      ...all.pairs,
      ...[
        ['block', 'c'],
        ['block', 'b|c'],
        ['a|b', 'front'],
        ['a|b', 'rear'],
        ['a|b', 'c'],
        ['a|b', 'b|c'],
        ['a', 'front'],
        ['a', 'rear'],
        ['a', 'c'],
        ['a', 'b|c'],
        ['a|b', 'floor'],
        ['a', 'floor'],
      ].map(([a, b]) => ({ parts: [a!, b!] as const, measured: 'nearest' as const })),
    ];
    const ways: Vec3[] = [
      [1, 0, 0],
      [-1, 0, 0],
      [0, 0, 1],
      [0, 0, -1],
    ];
    const parted = pairs.flatMap((_, i) => ways.map((way) => [i, [0, 0], way] as const));
    const place = { at: [0, 0, 0, 0] as const, margin: 0, parted };
    const answer = { options: [1], place, setting: place };
    // 'a' is 5 deep in 'b|c'; 'a|b' is 190 from 'c'.
    expect(fault(named, { ...all, pairs, answer, claims: all.claims.slice(0, 1) })).toContain(
      'a - b|c: less is left',
    );
  });
});

describe('forged options', () => {
  it('may not name one twice, as if nothing were left out', () => {
    const chosen = bay(`${RULES}
choices: { front: { stays: {}, goes: { remove: [front], hours: 1 } } }`);
    const stays = certificateOf(chosen, { allowed: [[0]] });
    const twice = { ...stays, asked: { ...stays.asked, allowed: [[0, 0]] } };
    expect(fault(chosen, twice)).toContain("its options are not the file's");
  });

  // Ahead and further ahead stand together only under the third of 'tie', which one of 'hold' rules out.
  const tied = bay(
    `rules: [{ between: [engine, chassis], gap: 0 }]
choices:
  hold: { fast: { rules out: { tie: third } }, loose: {} }
  ahead: { 'no': {}, 'yes': { move: { front: { x: -50 } }, rules out: { tie: first } } }
  further: { 'no': {}, 'yes': { move: { front: { x: -50 } }, rules out: { tie: second } } }
  tie: { first: {}, second: {}, third: {} }`,
    'setback: 0, offset: 0, height: 0, pitch: 0',
  );

  it('may not be left out of a leaf because another leaf could not have them', () => {
    const all = certificateOf(tied);
    // 20 as it stands, 70 with one of the two, 120 with both, and 80 to the rear wall.
    expect(all.answer.place.margin).toBeCloseTo(80, 6);
    const reasons = [0, -50].map((x) => ({
      solids: [0, 0] as const,
      pairs: [{ points: [[20, 0, 150] as const, [x, 0, 150] as const] as const }],
    }));
    const pairs = [...all.pairs, { parts: ['block', 'front'], measured: 'nearest' } as const];
    const row = { pair: pairs.length - 1, value: 70.01, slopes: [0, 0, 0, 0] as const, reasons };
    const leaf = { rows: [row as CertifiedRow], shares: [1] };
    const forged = claiming({ ...all, pairs }, () => ({
      choice: 0,
      options: [
        [0, leaf],
        [1, leaf],
      ],
    }));
    const [first] = forged.claims;
    const claims = [{ ...first!, most: 71 }];
    expect(fault(tied, { ...forged, claims })).toContain('[0:1]: block - front: ');
  });

  it('may not count as more work where the hours are the same but for rounding, and money tells', () => {
    // 0.1 and 0.2 hours sum to a hair more than 0.3, and cost 10 less.
    const hours = bay(`${RULES}
choices:
  one: { done: { hours: 0.3, cost: 20 }, parted: { hours: 0.1, cost: 5 } }
  other: { goes: { hours: 0 }, stays: { hours: 0.2, cost: 5 } }`);
    const all = certificateOf(hours);
    const none = { none: 'work' as const };
    const open = all.claims[0]!.tree;
    const less = (options: readonly number[], done: Tree, both: Tree): Certificate => {
      const other = {
        choice: 1,
        options: [
          [0, open],
          [1, both],
        ],
      } as const;
      const tree = {
        choice: 0,
        options: [
          [0, done],
          [1, other],
        ],
      } as const;
      const claims = [
        { ...all.claims[0]!, most: 1000 },
        { about: 'less work', most: 1000, tree } as const,
      ];
      return { ...all, answer: { ...all.answer, options }, claims };
    };
    // Of the answer's 0.3 hours, what is done in two is as many and cheaper.
    expect(fault(hours, less([0, 0], none, open))).toBe('none');
    expect(fault(hours, less([0, 0], none, none))).toContain('options are left out');
    // Of that answer, what is done in one is as many and dearer.
    expect(fault(hours, less([1, 1], none, none))).toBe('none');
  });
});

describe('a limit that is just kept', () => {
  it('may not be said to be missed by what rounding makes of it', () => {
    // What comes out was where what goes in will be, so what the axle carries is what it carried; summed as
    // doubles it comes out a hair more.
    const plain = bay(RULES, 'setback: 0, offset: 0, height: 0, pitch: 0');
    const row = { limit: 0, value: -1e-13, slopes: [0, 0, 0, 0], scale: 1 } as const;
    const forged = claiming(certificateOf(plain), () => ({ rows: [row], shares: [1] }), 1000);
    const axles = { front: 0, rear: 3000 };
    const limits = [{ quantity: { of: 'front axle load' }, min: -Infinity, max: 700.3 }] as const;
    let more = 0;
    for (const mass of [1e4, 3e4, 7e4, 9e4]) {
      for (const x of [100, 700, 1300, 1900]) {
        const crate = { name: 'crate', side: 'chassis', mass, at: [x, 0, 0] } as const;
        const weight = { axles, before: { front: 700.3 }, out: [crate], in: [crate] };
        const share = (axles.rear - x) / (axles.rear - axles.front);
        if (700.3 - mass * share + mass * share > 700.3) more++;
        expect(fault({ ...plain, weight, limits }, forged)).toContain('dips below a limit');
      }
    }
    expect(more).toBeGreaterThan(0);
  });
});

describe('a tree', () => {
  it('is read as deep as one of ours can be, and refused before it is too deep to read', () => {
    const { claims, ...rest } = certificateOf(bay(RULES));
    const read = (depth: number): string => {
      let { tree } = claims[0]!;
      for (let n = 0; n < depth; n++) {
        tree = { split: 0, at: 60, parts: [tree, { none: 'options' }] };
      }
      const raw: unknown = JSON.parse(
        JSON.stringify({ ...rest, claims: [{ ...claims[0]!, tree }] }),
      );
      const found = certificateFrom(raw);
      return 'fault' in found ? found.fault : 'read';
    };
    expect(read(300)).toBe('read');
    for (const depth of [600, 1000, 1400, 2000]) expect(read(depth)).toContain('too deep');
  });
});

/** `berth mounts`: what it says, what it writes, what it refuses, and how it ends. */

import { createRequire } from 'node:module';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { ICircleEntity, IDxf, IEntity, ILwpolylineEntity } from 'dxf-parser';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { patternDxf } from '../../src/cli/writing/pattern-dxf.js';
import { patternsOf } from '../../src/geometry/mounts/patterns.js';
import type { Pattern } from '../../src/geometry/mounts/patterns.js';
import { mountAt } from '../../src/geometry/mounts/standing.js';
import { AT_HOME, UPRIGHT } from '../geometry/mounts/random-mounts.js';
import { fileOf } from '../support/doc.js';
import type { BayDoc } from '../support/doc.js';
import { berth } from './world.js';

/** Its types are those of an ES module, which it is not. */
const DxfParser = createRequire(import.meta.url)('dxf-parser') as new () => {
  parseSync(text: string): IDxf | null;
};

const DEMO = 'scenarios/orchard-hauler.yaml';

const MOUNT = {
  boss: {
    hole: 0.5,
    holes: [
      [-12, -8, 0],
      [-9, -8, 0],
      [-9, -8, 3],
      [-12, -8, 3],
    ],
  },
  pad: { at: [-10, -15, -3], face: 'inside' },
  tube: { diameter: 2, wall: 0.125 },
  'base plate': { size: [6, 5], holes: [[-2.5, -2]], hole: 0.5 },
  gussets: { count: 2, 'on plate': 1, 'on tube': 1 },
  mirror: 'right',
};
const MOUNTS = {
  make: { left: MOUNT },
  supports: { rear: { at: [20, 0, -3] } },
  supported: { weight: 600, at: [0, 0, 2] },
  loads: { torque: 400, gear: 2.48, 'load factor': 1 },
};
const BAY: BayDoc = {
  units: 'in',
  position: { setback: 0, offset: 0, height: 0, pitch: 0 },
  engine: { block: { box: { x: [-20, 0], y: [-7, 7], z: [-3, 8] } } },
  chassis: { wall: { box: { x: [12, 13], y: [-2, 2], z: [-2, 2] } } },
  rules: [{ between: ['engine', 'chassis'], gap: 1 }],
};
const file = (mounts: object = {}) =>
  fileOf({ ...BAY, mounts: { ...MOUNTS, ...mounts } } as unknown as BayDoc);
const AT = ['--at', 'setback=0'];
const typed = (argv: readonly string[], mounts: object = {}) =>
  berth(['mounts', '-', '--plain', ...AT, ...argv], { stdin: file(mounts) });

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'berth-mounts-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('berth mounts', () => {
  it('of the demo, where it would be set', async () => {
    const { status, out } = await berth([
      'mounts',
      DEMO,
      '--plain',
      '--at',
      'setback=20 13/16,offset=1 3/8,height=7/16,pitch=4',
      ...['oil filter=remote', 'headers=block huggers', 'fan=electric pusher'].flatMap((option) => [
        '--option',
        option,
      ]),
    ]);
    expect(out).toMatchSnapshot();
    expect(status).toBe(0);
    const lines = out.split('\n');
    expect(lines.length).toBeLessThanOrEqual(25);
    expect(lines.every((line) => line.length <= 80)).toBe(true);
  });

  it('for programs', async () => {
    const { status, out } = await typed(['--json']);
    expect(status).toBe(0);
    const answer = JSON.parse(out) as Record<string, never>;
    expect(answer).toMatchObject({ units: 'in', clear: true, fixedTo: [] });
    const [left, right] = answer['mounts'] as unknown as Record<string, unknown>[];
    expect(left).toMatchObject({
      name: 'left',
      padToBoss: [-0.5, 7, 4.5],
      trueLength: Number(Math.hypot(0.5, 7, 4.5).toFixed(5)),
      solid: true,
      faults: [],
    });
    expect(right).toMatchObject({ padToBoss: [-0.5, -7, 4.5] });
    // Between the plates: 1/4 in each off the 7 across.
    const tube = left!['tube'] as Record<string, unknown>;
    expect(tube['centreline']).toBe(Number(Math.hypot(0.5, 6.5, 4.5).toFixed(5)));
    const loads = answer['loads'] as unknown as {
      cases: { case: string; onSupports: number[][]; momentLeft: number[] }[];
      supports: { name: string }[];
    };
    expect(loads.supports.map(({ name }) => name)).toEqual(['left', 'right', 'rear']);
    const of = (name: string) => loads.cases.find((one) => one.case === name)!;
    // T r / s: 400 lbf ft x 2.48 over 16 in (derived).
    expect(of('torque').onSupports.map(([, , z]) => z)).toEqual([744, -744, 0]);
    // A lever: 10.5 of 30.5 in back, 600 lb.
    const rear = (600 * 10.5) / 30.5;
    expect(-of('weight').onSupports[2]![2]!).toBeCloseTo(rear, 3);
    expect(-of('weight').onSupports[0]![2]!).toBeCloseTo((600 - rear) / 2, 3);
    expect(of('weight').momentLeft).toEqual([0, 0, 0]);
  });

  it('has a row a mount, and what the supports cannot take', async () => {
    const { out } = await typed([], { supports: {}, insulator: undefined });
    expect(out).toContain('solid mounts: the engine does not rock against them');
    expect(out).toMatch(/weight leaves 525 lbf ft, tail-down, to what else holds the engine/);
    expect(out).toMatch(/^left {6}\d+ +\d+/m);
  });

  it('says what is in the way, and ends with 1', async () => {
    const chassis = {
      hose: {
        tube: {
          through: [
            [-30, -11, 0],
            [0, -11, 0],
          ],
          diameter: 1,
        },
      },
    };
    const { status, out } = await typed([], { passages: { chassis } });
    expect(status).toBe(1);
    expect(out).toMatch(/^NOT CLEAR\. left tube - hose, short \S/);
  });

  it('says what cannot be made, writes no pattern of it, and ends with 1', async () => {
    const make = { left: { ...MOUNT, 'base plate': { size: [2, 5] } } };
    const { status, out } = await typed(['-o', join(folder, 'none')], { make });
    expect(status).toBe(1);
    expect(out).toMatch(/^CANNOT BE MADE\. left: the tube's foot runs \S+ off the base plate\.\n/);
    expect(out).not.toContain('Written');
    expect(readdirSync(join(folder, 'none'))).toEqual([]);
    const behind = { left: { ...MOUNT, pad: { at: [-10, -6, -3], face: 'inside' } } };
    const inside = await typed([], { make: behind });
    expect(inside.status).toBe(1);
    expect(inside.out).toContain('the boss lies behind the face of the pad');
  });

  it('carries one caution, and speaks of no strength', async () => {
    for (const argv of [[], ['--all']]) {
      const { out } = await typed(argv);
      expect(out.match(/local codes/g)).toHaveLength(1);
      expect(out).not.toMatch(/stress|strong|safe|weld size|\bpass\b|rated/i);
    }
  });

  it('refuses a file without mounts, and options it does not know', async () => {
    const none = await berth(['mounts', '-', ...AT], { stdin: fileOf(BAY) });
    expect(none).toMatchObject({ status: 2, out: '' });
    expect(none.err).toContain('this file has no mounts');
    expect((await typed(['--option', 'hood=off'])).status).toBe(2);
    expect((await typed(['--at', 'setbak=0'])).status).toBe(2);
  });

  it('prints in the units asked for', async () => {
    const { out } = await berth(['mounts', '-', '--plain', ...AT, '--units', 'mm'], {
      stdin: file(),
    });
    expect(out).toMatch(/13 mm forward, 178 mm to passenger|13 forward, 178 to passenger/);
    expect(out).toMatch(/^N {9}/m);
  });
});

describe('patterns on disk', () => {
  it('are written whole, over our own, never over others without --force', async () => {
    const out = join(folder, 'out');
    const first = await typed(['-o', out]);
    expect(first.status).toBe(0);
    const names = readdirSync(out).sort();
    expect(names).toEqual(
      ['left', 'right']
        .flatMap((side) =>
          ['base-plate', 'gusset-base-1', 'gusset-base-2', 'tube-wrap', 'upper-plate'].flatMap(
            (piece) => [`${side}-${piece}.dxf`, `${side}-${piece}.svg`],
          ),
        )
        .sort(),
    );
    expect(first.out.match(/^Written: /gm)).toHaveLength(names.length);
    expect((await typed(['-o', out])).status).toBe(0);
    const other = join(out, 'right-base-plate.dxf');
    writeFileSync(other, 'mine');
    rmSync(join(out, 'left-base-plate.svg'));
    const refused = await typed(['-o', out]);
    expect(refused.status).toBe(2);
    expect(refused.err).toContain('--force writes over it');
    // Nothing at all was written.
    expect(readFileSync(other, 'utf8')).toBe('mine');
    expect(existsSync(join(out, 'left-base-plate.svg'))).toBe(false);
    expect((await typed(['-o', out, '--force'])).status).toBe(0);
    expect(readFileSync(other, 'utf8')).toMatch(/^999\nBerth flat pattern\n/);
  });

  it('have names that no mount can spoil', async () => {
    const out = join(folder, 'names');
    const make = { '../<b>"up" & \u202e': { ...MOUNT, mirror: '../ b up' } };
    const { status } = await typed(['-o', out], { make });
    expect(status).toBe(0);
    const names = readdirSync(out);
    expect(names.every((one) => /^b-up-[12]-[a-z0-9-]+\.(svg|dxf)$/.test(one))).toBe(true);
    const svg = readFileSync(join(out, 'b-up-1-base-plate.svg'), 'utf8');
    expect(svg).toContain('../&lt;b&gt;&quot;up&quot; &amp;');
    expect(svg).not.toContain('<b>');
    expect(existsSync(join(folder, 'b-up'))).toBe(false);
  });
});

describe('DXF', () => {
  const patterns = (): readonly Pattern[] => {
    const gussets = {
      count: 2,
      ends: ['base'],
      onPlate: 30,
      onTube: 40,
      thick: 6,
      first: 0,
    } as const;
    const leaning = { ...UPRIGHT, gussets, pad: { ...UPRIGHT.pad, at: [40, 30, 0] as const } };
    return patternsOf(mountAt(leaning, AT_HOME).pieces!);
  };
  const parsed = (pattern: Pattern, units: 'in' | 'mm') => {
    const dxf = new DxfParser().parseSync(patternDxf(pattern, 'left', units));
    if (!dxf) throw new Error('no drawing');
    return dxf;
  };
  const on = (entities: readonly IEntity[], layer: string) =>
    entities.filter((entity) => entity.layer === layer);

  it.each(['in', 'mm'] as const)('in %s reads back as what was drawn', (units) => {
    const per = units === 'in' ? 25.4 : 1;
    for (const pattern of patterns()) {
      const { header, entities, tables } = parsed(pattern, units);
      // By the DXF reference 1 is inches, 4 millimetres.
      expect(header['$INSUNITS']).toBe(units === 'in' ? 1 : 4);
      const layers = Object.keys(tables.layer.layers);
      expect(layers).toEqual(expect.arrayContaining(['CUT', 'SCRIBE', 'HOLES', 'TEXT']));
      for (const [layer, runs] of [
        ['CUT', pattern.cut],
        ['SCRIBE', pattern.scribe],
      ] as const) {
        const lines = on(entities, layer) as ILwpolylineEntity[];
        expect(lines.map(({ vertices }) => vertices.length)).toEqual(
          runs.map(({ points }) => points.length),
        );
        lines.forEach(({ vertices, shape }, i) => {
          expect(shape).toBe(runs[i]!.closed);
          vertices.forEach(({ x, y }, k) => {
            const [px, py] = runs[i]!.points[k]!;
            expect(Math.abs(x * per - px) + Math.abs(y * per - py)).toBeLessThan(1e-9);
          });
        });
      }
      const holes = on(entities, 'HOLES') as ICircleEntity[];
      expect(holes.length).toBe(pattern.holes.length);
      holes.forEach(({ center, radius }, i) => {
        const { at, diameter } = pattern.holes[i]!;
        expect(center.x * per).toBeCloseTo(at[0], 9);
        expect(center.y * per).toBeCloseTo(at[1], 9);
        expect(radius * per).toBeCloseTo(diameter / 2, 9);
      });
      const check = on(entities, 'TEXT').filter(({ type }) => type === 'LWPOLYLINE');
      const [{ vertices }] = check as [ILwpolylineEntity];
      const long = Math.abs(vertices[1]!.x - vertices[0]!.x) * per;
      expect(long).toBeCloseTo(units === 'in' ? 4 * 25.4 : 100, 9);
      expect(on(entities, 'TEXT').some(({ type }) => type === 'TEXT')).toBe(true);
    }
  });
});

/** Mounts against what must stay clear of them: balls all round, measured by brute force, and who rocks. */

import { describe, expect, it } from 'vitest';
import { cutAlong, outAt } from '../../../src/geometry/mounts/tube.js';
import type { MountPieces } from '../../../src/geometry/mounts/pieces.js';
import { offPlate } from '../../../src/geometry/mounts/plate.js';
import { mountAt } from '../../../src/geometry/mounts/standing.js';
import type { Vec3 } from '../../../src/model/scenario.js';
import { carried, stanceOf } from '../../../src/model/stance.js';
import { lengthOf, minus, plus } from '../../../src/model/vector.js';
import { mountGaps } from '../../../src/solver/fitup/mount-gaps.js';
import type { MountGap } from '../../../src/solver/fitup/mount-gaps.js';
import { readScenario } from '../../../src/model/read.js';
import { between, seeded } from '../../geometry/random.js';

const POSITION = { setback: 0, offset: 5, height: -3, pitch: 0.05 };

interface Ball {
  readonly side: 'engine' | 'chassis';
  readonly center: Vec3;
}

function bay(
  balls: readonly Ball[],
  change: (mount: Record<string, unknown>) => void = () => {},
  beside: (mount: Record<string, unknown>) => object = () => ({}),
) {
  const left: Record<string, unknown> = {
    boss: {
      on: 'block',
      hole: 11,
      holes: [
        [-300, -180, 0],
        [-230, -180, 0],
        [-230, -190, 50],
      ],
    },
    pad: { on: 'left rail', at: [-240, -340, -120], face: 'inside' },
    insulator: { height: 12, diameter: 60 },
    tube: { diameter: 45, wall: 3 },
    'base plate': { size: [120, 100] },
    gussets: { count: 2, 'on plate': 20, 'on tube': 30 },
    'in place of': ['drawn mount'],
  };
  change(left);
  const passages = (side: Ball['side']) =>
    Object.fromEntries(
      balls.flatMap((ball, b) =>
        ball.side === side
          ? [[`ball ${b}`, { ball: { center: ball.center, diameter: 20 }, gap: 5 }]]
          : [],
      ),
    );
  const { scenario, problems } = readScenario(
    JSON.stringify({
      berth: 1,
      units: 'mm',
      driver: 'left',
      position: { setback: 0, offset: [-50, 50], height: [-50, 50], pitch: [0, 5] },
      rock: 4,
      engine: {
        block: { box: { x: [-500, 0], y: [-170, 170], z: [-80, 200] } },
        'drawn mount': {
          box: { x: [-300, -230], y: [-330, -170], z: [-100, 50] },
          'comes out': { z: [-10, 0] },
        },
        filter: {
          cylinder: { axis: 'z', from: 0, to: 60, center: [-265, -262], diameter: 40 },
          'comes out': { z: [-40, 0] },
        },
      },
      chassis: { 'left rail': { box: { x: [-900, 900], y: [-400, -340], z: [-200, 0] } } },
      rules: [{ between: ['engine', 'chassis'], gap: 0 }],
      mounts: {
        gap: 3,
        make: { left, ...beside(left) },
        passages: { engine: passages('engine'), chassis: passages('chassis') },
      },
    }),
    'json',
  );
  expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  const standings = scenario!.mounts!.make.map((mount) => mountAt(mount, POSITION));
  const set = scenario!.choices.map(() => 0);
  return { pieces: standings[0]!.pieces!, ...mountGaps(scenario!, set, POSITION, standings) };
}

/** Points all over the surfaces of every piece, no more than about so far apart. */
function surface({ tube, base, upper, gussets }: MountPieces, apart: number): Vec3[] {
  const points: Vec3[] = [];
  const turns = Math.ceil((2 * Math.PI * tube.radius) / apart);
  for (let i = 0; i < turns; i++) {
    const clock = (2 * Math.PI * i) / turns;
    const [from, to] = [cutAlong(tube, 'base', clock), cutAlong(tube, 'upper', clock)];
    const skin = plus(tube.from, outAt(tube, clock), tube.radius);
    const steps = Math.ceil((to - from) / apart);
    for (let k = 0; k <= steps; k++)
      points.push(plus(skin, tube.axis, from + ((to - from) * k) / steps));
  }
  for (const plate of [base, upper]) {
    const [[left, low], , [right, high]] = plate.outline as unknown as [
      number[],
      number[],
      number[],
    ];
    const [nx, ny] = [Math.ceil((right! - left!) / apart), Math.ceil((high! - low!) / apart)];
    for (let i = 0; i <= nx; i++) {
      for (let k = 0; k <= ny; k++) {
        const at = [left! + ((right! - left!) * i) / nx, low! + ((high! - low!) * k) / ny] as const;
        const near = offPlate(plate, at);
        for (const deep of [0, 0.5, 1]) points.push(plus(near, plate.normal, -plate.thick * deep));
      }
    }
  }
  for (const { corner, onPlate, onTube, square, thick } of gussets) {
    const steps = Math.ceil(40 / apart);
    for (let i = 0; i <= steps; i++) {
      for (let k = 0; k <= steps - i; k++) {
        const at = plus(
          plus(corner, minus(onPlate, corner), i / steps),
          minus(onTube, corner),
          k / steps,
        );
        for (const by of [-0.5, 0, 0.5]) points.push(plus(at, square, by * thick));
      }
    }
  }
  return points;
}

const named = (gaps: readonly MountGap[], name: string): MountGap[] =>
  gaps.filter(({ other }) => other.of !== 'mount' && other.name === name);
const least = (gaps: readonly MountGap[]): number => Math.min(...gaps.map(({ gap }) => gap));

/** Millimetres that flats round a tube may stand off its skin, and then some. */
const FLAT = 0.22;
const APART = 4;

describe('a passage', () => {
  it('is measured against every piece, never more than there is', () => {
    const random = seeded(20261129);
    const balls = Array.from({ length: 24 }, (): Ball => {
      const [x, y, z] = [
        between(random, -420, -80),
        between(random, -330, -190),
        between(random, -230, 120),
      ];
      return { side: 'chassis', center: [x, y, z] };
    });
    const { pieces, gaps } = bay(balls);
    const points = surface(pieces, APART);
    let apart = 0;
    balls.forEach(({ center }, b) => {
      const own = named(gaps, `ball ${b}`).filter(({ piece }) => piece.piece !== 'insulator');
      expect(own.length).toBe(5);
      const sampled = Math.min(...points.map((at) => lengthOf(minus(at, center)))) - 10;
      const found = least(own);
      expect(found).toBeLessThanOrEqual(sampled + 1e-6);
      if (found <= 0) return;
      apart++;
      // Within what the points between two samples can hide.
      const missed = Math.hypot(sampled + 10, APART) - (sampled + 10);
      expect(found).toBeGreaterThan(sampled - missed - FLAT);
      expect(own.every(({ needed, margin, gap }) => needed === 5 && margin === gap - 5)).toBe(true);
    });
    expect(apart).toBeGreaterThan(12);
  });

  it('that rides with the engine rocks against a mount on rubber, and not against a solid one', () => {
    const center: Vec3 = [-265, -240, -135];
    const soft = bay([{ side: 'engine', center }]);
    const points = surface(soft.pieces, APART);
    const distance = (rock: number): number => {
      const at = carried({ ...stanceOf(POSITION), roll: rock }, center);
      return Math.min(...points.map((own) => lengthOf(minus(own, at)))) - 10;
    };
    const rock = (4 * Math.PI) / 180;
    const angles = Array.from({ length: 9 }, (_, i) => -rock + (rock * i) / 4);
    const sampled = Math.min(...angles.map(distance));
    const own = named(soft.gaps, 'ball 0').filter(({ piece }) => piece.piece !== 'insulator');
    expect(least(own)).toBeLessThanOrEqual(sampled + 1e-6);
    expect(least(own)).toBeGreaterThan(sampled - 0.5);
    expect(least(own)).toBeLessThan(distance(0) - 2);
    const solid = bay([{ side: 'engine', center }], (mount) => void delete mount['insulator']);
    for (const { gap, atRest } of named(solid.gaps, 'ball 0')) expect(gap).toBe(atRest);
  });
});

describe('a socket on a bolt', () => {
  it.each(['on rubber', 'solid'])(
    'of a mount %s is measured at rest against that and the bay, its own plate left out',
    (sort) => {
      const long = 60;
      const { pieces, gaps } = bay([{ side: 'chassis', center: [-240, -300, -60] }], (mount) => {
        if (sort === 'solid') delete mount['insulator'];
        mount['boss'] = { ...(mount['boss'] as object), socket: { diameter: 20, length: long } };
        mount['base plate'] = {
          size: [120, 100],
          holes: [
            [45, 35],
            [-45, 35],
          ],
          hole: 12,
          socket: { diameter: 24, length: 30 },
        };
      });
      const sockets = gaps.filter(({ piece }) => piece.piece.endsWith(' socket'));
      const names = new Set(sockets.map(({ piece }) => `${piece.piece} ${piece.number}`));
      expect([...names].sort()).toEqual([
        'base socket 1',
        'base socket 2',
        'upper socket 1',
        'upper socket 2',
        'upper socket 3',
      ]);
      for (const { gap, atRest, needed, other, comingOut, isOwn, piece } of sockets) {
        expect([needed, comingOut, isOwn]).toEqual([0, false, false]);
        expect(gap).toBeCloseTo(atRest, 9);
        expect(other.of).not.toBe('passage');
        if (other.of === 'mount')
          expect(other.piece.split(' ')[0]).not.toBe(piece.piece.split(' ')[0]);
      }
      const points = surface({ ...pieces, gussets: [], base: pieces.upper }, APART);
      const tube = points.slice(0, points.length - 1).filter((at) => {
        const along = minus(at, pieces.tube.from);
        const off = lengthOf(
          minus(
            along,
            [0, 1, 2].map((k) => {
              const t = along.reduce((sum, one, i) => sum + one * pieces.tube.axis[i]!, 0);
              return pieces.tube.axis[k]! * t;
            }) as unknown as Vec3,
          ),
        );
        return Math.abs(off - pieces.tube.radius) < 1e-6;
      });
      pieces.upper.holes.forEach((hole, h) => {
        const middle = offPlate(pieces.upper, hole.at);
        // A round rod to a point: off its axis, and past its end.
        const sampled = Math.min(
          ...tube.map((at) => {
            const from = minus(at, middle);
            const up = from.reduce((sum, one, i) => sum + one * pieces.upper.normal[i]!, 0);
            const off = Math.sqrt(Math.max(0, lengthOf(from) ** 2 - up ** 2)) - 10;
            const past = Math.max(up - long, -up, 0);
            return off < 0 && past === 0 ? off : Math.hypot(Math.max(off, 0), past);
          }),
        );
        const found = sockets.find(
          ({ piece, other }) =>
            piece.piece === 'upper socket' &&
            piece.number === h + 1 &&
            other.of === 'mount' &&
            other.piece === 'tube',
        )!;
        if (sampled > 0) expect(found.gap).toBeLessThanOrEqual(sampled + 1e-6);
        else expect(found.gap).toBeLessThan(0);
        if (sampled > 1) expect(found.gap).toBeGreaterThan(sampled - 2 * FLAT - APART / 2);
      });
    },
  );
});

describe('the parts of the bay', () => {
  it('stand tightest first, those of a mount on rubber and of a solid one among each other', () => {
    const { gaps } = bay([], undefined, ({ insulator: _, ...mount }) => ({
      second: { ...mount, pad: { on: 'left rail', at: [-100, -340, -120], face: 'inside' } },
    }));
    const solids = gaps.map(({ piece }) => piece.mount === 'second');
    // Either comes before and after the other.
    expect(solids.indexOf(true)).toBeLessThan(solids.lastIndexOf(false));
    expect(solids.indexOf(false)).toBeLessThan(solids.lastIndexOf(true));
    const margins = gaps.map(({ margin }) => margin);
    expect(margins).toEqual([...margins].sort((a, b) => a - b));
  });

  it('have nothing to clear where the mount cannot be made', () => {
    // The boss faces away from a pad that lies inside of it.
    const { pieces, gaps, contacts } = bay([], (mount) => {
      mount['pad'] = { on: 'left rail', at: [-240, -340, -120], face: 'outside' };
    });
    expect(pieces).toBeUndefined();
    expect([gaps, contacts]).toEqual([[], []]);
  });

  it('are measured, but for what the mount stands for; what it is fixed to is told apart', () => {
    const { gaps, contacts } = bay([]);
    expect(named(gaps, 'drawn mount')).toEqual([]);
    expect(contacts.map(({ piece, part }) => [piece.piece, part])).toEqual([
      ['base plate', 'left rail'],
      ['insulator', 'block'],
    ]);
    // The boss's face leans, about 180 to 190 mm out, over a block drawn to 170; the pad is on the rail's face.
    expect(contacts[1]!.gap).toBeGreaterThan(5);
    expect(contacts[1]!.gap).toBeLessThan(15);
    expect(contacts[0]!.gap).toBeCloseTo(0, 6);
    expect(named(gaps, 'left rail').map(({ needed, isOwn }) => [needed, isOwn])).toEqual(
      Array.from({ length: 5 }, () => [0, true]),
    );
    const filter = named(gaps, 'filter');
    expect(filter.filter(({ comingOut }) => !comingOut).every(({ needed }) => needed === 3)).toBe(
      true,
    );
    expect(filter.some(({ comingOut }) => comingOut)).toBe(true);
    // It hangs beside the tube, and is drawn out down past it.
    expect(least(filter.filter(({ comingOut }) => comingOut))).toBeLessThan(
      Math.min(...filter.filter(({ comingOut }) => !comingOut).map(({ atRest }) => atRest)),
    );
    expect(gaps.map(({ margin }) => margin)).toEqual(
      gaps.map(({ margin }) => margin).sort((a, b) => a - b),
    );
  });
});

/** Random small bays, as files: a few engine solids among a few chassis solids. Millimetres. */

import { between } from '../geometry/random.js';
import type { Random } from '../geometry/random.js';
import type {
  BayDoc,
  FacingDoc,
  LimitDoc,
  OptionDoc,
  PartDoc,
  Point,
  RuleDoc,
  Span,
} from './doc.js';

export interface RandomBay {
  readonly random: Random;
  /** Boxes alone at pitch 0, no motions: what straight directions can speak of. */
  readonly straight?: boolean;
}

export const SIDES: readonly FacingDoc[] = ['ahead', 'behind', 'left', 'right', 'above', 'below'];
export const MEASURED: Readonly<Record<FacingDoc, string>> = {
  ahead: 'fore-aft',
  behind: 'fore-aft',
  left: 'side-to-side',
  right: 'side-to-side',
  above: 'up-down',
  below: 'up-down',
};

/**
 * Engine parts lie within 250 mm of the datum. Chassis parts stand about them, some so near that
 * nothing fits. `any 1` and on are always there; what options touch has names of its own.
 */
export function randomBay({ random, straight = false }: RandomBay): BayDoc {
  const pick = (n: number): number => Math.floor(n * random());
  const solid = (at: Point, size: number): PartDoc => randomSolid(random, at, size, straight);
  const parts = (prefix: string, n: number, make: () => PartDoc): Record<string, PartDoc> =>
    Object.fromEntries(Array.from({ length: n }, (_, i) => [`${prefix} ${i + 1}`, make()]));
  const enginePart = (): PartDoc => {
    const part = solid(scatter(random, [200, 120, 100]), 70);
    return !straight && random() < 0.2
      ? { ...part, 'comes out': { x: [0, between(random, 5, 40)] } }
      : part;
  };
  const chassisPart = (): PartDoc => {
    const part = solid(around(random), 110);
    return !straight && random() < 0.25
      ? { ...part, sweep: { y: [-between(random, 0, 10), between(random, 0, 10)], z: [0, 8] } }
      : part;
  };
  const engine = parts('any', 2 + pick(3), enginePart);
  const chassis = parts('thing', 3 + pick(4), chassisPart);
  const rules: RuleDoc[] = [{ between: ['engine', 'chassis'], gap: between(random, 0, 15) }];
  for (let n = pick(3); n > 0; n--) {
    const side = SIDES[pick(6)]!;
    const rule: RuleDoc = {
      between: [Object.keys(engine)[pick(2)]!, Object.keys(chassis)[pick(3)]!],
      gap: between(random, 0, 20),
      measured: MEASURED[side],
      side,
    };
    const known = rules.some(
      (r) => r.between.join() === rule.between.join() && r.measured === rule.measured,
    );
    if (!known) rules.push(rule);
  }
  const choices: Record<string, Record<string, OptionDoc>> = {};
  const made = pick(3);
  if (made > 0) {
    engine['loose part'] = enginePart();
    choices['loose part'] = {
      stays: {},
      goes: { remove: ['loose part'], hours: 2, cost: 50 },
      moves: { move: { 'loose part': { x: 40, z: -30 } }, hours: 1 },
    };
  }
  if (made > 1) {
    chassis['bracket'] = chassisPart();
    choices['bracket'] = {
      stays: {},
      another: { replace: { bracket: solid(around(random), 80) }, hours: 3 },
    };
  }
  const { position, limits } = reachOf(random, straight);
  return {
    units: 'mm',
    position,
    engine,
    chassis,
    rules,
    ...(!straight && random() < 0.2 && { rock: between(random, 0.5, 2) }),
    ...(limits.length > 0 && { limits, datums: { chassis: { ground: { z: -400 } } } }),
    ...(made > 0 && { choices }),
    worth: 3,
  };
}

function reachOf(
  random: Random,
  straight: boolean,
): { position: BayDoc['position']; limits: readonly LimitDoc[] } {
  const wide = (): Span => [-between(random, 5, 50), between(random, 5, 50)];
  const pitch: Span | number = straight ? 0 : random() < 0.3 ? 1 : [-2, 3];
  const limits: LimitDoc[] = [];
  if (!straight && random() < 0.25) {
    limits.push({ quantity: 'height above', of: 'any 1', above: 'ground', min: 250 });
  }
  if (typeof pitch !== 'number' && random() < 0.25)
    limits.push({ quantity: 'pitch', min: 0, max: 2 });
  return { position: { setback: wide(), offset: wide(), height: wide(), pitch }, limits };
}

function scatter(random: Random, [x, y, z]: Point): Point {
  return [between(random, -x, x), between(random, -y, y), between(random, -z, z)];
}

/** A point some way out from the datum, in any direction. */
function around(random: Random): Point {
  const point = scatter(random, [300, 300, 300]);
  const k = Math.floor(3 * random());
  const out = between(random, 230, 360) * (random() < 0.5 ? 1 : -1);
  return point.map((v, i) => (i === k ? out : v)) as unknown as Point;
}

function randomSolid(random: Random, at: Point, size: number, boxes: boolean): PartDoc {
  const half = (): number => between(random, 0.15 * size, size);
  const span = (k: number): Span => {
    const h = half();
    return [at[k]! - h, at[k]! + h];
  };
  const roll = boxes ? 0 : random();
  if (roll < 0.4) return { box: { x: span(0), y: span(1), z: span(2) } };
  if (roll < 0.6) {
    const axis = (['x', 'y', 'z'] as const)[Math.floor(3 * random())]!;
    const k = 'xyz'.indexOf(axis);
    const [from, to] = span(k);
    const [u, v] = at.filter((_, i) => i !== k);
    return { cylinder: { axis, from, to, center: [u!, v!], diameter: 1.5 * half() } };
  }
  if (roll < 0.75) {
    const to: Point = [at[0] + half(), at[1] - half(), at[2] + half()];
    return { tube: { through: [at, to], diameter: half() } };
  }
  if (roll < 0.9) {
    const [from, to] = span(1);
    const r = half();
    const turn = between(random, 0, 6);
    const profile = [0, 1, 2, 3, 4].map((n): Span => {
      const t = turn + (2 * Math.PI * n) / 5;
      return [at[0] + r * Math.cos(t), at[2] + r * Math.sin(t)];
    });
    return { prism: { axis: 'y', from, to, profile } };
  }
  return { ball: { center: at, diameter: 1.5 * half() } };
}

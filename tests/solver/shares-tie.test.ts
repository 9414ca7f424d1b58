/** Shares where several sets are right: planted ties, against what the answer gains and loses. */

import { describe, expect, test } from 'vitest';
import type { Reading } from '../../src/solver/answer.js';
import { withShares } from '../../src/solver/answering/shares.js';
import { scenarioOf } from '../support/doc.js';
import type { BayDoc, PartDoc, RuleDoc } from '../support/doc.js';
import { solve } from '../support/solve.js';

/** Millimetres. */
const STEP = 0.05;
const TOLERANCE = 1e-4;

interface Wall {
  readonly name: string;
  readonly along: 'x' | 'y';
  readonly at: number;
}

/** A block 200 by 100 by 60 about the datum, 10 needed of every wall but for what is said. Millimetres. */
function bay(walls: readonly Wall[], needs: Readonly<Record<string, number>> = {}): BayDoc {
  const far = 900;
  const wall = ({ along, at }: Wall): PartDoc => {
    const across = [at < 0 ? at - 20 : at, at < 0 ? at : at + 20] as const;
    const wide = [-far, far] as const;
    return { box: { x: wide, y: wide, z: wide, [along]: across } };
  };
  return {
    units: 'mm',
    position: { setback: [-80, 80], offset: [-80, 80], height: 0, pitch: 0 },
    engine: { block: { box: { x: [-100, 100], y: [-50, 50], z: [-30, 30] } } },
    chassis: Object.fromEntries(walls.map((w) => [w.name, wall(w)])),
    rulebook: 'none',
    rules: walls.map(({ name }): RuleDoc => ({
      between: ['block', name],
      gap: needs[name] ?? 10,
    })),
  };
}

const front: Wall = { name: 'front', along: 'x', at: -140 };
const rear: Wall = { name: 'rear', along: 'x', at: 140 };
const rear2: Wall = { name: 'second rear', along: 'x', at: 140 };
const left: Wall = { name: 'left', along: 'y', at: -90 };
const right: Wall = { name: 'right', along: 'y', at: 90 };

function solved(walls: readonly Wall[], needs?: Readonly<Record<string, number>>) {
  const { main } = solve(scenarioOf(bay(walls, needs)), { only: 'main', tolerance: TOLERANCE });
  return main.optimum;
}

/** Per wall, the least and the most that its share can be. */
function sharesOf(walls: readonly Wall[]): Record<string, readonly [number, number]> {
  const { readings } = solved(walls);
  return Object.fromEntries(
    readings.map(({ between: [, name], share = 0, shareRange }) => {
      const { least, most } = shareRange ?? { least: share, most: share };
      return [name, [Number(least.toFixed(3)), Number(most.toFixed(3))]];
    }),
  );
}

/** Readings of the block between two walls, as they are before shares are told. */
function unshared(): Reading[] {
  return solved([front, rear]).readings.map((reading) => {
    const { between, measured, rule, needed, gap, atRest, margin, slope } = reading;
    const rest = { comingOut: false, fixed: false, binding: false };
    return { between, measured, rule, needed, gap, atRest, margin, slope: slope!, ...rest };
  });
}

describe('shares at a tie', () => {
  test('one number each where there is none', () => {
    expect(sharesOf([front, rear])).toEqual({ front: [0.5, 0.5], rear: [0.5, 0.5] });
    const { readings } = solved([front, rear]);
    for (const reading of readings) expect(reading.shareRange).toBeUndefined();
  });

  test('two walls level with each other: room at one alone gains nothing', () => {
    const shares = sharesOf([front, rear, rear2]);
    expect(shares).toEqual({ front: [0.5, 0.5], rear: [0, 0.5], 'second rear': [0, 0.5] });
  });

  test('thousands of rules as tight as one another take no time, and a list of any length is read', () => {
    const readings = unshared();
    const many = Array.from({ length: 20_000 }, (_, i) => ({
      ...readings[i % 2]!,
      binding: false,
    }));
    const loose = Array.from({ length: 150_000 }, () => ({ ...readings[0]!, margin: 1e3 }));
    const room = { setback: 80, offset: 80, height: 0, pitch: 0 };
    const began = performance.now();
    const shared = withShares([...many, ...loose], { down: room, up: room });
    expect(performance.now() - began).toBeLessThan(10_000);
    // Any of those before one wall may have all of its half.
    for (const { share, shareRange } of shared.slice(0, many.length)) {
      expect(share).toBeGreaterThanOrEqual(0);
      expect(shareRange!.least).toBe(0);
      expect(shareRange!.most).toBeCloseTo(0.5, 6);
    }
    expect(shared.slice(many.length).every(({ share }) => share === undefined)).toBe(true);
  });

  test('ways without number as tight as each other: no share is told as if it were the one', () => {
    const readings = unshared();
    const many = Array.from({ length: 300 }, (_, i) => {
      const angle = (2 * Math.PI * i) / 300;
      const slope = { ...readings[0]!.slope!, setback: Math.cos(angle), offset: Math.sin(angle) };
      return { ...readings[0]!, slope };
    });
    const room = { setback: 80, offset: 80, height: 0, pitch: 0 };
    const shared = withShares(many, { down: room, up: room });
    for (const { shareRange } of shared) expect(shareRange).toEqual({ least: 0, most: 1 });
    expect(shared.reduce((sum, { share = 0 }) => sum + share, 0)).toBeCloseTo(1, 6);
  });

  test('two ways as tight as each other: neither gains alone', () => {
    const shares = sharesOf([front, rear, left, right]);
    for (const name of ['front', 'rear', 'left', 'right']) expect(shares[name]).toEqual([0, 0.5]);
  });

  test('what room given gains and room taken costs lies within them', () => {
    let ties = 0;
    for (const walls of [
      [front, rear],
      [front, rear, rear2],
      [front, rear, left, right],
      [front, rear, rear2, left, right],
    ]) {
      const before = solved(walls).margin;
      const shares = sharesOf(walls);
      for (const { name } of walls) {
        const [least, most] = shares[name]!;
        const gained = solved(walls, { [name]: 10 - STEP }).margin - before;
        const lost = before - solved(walls, { [name]: 10 + STEP }).margin;
        // Given, it is the least exactly; taken, the most: the margin is concave in what is needed.
        expect(Math.abs(gained - least * STEP)).toBeLessThan(2 * TOLERANCE);
        expect(Math.abs(lost - most * STEP)).toBeLessThan(2 * TOLERANCE);
        if (most > least) ties++;
      }
    }
    expect(ties).toBeGreaterThan(8);
  });
});

/** Shares where several sets are right: planted ties, against what the answer gains and loses. */

import { describe, expect, test } from 'vitest';
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

/** What a box leaves out must be clear all over it, and what closes a box must be short all over it. */

import { describe, expect, test } from 'vitest';
import { compileBay } from '../../src/solver/measuring/compile.js';
import { boxOf, endsOf } from '../../src/solver/box.js';
import { Meter } from '../../src/solver/measuring/meter.js';
import type { Node } from '../../src/solver/searching/node.js';
import { createProbe, probe } from '../../src/solver/measuring/probe.js';
import { Sieve } from '../../src/solver/searching/sift.js';
import { CLOSED } from '../../src/solver/measuring/view.js';
import { between, seeded } from '../geometry/random.js';
import type { Random } from '../geometry/random.js';
import { scenarioOf } from '../support/doc.js';
import { randomBay } from '../support/random-bays.js';

/** Millimetres: gaps are bracketed to this. */
const BRACKET = 2e-3;
/** Parts of the whole range that boxes take, one inside the other. */
const SIZES = [0.3, 0.05, 0.004];

/** A box of the bay about some place, and places in it: the middle, corners and others. */
interface Around {
  readonly node: Node;
  readonly box: ReturnType<typeof boxOf>;
  readonly places: readonly Float64Array[];
}

class Case {
  readonly meter: Meter;
  private readonly random: Random;
  private readonly at: Float64Array;
  private readonly wide: Float64Array;

  constructor(seed: number) {
    this.random = seeded(seed);
    const scenario = scenarioOf(randomBay({ random: this.random }));
    this.meter = new Meter(compileBay(scenario));
    const { lo, hi } = endsOf(scenario.position);
    this.wide = hi.map((high, k) => high - lo[k]!);
    this.at = lo.map((low, k) => between(this.random, low, hi[k]!));
  }

  around(size: number, active: Int32Array, low: Float64Array): Around {
    const half = this.wide.map((w) => (size * w) / 2);
    const [lo, hi] = [-1, 1].map((s) => this.at.map((v, k) => v + s * half[k]!));
    const box = boxOf(lo!, hi!);
    const view = this.meter.views.of(this.meter.bay.domains)!;
    const places = [...Array(8).keys()].map((n) =>
      this.at.map((v, k) => {
        const u = n < 5 ? Math.sign(between(this.random, -1, 1)) : between(this.random, -1, 1);
        return n === 0 ? v : v + u * half[k]!;
      }),
    );
    return { node: { lo: lo!, hi: hi!, view, bound: Infinity, active, low }, box, places };
  }

  marginAt(id: number, x: Float64Array): { lower: number; upper: number } {
    const w = createProbe();
    const contact = this.meter.bay.contacts[id]!;
    probe(contact, x[0]!, x[1]!, x[2]!, x[3]!, w);
    return { lower: w.lower - contact.needed, upper: w.upper - contact.needed };
  }

  measureAll(x: Float64Array): void {
    const w = createProbe();
    for (const contact of this.meter.bay.contacts) this.meter.measure(contact, x, w);
  }

  /** The most that any set of options in view leaves at a place. */
  bestOver(view: Node['view'], x: Float64Array): number {
    const margins = view.sets().map((set) => {
      const { contacts } = this.meter.contactsOf(set);
      return Math.min(...[...contacts].map((id) => this.marginAt(id, x).lower));
    });
    return Math.max(...margins);
  }

  everything(): { active: Int32Array; low: Float64Array } {
    const active = Int32Array.from(this.meter.bay.contacts, ({ id }) => id);
    return { active, low: new Float64Array(active.length).fill(-Infinity) };
  }
}

describe('boxes one inside the other, of random bays', () => {
  test('contacts left out exceed `clear` throughout, and each lower bound holds', () => {
    const count = { left: 0, kept: 0 };
    /** By how much any margin is under what was said of it. */
    let under = -Infinity;
    for (let seed = 1; seed <= 20; seed++) {
      const one = new Case(seed);
      let { active, low } = one.everything();
      for (const size of SIZES) {
        const { node, box, places } = one.around(size, active, low);
        // Some contact stands a little under `clear`, so that none may be left out too soon.
        const middles = [...active].map((id) => one.marginAt(id, box.mid).upper);
        const clear = middles.sort((a, b) => a - b)[Math.floor(active.length / 3)]! + 1;
        // Every other bay has been measured before, what open options may free included.
        if (seed % 2 === 0) one.measureAll(places[1]!);
        const sifted = new Sieve(one.meter).sift(node, box, clear, -Infinity);
        if ('most' in sifted) throw new Error('nothing is short of -Infinity');
        const kept = new Set(sifted.active);
        for (const id of active) {
          if (kept.has(id) || node.view.status[id] === CLOSED) continue;
          count.left++;
          for (const x of places) under = Math.max(under, clear - one.marginAt(id, x).upper);
        }
        sifted.active.forEach((id, i) => {
          count.kept++;
          for (const x of places)
            under = Math.max(under, sifted.low[i]! - one.marginAt(id, x).upper);
        });
        ({ active, low } = sifted);
      }
    }
    expect(under).toBeLessThan(BRACKET);
    expect(count.left).toBeGreaterThan(100);
    expect(count.kept).toBeGreaterThan(100);
  });

  test('a box is closed only where no set of options leaves more than is said of it', () => {
    let closed = 0;
    let open = 0;
    for (let seed = 1; seed <= 40; seed++) {
      const one = new Case(seed);
      const { active, low } = one.everything();
      const { node, box, places } = one.around(0.02, active, low);
      const fails = one.bestOver(node.view, box.mid) + between(seeded(seed), -3, 8);
      const sifted = new Sieve(one.meter).sift(node, box, Infinity, fails);
      if (!('most' in sifted)) {
        open++;
        continue;
      }
      closed++;
      expect(sifted.most).toBeLessThan(fails);
      for (const x of places)
        expect(one.bestOver(node.view, x)).toBeLessThan(sifted.most + BRACKET);
    }
    expect(closed).toBeGreaterThan(10);
    expect(open).toBeGreaterThan(10);
  });
});

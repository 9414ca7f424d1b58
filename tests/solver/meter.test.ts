/** What a meter remembers may save a measurement, never change what comes of it. */

import { expect, test } from 'vitest';
import { compileBay } from '../../src/solver/measuring/compile.js';
import { boxOf, endsOf } from '../../src/solver/box.js';
import { Meter } from '../../src/solver/measuring/meter.js';
import { createProbe, probe } from '../../src/solver/measuring/probe.js';
import { between, seeded } from '../geometry/random.js';
import { scenarioOf } from '../support/doc.js';
import { randomBay } from '../support/random-bays.js';

/** Millimetres: gaps are bracketed to this. */
const BRACKET = 2e-3;

test('a remembered gap less the travel since is under the gap, at a place and over a box', () => {
  let saved = 0;
  let over = -Infinity;
  for (let seed = 1; seed <= 20; seed++) {
    const random = seeded(seed);
    const scenario = scenarioOf(randomBay({ random }));
    const meter = new Meter(compileBay(scenario));
    const { lo, hi } = endsOf(scenario.position);
    const from = lo.map((low, k) => between(random, low, hi[k]!));
    const w = createProbe();
    // Along one coordinate at a time, for each moves a part in its own way; then along all.
    for (const ways of [[0], [1], [2], [3], [0, 1, 2, 3]]) {
      const to = from.map((v, k) => (ways.includes(k) ? between(random, lo[k]!, hi[k]!) : v));
      const box = boxOf(
        from.map((v, k) => Math.min(v, to[k]!)),
        from.map((v, k) => Math.max(v, to[k]!)),
      );
      for (const contact of meter.bay.contacts) {
        meter.measure(contact, from, w);
        const atPlace = meter.rememberedAt(contact, to);
        const inBox = meter.remembered(contact, box);
        probe(contact, to[0]!, to[1]!, to[2]!, to[3]!, w);
        over = Math.max(over, atPlace - w.upper, inBox - w.upper);
        if (atPlace > w.lower - 1) saved++;
      }
    }
  }
  expect(over).toBeLessThan(BRACKET);
  expect(saved).toBeGreaterThan(50);
});

test('the margin of a place is the least over its contacts, whatever was measured before', () => {
  let judged = 0;
  for (let seed = 1; seed <= 20; seed++) {
    const random = seeded(seed);
    const scenario = scenarioOf(randomBay({ random }));
    const meter = new Meter(compileBay(scenario));
    const of = meter.contactsOf(scenario.choices.map(() => 0));
    const { lo, hi } = endsOf(scenario.position);
    const w = createProbe();
    const near = lo.map((low, k) => between(random, low, hi[k]!));
    // Places a little apart, so that most of what is asked at one is remembered from another.
    for (let n = 0; n < 10; n++) {
      const x = near.map((v, k) => v + between(random, -1, 1) * (k === 3 ? 1e-3 : 2));
      const margin = meter.marginAt(of, x, -Infinity);
      const all = [...of.contacts].map((id) => {
        const contact = meter.bay.contacts[id]!;
        probe(contact, x[0]!, x[1]!, x[2]!, x[3]!, w);
        return w.lower - contact.needed;
      });
      expect(Math.abs(margin - Math.min(...all))).toBeLessThan(BRACKET);
      // Under a floor that it does not reach, any number under the floor will do.
      expect(meter.marginAt(of, x, margin + 5)).toBeLessThan(margin + 5);
      judged++;
    }
  }
  expect(judged).toBe(200);
});

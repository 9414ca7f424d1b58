/** Why a wish cannot be had, and what cures it, against every way there is, each tried on its own. */

import { describe, expect, it } from 'vitest';
import type { OptionSet, PositionRanges, Scenario } from '../../src/model/scenario.js';
import { allDomains, optionSets } from '../../src/model/options.js';
import { trimWork, withTrims } from '../../src/model/trims.js';
import type { Wants } from '../../src/model/asked/wants.js';
import { only } from '../../src/solver/answering/searches.js';
import { gridOf } from '../../src/solver/answering/setting.js';
import type { Reading } from '../../src/solver/answer.js';
import type { Remedy } from '../../src/solver/explaining/asking.js';
import type { Reason } from '../../src/solver/explaining/blockers.js';
import { why } from '../../src/solver/explaining/why.js';
import type { WhyAnswer } from '../../src/solver/explaining/why.js';
import { compileBay } from '../../src/solver/measuring/compile.js';
import { Meter } from '../../src/solver/measuring/meter.js';
import { compareWork } from '../../src/solver/measuring/work.js';
import { MARGIN } from '../../src/solver/searching/objective.js';
import { Search } from '../../src/solver/searching/search.js';
import { between, seeded } from '../geometry/random.js';
import type { Random } from '../geometry/random.js';
import { mirrored, renamed, scenarioOf } from '../support/doc.js';
import type { BayDoc, TrimDoc } from '../support/doc.js';
import { randomBay } from '../support/random-bays.js';
import { solve, TOLERANCE } from '../support/solve.js';

const NO_WISH: Wants = { ranges: {}, options: [] };
/** Boxes after which a test's own search has gone wrong. */
const MOST = 4000;

function ask(scenario: Scenario, wants: Partial<Wants>, units: 'in' | 'mm' = 'in'): WhyAnswer {
  const steps = why(scenario, { wants: { ...NO_WISH, ...wants }, tolerance: TOLERANCE, units });
  let step = steps.next();
  while (!step.done) step = steps.next('go');
  return step.value;
}

/** Whether a wish can be had in a whole scenario under one set: by a search of its own. */
function canHave(scenario: Scenario, set: OptionSet, wants: Partial<Wants>): boolean {
  const bay = compileBay(scenario, { allowed: only(set) });
  const search = new Search({
    meter: new Meter(bay),
    domains: only(set),
    objective: MARGIN,
    ranges: rangesOf(scenario, wants),
    tolerance: 0,
    start: [],
    reach: wants.margin ?? 0,
  });
  const { best, done, stuck } = search.run(MOST);
  expect(done && (best !== undefined || stuck.length === 0)).toBe(true);
  return best !== undefined;
}

function rangesOf({ position }: Scenario, { ranges = {} }: Partial<Wants>): PositionRanges {
  const entries = Object.entries(position).map(([name, range]) => {
    const wanted = ranges[name as keyof PositionRanges] ?? { min: -Infinity, max: Infinity };
    const [min, max] = [Math.max(range.min, wanted.min), Math.min(range.max, wanted.max)];
    return [name, { min, max }];
  });
  return Object.fromEntries(entries) as PositionRanges;
}

/** The scenario with only these chassis parts and limits left in it. */
function keeping(s: Scenario, parts: readonly string[], limits: Scenario['limits']): Scenario {
  const stays = ({ side, name }: Scenario['parts'][number]) =>
    side === 'engine' || parts.includes(name);
  const choices = s.choices.map((choice) => ({
    ...choice,
    options: choice.options.map((option) => ({
      ...option,
      add: option.add.filter(stays),
      replace: option.replace.filter(stays),
    })),
  }));
  return { ...s, parts: s.parts.filter(stays), limits, choices };
}

/** Every smallest subset that has a property, by trying all of them. */
function smallest(count: number, has: (subset: readonly number[]) => boolean): number[][] {
  const found: number[] = [];
  const bySize = Array.from({ length: 2 ** count }, (_, mask) => mask).sort(
    (a, b) => bits(a).length - bits(b).length,
  );
  for (const mask of bySize) {
    const known = found.some((one) => (one & mask) === one);
    if (!known && has(bits(mask))) found.push(mask);
  }
  return found.map(bits);
}

function bits(mask: number): number[] {
  return Array.from({ length: 32 }, (_, i) => i).filter((i) => mask & (1 << i));
}

interface Asked {
  readonly doc: BayDoc;
  readonly scenario: Scenario;
  readonly wants: Partial<Wants>;
}

/** A random bay with trims, and a wish that it just cannot have as it stands. */
function randomAsked(seed: number): Asked | undefined {
  const random = seeded(seed);
  const ranges = random() < 0.3 ? { offset: { min: 0, max: 0 } } : {};
  const best = (doc: BayDoc) => {
    const scenario = scenarioOf(doc);
    const allowed = only(scenario.choices.map(() => 0));
    return solve(scenario, { allowed, pins: ranges, tolerance: 0.1 }).main;
  };
  const bay = randomBay({ random });
  const free = best(bay);
  if (!Number.isFinite(free.bound) || free.bound < -60) return undefined;
  const limited = withLimit(bay, free.optimum.position.setback - 4, random);
  const main = limited === bay ? free : best(limited);
  if (!Number.isFinite(main.bound)) return undefined;
  const doc = withMore(limited, main.optimum.readings, random);
  const most = Math.max(main.bound + 4, free.optimum.margin);
  const margin = between(random, main.bound + 0.5, most);
  return { doc, scenario: scenarioOf(doc), wants: { ranges, margin } };
}

/** Now and then the best place is forbidden by a limit. */
function withLimit(doc: BayDoc, max: number, random: Random): BayDoc {
  const { setback } = doc.position;
  if (random() < 0.35 || typeof setback === 'number' || max < setback[0]) return doc;
  return { ...doc, limits: [...(doc.limits ?? []), { quantity: 'setback', max }] };
}

/** Besides: a choice that needs another, and cuts of what is tightest, most of them where they help. */
function withMore(doc: BayDoc, readings: readonly Reading[], random: Random): BayDoc {
  // Round parts take longer once they are cut: `cut.test.ts` has them.
  const flat = readings.filter(({ between: [, part] }) => {
    const drawn = doc.chassis[part];
    return drawn && ('box' in drawn || 'prism' in drawn);
  });
  const tight = [...new Map(flat.map((one) => [one.between[1], one])).values()];
  const trims = tight.slice(0, Math.floor(3 * random())).map((reading): TrimDoc => ({
    part: reading.between[1],
    cut: random() < 0.1 ? 'up' : faceTowardsEngine(reading),
    'up to': between(random, 4, 16),
    hours: 1,
    plus: { hours: between(random, 0, 2), per: 10 },
  }));
  const shift = { move: { 'any 1': { x: between(random, -30, 30), z: 12 } }, hours: 2 };
  const first = Object.keys(doc.choices ?? {})[0];
  const choices =
    first === undefined || random() < 0.4
      ? doc.choices
      : { ...doc.choices, plate: { none: {}, plate: { ...shift, needs: { [first]: 'goes' } } } };
  return { ...doc, ...(choices && { choices }), ...(trims.length > 0 && { trims }) };
}

/** The cut that takes away what a rule wants the engine to go from. */
function faceTowardsEngine({ slope }: Reading): TrimDoc['cut'] {
  const { setback: x, offset: y, height: z } = slope!;
  const most = Math.max(Math.abs(x), Math.abs(y), Math.abs(z));
  if (Math.abs(x) === most) return x > 0 ? 'ahead' : 'back';
  if (Math.abs(y) === most) return y > 0 ? 'left' : 'right';
  return z > 0 ? 'down' : 'up';
}

function keyOf({ parts, limits }: Pick<Reason, 'parts' | 'limits'>): string {
  return [...parts, ...limits.map(({ quantity }) => `limit on ${quantity.of}`)].sort().join(', ');
}

describe('random small bays', () => {
  const asked = Array.from({ length: 60 }, (_, i) => randomAsked(1000 + i)).flatMap(
    (one) => one ?? [],
  );
  const answers = asked.map(({ scenario, wants }) => ask(scenario, wants));

  it('are impossible as they stand, and say so', () => {
    expect(asked.length).toBeGreaterThan(30);
    expect(answers.map(({ possible }) => possible)).toEqual(asked.map(() => 'no'));
  });

  it('name every smallest set of chassis parts and limits that prevents it, and no other', () => {
    const seen = { one: 0, more: 0, limits: 0, open: 0 };
    asked.forEach(({ scenario, wants }, i) => {
      const { reasons, complete, set } = answers[i]!;
      const parts = scenario.parts.filter(({ side }) => side === 'chassis').map(({ name }) => name);
      const things = [...parts, ...scenario.limits];
      if (things.length > 7) return;
      const bayOf = (subset: readonly number[]) => {
        const kept = subset.map((n) => things[n]!);
        const names = kept.filter((thing) => typeof thing === 'string');
        const limits = kept.filter((thing) => typeof thing !== 'string');
        return { names, limits, scenario: keeping(scenario, names, limits) };
      };
      const sets = smallest(
        things.length,
        (subset) => !canHave(bayOf(subset).scenario, set, wants),
      );
      const expected = sets.map((subset) => {
        const { names, limits } = bayOf(subset);
        return keyOf({ parts: names, limits });
      });
      if (!complete) seen.open++;
      else expect(reasons.map(keyOf).sort(), `bay ${i}`).toEqual(expected.sort());
      seen.one += sets.some((one) => one.length === 1) ? 1 : 0;
      seen.more += sets.some((one) => one.length > 1) ? 1 : 0;
      seen.limits += sets.some((one) => one.some((n) => n >= parts.length)) ? 1 : 0;
    });
    expect(seen.open).toBeLessThan(3);
    expect(Math.min(seen.one, seen.more, seen.limits)).toBeGreaterThan(1);
  });

  it('tell how much is missing: what the best place among those parts alone misses', () => {
    let told = 0;
    asked.forEach(({ scenario, wants }, i) => {
      const { reasons, set } = answers[i]!;
      for (const { parts, limits, short } of reasons.slice(0, 2)) {
        if (!short) continue;
        told++;
        const { main } = solve(keeping(scenario, parts, limits), {
          allowed: only(set),
          pins: wants.ranges!,
        });
        expect(short.least).toBeLessThan(wants.margin! - main.optimum.margin + 1e-6);
        expect(short.most).toBeGreaterThan(wants.margin! - main.bound - 1e-6);
        expect(short.most - short.least).toBeLessThan(TOLERANCE);
        expect(short.most).toBeGreaterThan(0);
      }
    });
    expect(told).toBeGreaterThan(30);
  });

  it('give rules of which none can be left out', () => {
    let dropped = 0;
    asked.forEach(({ scenario, wants }, i) => {
      const { reasons, set } = answers[i]!;
      for (const { parts, limits, rules, smallest: proved } of reasons) {
        if (!proved || rules.length === 0 || rules.some(({ comingOut }) => comingOut)) continue;
        const alone = keeping(scenario, parts, limits);
        const bay = (kept: typeof rules): Scenario => ({
          ...alone,
          parts: alone.parts.map(({ comesOut: _room, ...part }) => part),
          rules: kept.map(({ rule, between: [a, b] }) => ({
            ...rule,
            between: [
              { level: 'part', name: a },
              { level: 'part', name: b },
            ],
          })),
        });
        expect(canHave(bay(rules), set, wants), `bay ${i}`).toBe(false);
        for (const one of rules) {
          dropped++;
          expect(canHave(bay(rules.filter((rule) => rule !== one)), set, wants)).toBe(true);
        }
      }
    });
    expect(dropped).toBeGreaterThan(30);
  });

  it('name every smallest set of changes that cures it, and no other', () => {
    const seen = { none: 0, options: 0, cuts: 0, several: 0, open: 0 };
    asked.forEach(({ scenario, wants }, i) => {
      const { remedies, remediesComplete } = answers[i]!;
      const deepest = withTrims(scenario);
      const sets = [...optionSets(deepest, allDomains(deepest))];
      if (sets.length > 16) return;
      const cures = sets.filter((set) => canHave(deepest, set, wants));
      const least = cures.filter(
        (set) => !cures.some((other) => other !== set && within(other, set)),
      );
      if (!remediesComplete) {
        seen.open++;
        return;
      }
      expect(remedies.map((one) => changesOf(one, scenario)).sort(), `bay ${i}`).toEqual(
        least.map(String).sort(),
      );
      seen.none += least.length === 0 ? 1 : 0;
      seen.several += least.length > 1 ? 1 : 0;
      seen.cuts += remedies.filter(({ cuts }) => cuts.length > 0).length;
      seen.options += remedies.filter(({ cuts }) => cuts.length === 0).length;
    });
    expect(seen.open).toBe(0);
    expect(Math.min(seen.none, seen.options, seen.cuts, seen.several)).toBeGreaterThan(2);
  });

  it('stand with relocations before cuts, and less hours and then less cost before more', () => {
    let ordered = 0;
    for (const { remedies } of answers) {
      remedies.slice(1).forEach((remedy, k) => {
        const before = remedies[k]!;
        const [a, b] = [before, remedy].map(({ cuts }) => Math.min(cuts.length, 1)) as [
          number,
          number,
        ];
        expect(a).toBeLessThanOrEqual(b);
        if (a !== b) return void ordered++;
        expect(before.hours).toBeLessThanOrEqual(remedy.hours);
        if (before.hours < remedy.hours) ordered++;
        else expect(before.cost).toBeLessThanOrEqual(remedy.cost);
      });
    }
    expect(ordered).toBeGreaterThan(5);
  });

  it('cut to the cheapest marks that do, and name a place that has the wish', () => {
    const seen = { cut: 0, shallow: 0 };
    const step = gridOf('in').length;
    asked.forEach(({ scenario, wants }, i) => {
      for (const remedy of answers[i]!.remedies) {
        expect(remedy.placement.optimum.margin).toBeGreaterThan(wants.margin! - 1e-3);
        const { cuts, shallowest } = remedy;
        if (cuts.length === 0) continue;
        expect(shallowest).toBe(true);
        const set = changesOf(remedy, scenario).split(',').map(Number);
        const marks = cuts.map(({ trim }) => {
          const count = Math.ceil(trim.upTo / step - 1e-9);
          return Array.from({ length: count }, (_, n) => Math.min(trim.upTo, (n + 1) * step));
        });
        const workOf = (depths: readonly number[]) =>
          cuts
            .map(({ trim }, c) => trimWork(trim, depths[c]!))
            .reduce((a, b) => ({ hours: a.hours + b.hours, cost: a.cost + b.cost }));
        const tried = product(marks).map((depths) => ({ depths, work: workOf(depths) }));
        tried.sort((a, b) => compareWork(a.work, b.work));
        const first = tried.find(({ depths }) => {
          const all = scenario.trims.map((trim) => {
            const c = cuts.findIndex((cut) => cut.trim === trim);
            return c < 0 ? 0 : depths[c]!;
          });
          return canHave(withTrims(scenario, all), set, wants);
        })!;
        expect(compareWork(workOf(cuts.map(({ depth }) => depth)), first.work), `bay ${i}`).toBe(0);
        seen.cut++;
        seen.shallow += cuts.some(({ trim, depth }) => depth < trim.upTo) ? 1 : 0;
      }
    });
    expect(Math.min(seen.cut, seen.shallow)).toBeGreaterThan(3);
  });

  it('give the same reasons in a mirror, and under other names in another order', () => {
    let compared = 0;
    asked.slice(0, 12).forEach(({ doc, wants }, i) => {
      const answer = answers[i]!;
      const seen = ask(scenarioOf(mirrored(doc)), wants);
      const others = ask(scenarioOf(renamed(doc, seeded(i))), wants);
      const names = [...Object.keys(doc.engine), ...Object.keys(doc.chassis)];
      const other = (name: string) => `thing ${1000 - names.indexOf(name)}`;
      const told = (one: WhyAnswer, named = (name: string) => name) =>
        one.reasons.map((reason) => keyOf({ ...reason, parts: reason.parts.map(named) })).sort();
      if (!answer.complete || !seen.complete || !others.complete) return;
      compared++;
      expect(told(seen)).toEqual(told(answer));
      expect(told(others)).toEqual(told(answer, other));
      const cured = ({ remedies }: WhyAnswer) => remedies.map(({ hours }) => hours.toFixed(6));
      expect(cured(seen)).toEqual(cured(answer));
      expect(cured(others).sort()).toEqual(cured(answer).sort());
    });
    expect(compared).toBeGreaterThan(8);
  });
});

describe('bays made by hand', () => {
  /** A block 200 by 100 by 100 between two walls, with so much room ahead and behind. */
  const bay = (more: Partial<BayDoc> = {}): BayDoc => ({
    units: 'mm',
    position: { setback: [-50, 50], offset: [-20, 20], height: 0, pitch: 0 },
    engine: { block: { box: { x: [-200, 0], y: [-50, 50], z: [0, 100] } } },
    chassis: {
      wall: { box: { x: [30, 900], y: [-900, 900], z: [-900, 900] } },
      core: { box: { x: [-900, -230], y: [-900, 900], z: [-900, 900] } },
    },
    rules: [{ between: ['engine', 'chassis'], gap: 10 }],
    ...more,
  });
  const asking = (doc: BayDoc, wants: Partial<Wants>) => ask(scenarioOf(doc), wants);
  const at = (min: number, max = Infinity) => ({ ranges: { setback: { min, max } } });
  const told = ({ reasons }: WhyAnswer) =>
    reasons.map(({ parts, limits, short, beyond, ends }) => ({
      what: keyOf({ parts, limits }),
      ...(short && { short: Math.round(short.most * 100) / 100 }),
      ...(beyond && { beyond: Math.round(beyond.by * 100) / 100 }),
      ends: ends.map(({ coordinate, end }) => `${coordinate} ${end}`),
    }));

  it('can have it: the place has it, and nothing is in the way', () => {
    const answer = asking(bay(), { ...at(15), margin: 4 });
    expect(answer).toMatchObject({ possible: 'yes', reasons: [], remedies: [], complete: true });
    const { position, margin } = answer.placement!.optimum;
    expect(position.setback).toBeGreaterThanOrEqual(15);
    expect(margin).toBeGreaterThanOrEqual(4);
  });

  it('a limit that an option brings stands in the way under that option alone', () => {
    const limits = [{ quantity: 'setback', max: 10 }] as const;
    const choices = { cooler: { none: {}, 'in the way': { limits } } };
    const asked = { ...at(15), margin: 4 };
    expect(asking(bay({ choices }), asked).possible).toBe('yes');
    const options = [{ choice: 'cooler', option: 'in the way' }];
    const { possible, reasons, remedies } = asking(bay({ choices }), { ...asked, options });
    expect(possible).toBe('no');
    expect(reasons.map(keyOf)).toEqual(['limit on setback']);
    expect(remedies).toEqual([]);
  });

  it('one wall stands in the way of going back', () => {
    expect(told(asking(bay(), at(25)))).toEqual([{ what: 'wall', short: 5, ends: [] }]);
  });

  it('two walls together leave no more than 20 each way', () => {
    expect(told(asking(bay(), { margin: 27 }))).toEqual([
      { what: 'core, wall', short: 7, ends: [] },
    ]);
  });

  it('says the end of the range that a rule needs to stand in the way', () => {
    const low = bay({ position: { ...bay().position, setback: [22, 50] } });
    expect(told(asking(low, {}))).toEqual([{ what: 'wall', short: 2, ends: ['setback min'] }]);
  });

  it('says a wish beyond the file’s range, alone', () => {
    expect(told(asking(bay(), at(58)))).toEqual([{ what: '', beyond: 8, ends: ['setback max'] }]);
    expect(told(asking(bay(), at(500)))).toMatchObject([{ beyond: 450, ends: ['setback max'] }]);
  });

  it('says a limit that the wish contradicts, and the wall besides', () => {
    const limits = [{ quantity: 'setback', max: 5 }];
    expect(told(asking(bay({ limits }), at(12)))).toEqual([
      { what: 'limit on setback', beyond: 7, ends: [] },
    ]);
    expect(told(asking(bay({ limits }), at(25)))).toEqual([
      { what: 'limit on setback', beyond: 20, ends: [] },
      { what: 'wall', short: 5, ends: [] },
    ]);
  });

  it('says a limit on a height that the ranges contradict, without a rule', () => {
    const datums = { chassis: { ground: { z: -50 } } };
    const limits = [{ quantity: 'height above', of: 'block', above: 'ground', min: 60 }];
    const [reason, ...others] = asking(bay({ datums, limits }), {}).reasons;
    expect(others).toEqual([]);
    expect(reason).toMatchObject({
      parts: [],
      rules: [],
      ends: [{ coordinate: 'height', end: 'max' }],
    });
    expect(reason!.limits).toHaveLength(1);
  });

  it('says a rule between parts of one side, which no position changes', () => {
    const sided = bay({
      engine: { ...bay().engine, pump: { box: { x: [-203, -202], y: [0, 9], z: [0, 9] } } },
      rules: [...bay().rules, { between: ['block', 'pump'], gap: 5 }],
    });
    const { reasons, complete, remedies } = asking(sided, {});
    expect({ complete, remedies }).toEqual({ complete: true, remedies: [] });
    expect(reasons).toHaveLength(1);
    const [{ parts, rules, short }] = reasons as [Reason];
    expect(parts).toEqual([]);
    expect(rules.map(({ fixed, margin }) => [fixed, Math.round(margin * 100)])).toEqual([
      [true, -300],
    ]);
    expect(short!.least).toBeCloseTo(3, 3);
    expect(short!.most).toBeCloseTo(3, 3);
  });

  const thin = { remove: ['core'], hours: 1 };
  const choices = {
    core: { thick: {}, thin: { ...thin, needs: { fan: 'electric' } } },
    fan: { mechanical: {}, electric: { hours: 3, cost: 50 } },
  };

  it('changes what an option needs along with it', () => {
    const { remedies, remediesComplete } = asking(bay({ choices }), { margin: 27 });
    expect(remediesComplete).toBe(true);
    expect(remedies.map(({ options, hours, cost }) => ({ options, hours, cost }))).toEqual([
      { options: [1, 1], hours: 4, cost: 50 },
    ]);
  });

  it('does not change what is wished for', () => {
    const options = [{ choice: 'fan', option: 'mechanical' }];
    expect(asking(bay({ choices }), { margin: 27, options })).toMatchObject({
      remedies: [],
      remediesComplete: true,
    });
  });

  it('cuts least metal where two depths cost the same', () => {
    const cut = (part: string, way: TrimDoc['cut']): TrimDoc => ({
      part,
      cut: way,
      'up to': 12,
      hours: 1,
    });
    const thick = bay({ trims: [cut('wall', 'back'), cut('core', 'ahead')] });
    // Room for 20 each way: 24 takes 8 more, and 28.5 takes 17, more than one cut has.
    const one = ask(scenarioOf(thick), { margin: 24 }, 'mm');
    expect(one.remedies.map(({ cuts }) => cuts.map(({ depth }) => depth))).toEqual([[8], [8]]);
    const both = ask(scenarioOf(thick), { margin: 28.5 }, 'mm');
    expect(
      both.remedies.map(({ cuts }) => cuts.reduce((sum, { depth }) => sum + depth, 0)),
    ).toEqual([17]);
  });
});

/** Whether a set makes only changes that another makes too. */
function within(set: OptionSet, other: OptionSet): boolean {
  return set.every((option, c) => option === 0 || option === other[c]);
}

/** A remedy as the set of the scenario with trims as choices. */
function changesOf({ options, cuts }: Remedy, { trims }: Scenario): string {
  return [
    ...options,
    ...trims.map((trim) => (cuts.some((cut) => cut.trim === trim) ? 1 : 0)),
  ].join();
}

function product(lists: readonly (readonly number[])[]): number[][] {
  return lists.reduce<number[][]>(
    (all, list) => all.flatMap((begun) => list.map((item) => [...begun, item])),
    [[]],
  );
}

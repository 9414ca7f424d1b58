import { describe, expect, it } from 'vitest';
import { KINDS } from '../../src/model/kinds.js';
import type { Kind } from '../../src/model/kinds.js';
import { pairRules } from '../../src/model/precedence.js';
import type { PairRule } from '../../src/model/precedence.js';
import { RULE_BOOK, rulebookRules } from '../../src/model/rulebook.js';
import type { Measure } from '../../src/model/scenario.js';
import { bay, part } from './sample-bay.js';

const INCH = 25.4;
const comesOut = { x: { min: 0, max: 0 }, y: { min: 0, max: 0 }, z: { min: -1, max: 0 } };
const onEngine = new Map(
  KINDS.map((kind) => [kind, part(`engine ${kind}`, 'engine', { kind, comesOut })]),
);
const onChassis = new Map(
  KINDS.map((kind) => [kind, part(`chassis ${kind}`, 'chassis', { kind, comesOut })]),
);
const book = bay({
  parts: [...onEngine.values(), ...onChassis.values()],
  rulebook: 'common practice',
  rules: rulebookRules(),
});

function rulesOf(engine: Kind, chassis: Kind): readonly PairRule[] {
  return pairRules(book, onEngine.get(engine)!, onChassis.get(chassis)!, []).rules;
}

/** What is needed between a kind on the engine and one on the chassis, in millimetres. */
function needed(engine: Kind, chassis: Kind, measured: Measure = 'nearest'): number | undefined {
  return rulesOf(engine, chassis).find((one) => !one.comingOut && one.measured === measured)
    ?.needed;
}

describe('the rule book', () => {
  it('gives every row a reason, a source and a gap above nothing', () => {
    expect(RULE_BOOK.length).toBeGreaterThan(40);
    for (const row of RULE_BOOK) {
      expect(row.why.length).toBeGreaterThan(10);
      expect(row.source).toMatch(/^(common practice, no source|our default|in print: .+)$/);
      if (row.gap !== 'ignore') expect(row.gap).toBeGreaterThan(0);
    }
  });

  it('says in every rule where it comes from', () => {
    for (const { origin, why, path } of rulebookRules()) {
      expect(origin.from).toBe('rule book');
      expect(why).toBeTruthy();
      expect(path).toBeUndefined();
    }
  });

  it('has no tie for any two kinds, on any sides', () => {
    let pairs = 0;
    let specific = 0;
    for (const engine of onEngine.values()) {
      for (const chassis of onChassis.values()) {
        const { rules, ties } = pairRules(book, engine, chassis, []);
        expect(ties, `${engine.name} - ${chassis.name}`).toEqual([]);
        pairs++;
        if (rules.some(({ rule }) => rule.between.some((end) => end.level === 'kind'))) specific++;
      }
    }
    expect(pairs).toBe(KINDS.length ** 2);
    expect(specific).toBeGreaterThan(500);
  });

  it('leaves no pair of kinds without a rule but those that are joined', () => {
    let joined = 0;
    for (const engine of KINDS) {
      for (const chassis of KINDS) {
        if (needed(engine, chassis) === undefined) joined++;
        else expect(needed(engine, chassis)).toBeGreaterThan(0);
      }
    }
    expect(joined).toBeGreaterThan(20);
    expect(joined).toBeLessThan(60);
  });

  it('speaks of every kind by name, except where the general gap is all there is to say', () => {
    const named = new Set(RULE_BOOK.flatMap(({ between }) => between.flat()));
    expect(KINDS.filter((kind) => !named.has(kind))).toEqual(['intake']);
  });

  it.each<[Kind, Kind, Measure, number]>([
    ['block', 'firewall', 'nearest', 1 * INCH],
    ['mechanical fan', 'radiator', 'fore-aft', 2 * INCH],
    ['water pump', 'electric fan', 'nearest', 1 * INCH],
  ])('common practice, no source: %s to %s, %s', (engine, chassis, measured, gap) => {
    expect(needed(engine, chassis, measured)).toBeCloseTo(gap, 9);
  });

  // Clearances in print; the last column names the sort of source each row must give.
  it.each<[Kind, Kind, number, string]>([
    ['mechanical fan', 'fan shroud', (3 / 4) * INCH, 'fan maker'],
    ['header', 'brake line', 3 * INCH, 'modification rules'],
    ['header', 'fuel line', 3 * INCH, 'modification rules'],
    ['pulley', 'radiator', 30, 'club how-to, small V8'],
    ['block', 'steering box', 15, 'club how-to'],
  ])('in print: %s to %s (%d mm, %s)', (engine, chassis, gap) => {
    expect(needed(engine, chassis)).toBeCloseTo(gap, 9);
    const source = rulesOf(engine, chassis).find((one) => one.measured === 'nearest')!.rule.origin;
    expect(source).toMatchObject({ source: expect.stringMatching(/^in print/) as string });
  });

  it('in print: engine and gearbox to everything 10 to 15 mm (street rod federation)', () => {
    for (const gap of [needed('block', 'frame rail')!, needed('transmission', 'tunnel')!]) {
      expect(gap).toBeGreaterThanOrEqual(10);
      expect(gap).toBeLessThanOrEqual(15);
    }
  });

  it('asks more of the fan along the vehicle than of its nearest point, and knows its side', () => {
    expect(needed('mechanical fan', 'radiator')!).toBeLessThan(2 * INCH);
    const rule = rulesOf('mechanical fan', 'radiator').find((one) => one.measured === 'fore-aft')!;
    expect(rule).toMatchObject({ swapped: false, rule: { facing: 'ahead' } });
  });

  // Each line of what the rule book has to cover, as kinds that must have more to say than the
  // general gap between the two sides.
  it.each<[Kind, Kind]>([
    ['mechanical fan', 'fan shroud'],
    ['pulley', 'crossmember'],
    ['balancer', 'crossmember'],
    ['pulley', 'radiator'],
    ['balancer', 'steering box'],
    ['hose', 'crossmember'],
    ['belt', 'hose'],
    ['oil pan', 'crossmember'],
    ['oil pan', 'axle'],
    ['oil pan', 'steering linkage'],
    ['oil filter', 'crossmember'],
    ['alternator', 'frame rail'],
    ['compressor', 'hood'],
    ['power steering pump', 'inner fender'],
    ['valve cover', 'brake booster'],
    ['valve cover', 'heater'],
    ['distributor', 'firewall'],
    ['header', 'steering shaft'],
    ['exhaust', 'fuel line'],
    ['header', 'wiring'],
    ['valve cover', 'throttle linkage'],
    ['header', 'throttle linkage'],
    ['throttle linkage', 'firewall'],
    ['exhaust', 'floor'],
    ['header', 'frame rail'],
    ['fuel pump', 'frame rail'],
    ['clutch linkage', 'frame rail'],
    ['block', 'steering valve'],
    ['head', 'steering box'],
    ['oil pan', 'steering shaft'],
    ['air cleaner', 'hood'],
    ['bell housing', 'firewall'],
    ['bell housing', 'tunnel'],
    ['transmission', 'tunnel'],
    ['transmission', 'crossmember'],
    ['shifter', 'tunnel'],
    ['shifter', 'crossmember'],
    ['driveshaft', 'tunnel'],
    ['transfer case', 'frame rail'],
    ['belt', 'inner fender'],
    ['spark plug', 'frame rail'],
    ['starter', 'frame rail'],
  ])('has a row for %s to %s', (engine, chassis) => {
    const row = rulesOf(engine, chassis).find(
      (one) => one.measured === 'nearest' && !one.comingOut,
    );
    expect(row?.rule.between.some((end) => end.level === 'kind')).toBe(true);
  });

  it('measures the pan to the ground up and down', () => {
    const row = rulesOf('oil pan', 'ground').find((one) => one.measured === 'up-down');
    expect(row).toMatchObject({ rule: { facing: 'below' }, swapped: false });
    expect(row!.needed).toBeGreaterThan(4 * INCH);
  });

  it.each<Kind>([
    'oil filter',
    'belt',
    'spark plug',
    'starter',
    'distributor',
    'oil pan',
    'dipstick',
  ])('asks for room to take out: %s', (kind) => {
    const room = rulesOf(kind, 'frame rail').filter((one) => one.comingOut);
    expect(room.find((one) => one.withdrawn === 'a')!.needed).toBeGreaterThan(0);
  });

  it('exempts what is joined', () => {
    for (const [engine, chassis] of [
      ['engine mount', 'frame rail'],
      ['hose', 'radiator'],
      ['header', 'exhaust'],
      ['throttle linkage', 'throttle linkage'],
      ['carburettor', 'throttle linkage'],
    ] as const) {
      expect(rulesOf(engine, chassis)).toEqual([]);
    }
  });
});

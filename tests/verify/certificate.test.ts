/**
 * Certificates against what is known without them: they hold for answers that were found, and no change makes
 * one prove more than is true.
 */

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Certificate, CertifiedRow, Tree } from '../../src/model/certificate.js';
import { print } from '../../src/cli/report/lines.js';
import { verifyJson, verifyReport } from '../../src/cli/report/verify.js';
import { readScenario } from '../../src/model/read.js';
import { certificateFrom } from '../../src/model/schema/certificate.js';
import type { Part, Rule, Scenario } from '../../src/model/scenario.js';
import { worstCase } from '../../src/model/errors/worst.js';
import type { PlaceRequest } from '../../src/solver/asked.js';
import { certify } from '../../src/solver/certifying/certify.js';
import { verify } from '../../src/verify/verify.js';
import type { NotProved, Verified } from '../../src/verify/verify.js';
import { PLAIN_LOOK } from '../../src/words/text.js';
import { seeded } from '../geometry/random.js';
import { scenarioOf } from '../support/doc.js';
import { bay, RULES } from '../support/forging.js';
import { plant } from '../support/planted.js';
import { randomBay } from '../support/random-bays.js';
import { requestFor, solve, toEnd, TOLERANCE } from '../support/solve.js';
import { cases } from '../support/times.js';

/** A certificate as a file would give it back. */
function certificateOf(
  scenario: Scenario,
  more: Partial<PlaceRequest> = {},
  searched = scenario,
): Certificate {
  const answer = solve(searched, more);
  const found = toEnd(certify(searched, requestFor(searched, more), answer, searched !== scenario));
  if ('why' in found) throw new Error(found.why);
  const read = certificateFrom(JSON.parse(JSON.stringify({ ...found, scenario: '', digest: '' })));
  if ('fault' in read) throw new Error(read.fault);
  return read.certificate;
}

function holds(found: Verified | NotProved): found is Verified {
  return !('fault' in found);
}

/** A bay that overlaps, one that fits, and one with motions, as random bays give them. */
const SEEDS = [3, 7, 11, 19];

function pairsOf(row: CertifiedRow, { pairs }: Certificate): string {
  return 'pair' in row ? pairs[row.pair]!.parts.join(' - ') : 'a limit';
}

describe('a certificate that was written for an answer', () => {
  it('holds in random bays, and says no less than was found', () => {
    for (let seed = 1; seed <= cases(12); seed++) {
      const scenario = scenarioOf(randomBay({ random: seeded(seed) }));
      const answer = solve(scenario);
      if (answer.main.best !== 'proved' || answer.main.optimum.limits.some(({ met }) => !met))
        continue;
      const found = verify(scenario, certificateOf(scenario));
      if (!holds(found)) throw new Error(`seed ${seed}: ${found.fault}`);
      const most = found.claims.find(({ about }) => about === 'all options')!.most;
      expect(found.place).toBe(answer.main.optimum.margin);
      expect(most).toBeGreaterThanOrEqual(found.place);
    }
  });

  it('proves nothing where it is not gone through to the end', () => {
    const scenario = scenarioOf(randomBay({ random: seeded(3) }));
    const certificate = certificateOf(scenario);
    let asks = 0;
    expect(holds(verify(scenario, certificate, () => ++asks > 0))).toBe(true);
    expect(asks).toBeGreaterThan(10);
    for (const last of [0, 1, Math.floor(asks / 2), asks - 1]) {
      let left = last;
      const found = verify(scenario, certificate, () => left-- > 0);
      expect(found).toEqual({
        fault: 'it was stopped before all of it was checked',
        unchecked: true,
      });
    }
  });

  it('holds where a height is limited of a disc that lies level: its lowest place jumps there', () => {
    const scenario = scenarioOf(randomBay({ random: seeded(1100) }));
    expect(holds(verify(scenario, certificateOf(scenario)))).toBe(true);
  });

  it('holds in planted bays, and brackets the margin that is known by construction', () => {
    let choices = 0;
    for (let seed = 1; seed <= cases(6); seed++) {
      const pitch = (['pinned', 'free', 'tilted'] as const)[seed % 3]!;
      const planted = plant({ random: seeded(seed), pitch, choices: seed % 3, worth: 0 });
      const scenario = scenarioOf(planted.doc);
      const found = verify(scenario, certificateOf(scenario));
      if (!holds(found)) throw new Error(`seed ${seed}: ${found.fault}`);
      const best = 25.4 * Math.max(...planted.sets.map((set) => planted.marginOf(set)));
      const all = found.claims.find(({ about }) => about === 'all options')!.most;
      expect(all).toBeGreaterThanOrEqual(best - 1e-6);
      expect(all).toBeLessThanOrEqual(best + 2 * TOLERANCE);
      if (scenario.choices.length > 0) choices++;
    }
    expect(choices).toBeGreaterThan(1);
  });

  it('holds for the worst case of the measuring errors, and not for the bay as drawn', () => {
    const { scenario } = readScenario(TAPED, 'yaml');
    const certificate = certificateOf(scenario!, {}, worstCase({ ...scenario!, drawn: scenario! }));
    expect(holds(verify(scenario!, certificate))).toBe(true);
    // As drawn there is more room than the worst case may claim at the most.
    const drawn = { ...certificate, asked: { ...certificate.asked, guaranteed: false } };
    expect(verify(scenario!, drawn)).toHaveProperty('fault');
  });

  it('is told apart, where measurements may be off: the worst case leaves less, and bounds no place as drawn', () => {
    const { scenario } = readScenario(TAPED, 'yaml');
    const told = (certificate: Certificate): string => {
      const found = verify(scenario!, certificate);
      const answer = { found, isAsWritten: true, isSameScenario: true, bytes: 1, seconds: 1 };
      const look = PLAIN_LOOK;
      const lines = print(
        verifyReport(answer, [], { scenario: scenario!, units: 'in', look }),
        look,
      );
      return lines + JSON.stringify(verifyJson(answer, { scenario: scenario!, units: 'in' }));
    };
    const worst = told(certificateOf(scenario!, {}, worstCase({ ...scenario!, drawn: scenario! })));
    expect(worst).toContain('with every measurement off by its most');
    expect(worst).toContain('"maximised":"guaranteed"');
    const drawn = told(certificateOf(scenario!));
    expect(drawn).toContain('as drawn');
    expect(drawn).toContain('"maximised":"margin"');
  });

  it('is not written, and says why, where it is stopped or a rule has no proof that can be written down', () => {
    const plain = bay(RULES);
    const stopped = certify(plain, requestFor(plain), solve(plain), false);
    stopped.next('go');
    expect(stopped.next('asked').value).toEqual({ why: 'it was stopped' });
    // Two links that turn as one keep apart at any moment; one at a time they would meet.
    const links = ['link', 'rod'].map((name, n): Part => {
      const x = { min: 600 + 25 * n, max: 620 + 25 * n };
      const solid = { shape: 'box', x, y: { min: 0, max: 100 }, z: { min: 0, max: 10 } } as const;
      const turn = { about: 'z', at: [x.min, 0, 0], by: { min: -0.5, max: 0.5 } } as const;
      return { name, side: 'chassis', mirrored: false, solids: [solid], turn };
    });
    const between = links.map(({ name }) => ({
      level: 'part',
      name,
    })) as unknown as Rule['between'];
    const tied: Scenario = {
      ...plain,
      parts: [...plain.parts, ...links],
      together: [['link', 'rod']],
      rules: [
        ...plain.rules,
        { between, gap: 0, measured: 'nearest', comingOut: false, origin: { from: 'file' } },
      ],
    };
    const found = toEnd(certify(tied, requestFor(tied), solve(tied), false));
    expect(found).toHaveProperty('why', expect.stringContaining('no proof that can be written'));
  });

  it('rests on a pair of one side where that leaves the least, under the options that leave it so', () => {
    // The pulley is 4 mm before the fan, which it must clear by 30: no place leaves more than -26 until it is moved.
    const { scenario, problems } = readScenario(
      `
berth: 1
units: mm
driver: left
position: { setback: [0, 60], offset: 0, height: 0, pitch: 0 }
engine:
  block: { box: { x: [20, 420], y: [-100, 100], z: [100, 200] } }
  pulley: { box: { x: [0, 20], y: [-20, 20], z: [100, 140] } }
  fan: { box: { x: [-30, -4], y: [-20, 20], z: [100, 140] } }
chassis: { front: { box: { x: [-150, -100], y: [-300, 300], z: [-300, 600] } } }
rulebook: none
rules: [{ between: [engine, chassis], gap: 10 }, { between: [pulley, fan], gap: 30 }]
choices: { pulley: { stays: {}, moves: { move: { pulley: { z: 100 } }, hours: 2 } } }
`,
      'yaml',
    );
    if (!scenario) throw new Error(JSON.stringify(problems));
    const { main, asItStands } = solve(scenario);
    expect(main.options).toEqual([1]);
    expect(asItStands!.optimum.margin).toBeCloseTo(-26, 3);
    const certificate = certificateOf(scenario);
    const found = verify(scenario, certificate);
    if (!holds(found)) throw new Error(found.fault);
    const pairs = rowsOf(certificate).map((row) => pairsOf(row, certificate));
    expect(pairs).toContain('pulley - fan');
    // Where it stays, a row of that pair alone closes all there is.
    const stays = certificateOf(scenario, { allowed: [[0]] });
    expect(new Set(rowsOf(stays).map((row) => pairsOf(row, stays)))).toEqual(
      new Set(['pulley - fan']),
    );
    expect(stays.claims[0]!.most).toBeGreaterThan(-26);
    expect(stays.claims[0]!.most).toBeLessThan(-26 + 1.01 * TOLERANCE);
  });

  it('is written where less work is taken than the roomiest place needs', () => {
    // Moving the wall gains 1 mm, less than a change must buy; what it leaves is found to the last digit.
    const scenario = bay(`${RULES}
worth: 5
choices: { wall: { stays: {}, moves: { move: { front: { x: -2 } }, hours: 1 } } }`);
    const { main, bestBound } = solve(scenario);
    expect(main.options).toEqual([0]);
    expect(bestBound).toBeCloseTo(41, 3);
    const found = verify(scenario, certificateOf(scenario));
    if (!holds(found)) throw new Error(found.fault);
    expect(found.claims[0]!.most).toBeGreaterThanOrEqual(41);
    expect(found.claims[0]!.most).toBeLessThan(41 + TOLERANCE);
  });

  it('holds for a bay whose limits bind, joints and loads among them', () => {
    const text = readFileSync(
      new URL('../../scenarios/orchard-hauler.yaml', import.meta.url),
      'utf8',
    );
    const { scenario } = readScenario(text, 'yaml');
    const certificate = certificateOf(scenario!, { only: 'place' });
    const found = verify(scenario!, certificate);
    if (!holds(found)) throw new Error(found.fault);
    expect(found.claims.map(({ about }) => about)).toEqual([
      'all options',
      'these options',
      'less work',
    ]);
    expect(rowsOf(certificate).some((row) => 'limit' in row)).toBe(true);
    expect(
      rowsOf(certificate).some((row) => 'pair' in row && row.reasons.some((r) => r.inner)),
    ).toBe(true);
  });
});

const TAPED = `
berth: 1
title: A block between two walls
units: in
driver: left
origin: front wall
measuring error: 1/16
datums: { chassis: { front wall: { x: 0 } }, engine: { block face: { x: -20 } } }
position: { setback: [20, 32], offset: 0, height: 0, pitch: 0 }
engine: { block: { kind: block, box: { x: [-20, 0], y: [-8, 8], z: [-4, 8] } } }
chassis:
  radiator: { kind: radiator, box: { x: [-2, 0], y: [-12, 12], z: [-6, 12] } }
  firewall: { kind: firewall, box: { x: [30, 33], y: [-20, 20], z: [-6, 20] } }
rules: [{ between: [engine, chassis], gap: 1 }]
rulebook: none
`;

function leavesOf(tree: Tree): Tree[] {
  if ('split' in tree) return tree.parts.flatMap(leavesOf);
  if ('choice' in tree) return tree.options.flatMap(([, one]) => leavesOf(one));
  return [tree];
}

function rowsOf({ claims }: Certificate): CertifiedRow[] {
  return claims
    .flatMap(({ tree }) => leavesOf(tree))
    .flatMap((leaf) => ('rows' in leaf ? leaf.rows : []));
}

/** Every place in a value where there is a number, as a way down to it. */
function numbersIn(value: unknown, way: readonly (string | number)[] = []): (string | number)[][] {
  if (typeof value === 'number') return [[...way]];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, one]) => numbersIn(one, [...way, key]));
}

function changed<T>(value: T, way: readonly (string | number)[], to: (x: number) => number): T {
  const copy = JSON.parse(JSON.stringify(value)) as T;
  let at = copy as Record<string | number, unknown>;
  for (const key of way.slice(0, -1)) at = at[key] as Record<string | number, unknown>;
  const last = way.at(-1)!;
  at[last] = to(at[last] as number);
  return copy;
}

/** Claims that are true of a bay: what was found there is a floor under what can be claimed. */
function saysTooMuch(found: Verified, best: number, own: number): boolean {
  return found.claims.some(
    ({ about, most }) =>
      (about === 'all options' && most < best - 1e-4) ||
      (about === 'these options' && most < own - 1e-4),
  );
}

describe('a certificate that was changed', () => {
  it.each(SEEDS)('never proves what is not so, whichever number is another (bay %i)', (seed) => {
    const random = seeded(seed);
    const scenario = scenarioOf(randomBay({ random: seeded(seed) }));
    const answer = solve(scenario);
    const certificate = certificateOf(scenario);
    const own = answer.main.optimum.margin;
    // Claims far below what is there, that the changes below might let pass.
    const claims = certificate.claims.map((claim) => ({ ...claim, most: claim.most - 3 }));
    const bold = { ...certificate, claims };
    expect(holds(verify(scenario, bold))).toBe(false);
    const numbers = numbersIn(bold.claims);
    const changes = [
      (x: number) => x * 1.5,
      (x: number) => x - 40,
      (x: number) => x + 40,
      (x: number) => -x,
      () => 0,
      () => 1e300,
    ];
    for (let n = 0; n < cases(60); n++) {
      const way = numbers[Math.floor(random() * numbers.length)]!;
      const isClaim = way[1] === 'most';
      if (isClaim) continue;
      const spoilt = { ...bold, claims: changed(bold.claims, way, changes[n % changes.length]!) };
      const found = verify(scenario, spoilt);
      if (holds(found)) expect(saysTooMuch(found, own, own)).toBe(false);
    }
  });

  it('fails where a box, an option, a share or a row is left out, or a place is said to leave more', () => {
    const scenario = scenarioOf(randomBay({ random: seeded(7) }));
    const certificate = certificateOf(scenario);
    const bad = (change: (tree: Tree) => Tree): Certificate => ({
      ...certificate,
      claims: certificate.claims.map((claim) => ({ ...claim, tree: change(claim.tree) })),
    });
    const none = (): Tree => ({ none: 'options' });
    const outside = (): Tree => ({ split: 0, at: 1e9, parts: [none(), none()] });
    const noRows = (): Tree => ({ rows: [], shares: [] });
    for (const change of [none, outside, noRows, () => ({ none: 'work' }) as Tree]) {
      expect(verify(scenario, bad(change))).toHaveProperty('fault');
    }
    for (const which of ['place', 'setting'] as const) {
      const { answer } = certificate;
      const place = { ...answer[which], margin: answer[which].margin + 0.01 };
      const more = { ...certificate, answer: { ...answer, [which]: place } };
      expect(verify(scenario, more)).toHaveProperty('fault');
      const away = { ...answer[which], parted: answer[which].parted.slice(1) };
      expect(
        verify(scenario, { ...certificate, answer: { ...answer, [which]: away } }),
      ).toHaveProperty('fault');
    }
  });

  it('fails for another bay: a part a hair larger than what was proved', () => {
    const doc = randomBay({ random: seeded(7) });
    const certificate = certificateOf(scenarioOf(doc));
    const scenario = scenarioOf(doc);
    const smaller: Scenario = {
      ...scenario,
      rules: scenario.rules.map((rule) => ({
        ...rule,
        gap: typeof rule.gap === 'number' ? rule.gap + 1 : rule.gap,
      })),
    };
    expect(verify(smaller, certificate)).toHaveProperty('fault');
  });
});

describe('a file that is no certificate', () => {
  it.each([
    [null, 'at the top'],
    [{}, 'at certificate'],
    [[], 'at the top'],
    [{ certificate: 2 }, 'at certificate'],
  ])('is told: %j', (raw, where) => {
    const found = certificateFrom(raw);
    expect('fault' in found && found.fault).toContain(where);
  });

  it('is told where it is nested out of all measure', () => {
    let tree: unknown = { none: 'options' };
    for (let n = 0; n < 100_000; n++) tree = [tree];
    expect(certificateFrom({ claims: tree })).toEqual({ fault: 'it is nested too deep' });
  });
});

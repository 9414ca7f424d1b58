/**
 * Certificates forged so that one omission of a checker would let a falsehood pass. Each bay is small enough
 * to say by hand what is true of it.
 */

import { describe, expect, it } from 'vitest';
import type { Certificate, CertifiedRow, MarginRow } from '../../src/model/certificate.js';
import type { Scenario } from '../../src/model/scenario.js';
import {
  bay,
  certificateOf,
  claiming,
  eachLeaf,
  fault,
  lowered,
  RULES,
} from '../support/forging.js';

describe('a forged certificate', () => {
  // 500 less 400 less twice 10 is 80 of play: 40 on either side.
  const plain = bay(RULES);
  const certificate = certificateOf(plain);

  it('may not claim less than there is, nor by rows that are all lowered', () => {
    expect(certificate.answer.place.margin).toBeCloseTo(40, 3);
    const margin = certificate.answer.place.margin;
    const claims = certificate.claims.map((claim) => ({ ...claim, most: margin - 0.01 }));
    expect(fault(plain, { ...certificate, claims })).toContain('leave more than is claimed');
    expect(fault(plain, lowered(certificate, 1))).toContain('dips below a gap');
  });

  it('may not weigh a row below nothing', () => {
    // Twice a row less a looser one: both are rows, and the sum is far too low.
    const forged = claiming(
      certificate,
      (tree) =>
        eachLeaf(tree, (rows, shares) => ({
          rows: [...rows, ...rows, ...rows.map((row) => ({ ...row, value: row.value + 100 }))],
          shares: [...shares, ...shares, ...shares.map((share) => -share)],
        })),
      100,
    );
    expect(fault(plain, forged)).toContain('a share is below 0');
  });

  it('may not put its place outside the ranges, where nothing else may be wrong', () => {
    const { answer } = certificate;
    const [x, y, z, pitch] = answer.place.at;
    const place = { ...answer.place, at: [x, y, z + 50, pitch] as const };
    expect(fault(plain, { ...certificate, answer: { ...answer, place } })).toContain(
      'outside the ranges',
    );
  });

  it('may not cut a box where it is not', () => {
    const forged = claiming(certificate, (tree) => ({ split: 0, at: 5000, parts: [tree, tree] }));
    expect(fault(plain, forged)).toContain('cut outside its box');
  });

  it('may not leave an option out, nor use a rule that an open option takes away', () => {
    const chosen = bay(`${RULES}
choices: { front: { stays: {}, goes: { remove: [front], hours: 1 } } }`);
    const all = certificateOf(chosen);
    const none = claiming(all, () => ({ choice: 0, options: [] }), 1000);
    expect(fault(chosen, none)).toContain('an open option is left out');
    // What is proved where the front wall stays says nothing of where it goes.
    const stays = certificateOf(chosen, { allowed: [[0]] });
    const wider = { ...stays, asked: { ...stays.asked, allowed: [[0, 1]] } };
    expect(fault(chosen, wider)).toContain('without that rule');
  });

  it('may not use a limit that does not hold there, nor one lower than it is', () => {
    const limited = bay(`${RULES}
limits: [{ quantity: setback, max: 30 }]
choices: { brace: { off: {}, on: { hours: 1, limits: [{ quantity: setback, max: 5 }] } } }`);
    const of = certificateOf(limited);
    // By the limit of an option that is open, all past 5 would be ruled out.
    const row = { limit: 1, value: 5 - 30 + 1e-6, slopes: [-30, 0, 0, 0] as const, scale: 1 };
    const forged = claiming(of, () => ({
      split: 0,
      at: 5.1,
      parts: [
        { rows: [row], shares: [1] },
        { rows: [row], shares: [1] },
      ],
    }));
    expect(fault(limited, forged)).toContain('does not hold there');
    const low = { limit: 0, value: -1000, slopes: [0, 0, 0, 0] as const, scale: 1 };
    expect(
      fault(
        limited,
        claiming(of, () => ({ rows: [low], shares: [1] })),
      ),
    ).toContain('dips below a limit');
    const { answer } = of;
    const [, y, z, pitch] = answer.place.at;
    const past = { ...answer.place, at: [35, y, z, pitch] as const, margin: -100 };
    expect(fault(limited, { ...of, answer: { ...answer, place: past } })).toContain(
      'limit 1 is missed',
    );
  });

  it('may not take the line between two pitches for what lies between them', () => {
    // Level, the block's lower face is 100 above the datum; at 20 degrees either way a corner is far lower.
    const tilting = bay(
      `rules: [{ between: [block, floor], gap: 0, measured: up-down, side: below }]`,
      'setback: 0, offset: 0, height: 0, pitch: [-11, 11]',
    );
    const of = certificateOf(tilting, { tolerance: 60 });
    const rows: MarginRow[] = [];
    for (const { tree } of of.claims) {
      eachLeaf(tree, (all, shares) => {
        rows.push(...all.filter((row): row is MarginRow => 'pair' in row));
        return { rows: all, shares };
      });
    }
    expect(rows.length).toBeGreaterThan(0);
    expect(fault(tilting, lowered(of, 0.1))).toContain('dips below a gap');
  });
});

describe('a forged body inside two solids that overlap', () => {
  // 400 between walls 380 apart: whatever is done, one wall is 10 deep in the block at the least.
  const tight = bay(
    RULES.replace('gap: 10', 'gap: 0'),
    'setback: [-35, -25], offset: 0, height: 0, pitch: [-1, 1]',
  );
  const walls: Scenario = {
    ...tight,
    parts: tight.parts.map((part) =>
      part.name === 'rear'
        ? {
            ...part,
            solids: [
              {
                shape: 'box',
                x: { min: 380, max: 450 },
                y: { min: -300, max: 300 },
                z: { min: -300, max: 600 },
              },
            ],
          }
        : part,
    ),
  };
  const certificate = certificateOf(walls);
  const hasBody = (row: CertifiedRow): row is MarginRow =>
    'pair' in row && row.reasons.some(({ inner }) => inner);

  function bodies(change: (row: MarginRow) => MarginRow, less: number): Certificate {
    return claiming(
      certificate,
      (tree) =>
        eachLeaf(tree, (rows, shares) => ({
          rows: rows.map((row) => (hasBody(row) ? change(row) : row)),
          shares,
        })),
      less,
    );
  }

  it('may not be said to be deeper than it is', () => {
    expect(certificate.answer.place.margin).toBeCloseTo(-10, 1);
    let some = 0;
    const deeper = bodies((row) => {
      some++;
      return { ...row, value: row.value - 5 };
    }, 0);
    expect(some).toBeGreaterThan(0);
    expect(fault(walls, deeper)).toContain('not deep enough');
  });

  it('may not be open where it is the least deep', () => {
    const open = bodies(
      (row) => ({
        ...row,
        reasons: row.reasons.map((reason) =>
          reason.inner
            ? { ...reason, inner: { ...reason.inner, facets: reason.inner.facets.slice(1) } }
            : reason,
        ),
      }),
      0,
    );
    expect(fault(walls, open)).toContain('not closed');
  });
});

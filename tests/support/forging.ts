/** Certificates forged so that one omission of a checker would let a falsehood pass, and the bays they speak of. */

import { expect } from 'vitest';
import type { Certificate, CertifiedRow, Tree } from '../../src/model/certificate.js';
import { readScenario } from '../../src/model/read.js';
import type { Scenario } from '../../src/model/scenario.js';
import type { PlaceRequest } from '../../src/solver/asked.js';
import { certify } from '../../src/solver/certifying/certify.js';
import { verify } from '../../src/verify/verify.js';
import { requestFor, solve, toEnd } from './solve.js';

/** A block 400 long between two walls 500 apart, in millimetres. */
export function bay(
  more: string,
  position = 'setback: [0, 60], offset: 0, height: 0, pitch: 0',
): Scenario {
  const text = `
berth: 1
title: Between two walls
units: mm
driver: left
origin: front wall
datums: { chassis: { wall: { x: 0 } } }
position: { ${position} }
engine: { block: { box: { x: [20, 420], y: [-100, 100], z: [100, 200] } } }
chassis:
  front: { box: { x: [-50, 0], y: [-300, 300], z: [-300, 600] } }
  rear: { box: { x: [500, 550], y: [-300, 300], z: [-300, 600] } }
  floor: { box: { x: [-900, 900], y: [-900, 900], z: [-700, -600] } }
rulebook: none
${more}
`;
  const { scenario, problems } = readScenario(text, 'yaml');
  if (!scenario) throw new Error(JSON.stringify(problems));
  return scenario;
}

export const RULES = 'rules: [{ between: [engine, chassis], gap: 10 }]';

export function certificateOf(scenario: Scenario, more: Partial<PlaceRequest> = {}): Certificate {
  const answer = solve(scenario, more);
  const found = toEnd(certify(scenario, requestFor(scenario, more), answer, false));
  if ('why' in found) throw new Error(found.why);
  const certificate = { ...found, scenario: '', digest: '' };
  expect(verify(scenario, certificate)).not.toHaveProperty('fault');
  return certificate;
}

/** The certificate with one tree for all it claims, and less claimed by so much. */
export function claiming(
  certificate: Certificate,
  tree: (was: Tree) => Tree,
  less = 0,
): Certificate {
  const claims = certificate.claims.map((claim) => ({
    ...claim,
    most: claim.most - less,
    tree: tree(claim.tree),
  }));
  return { ...certificate, claims };
}

export function eachLeaf(
  tree: Tree,
  change: (rows: readonly CertifiedRow[], shares: readonly number[]) => Tree,
): Tree {
  if ('split' in tree) {
    const [low, high] = tree.parts;
    return { ...tree, parts: [eachLeaf(low, change), eachLeaf(high, change)] };
  }
  if ('choice' in tree) {
    return {
      ...tree,
      options: tree.options.map(([o, one]) => [o, eachLeaf(one, change)] as const),
    };
  }
  return 'rows' in tree ? change(tree.rows, tree.shares) : tree;
}

export function lowered(certificate: Certificate, by: number): Certificate {
  return claiming(
    certificate,
    (tree) =>
      eachLeaf(tree, (rows, shares) => ({
        rows: rows.map((row) => ('pair' in row ? { ...row, value: row.value - by } : row)),
        shares,
      })),
    by,
  );
}

export function fault(scenario: Scenario, certificate: Certificate): string {
  const found = verify(scenario, certificate);
  return 'fault' in found ? found.fault : 'none';
}

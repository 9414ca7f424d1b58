/**
 * Proofs take the work they took, to the box, gap and program: a search is free of clocks and chance, so any
 * change of these counts is a change of the search. Where one is meant, look whether it is for the better,
 * and write the new counts down with `npx vitest run tests/solver/same-work.test.ts -u`.
 */

import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import type { Tree } from '../../src/model/certificate.js';
import { allDomains } from '../../src/model/options.js';
import { readScenario } from '../../src/model/read.js';
import { COORDINATES } from '../../src/model/scenario.js';
import type { Coordinate, Scenario } from '../../src/model/scenario.js';
import type { Effort, Slack, Standing } from '../../src/solver/answer.js';
import { certify } from '../../src/solver/certifying/certify.js';
import { frontier } from '../../src/solver/explaining/frontier.js';
import { slide } from '../../src/solver/explaining/slide.js';
import { trimming } from '../../src/solver/explaining/trimming.js';
import { why } from '../../src/solver/explaining/why.js';
import { seeded } from '../geometry/random.js';
import { scenarioOf } from '../support/doc.js';
import type { BayDoc } from '../support/doc.js';
import { randomBay } from '../support/random-bays.js';
import { requestFor, solve, toEnd, TOLERANCE } from '../support/solve.js';

function fromFile(path: string): Scenario {
  return readScenario(readFileSync(path, 'utf8'), 'auto').scenario!;
}

type Named = readonly [string, Scenario];

/** A random bay that is held by what an axle carries, by a height and by a coordinate too. */
function held(seed: number): Scenario {
  const doc = randomBay({ random: seeded(seed) });
  const weight = {
    axles: { front: -800, rear: 2000 },
    before: { front: 900, rear: 700 },
    in: {
      engine: { side: 'engine', weight: 300, at: [0, 20, 150] },
      ...(doc.choices && { 'loose part': { part: 'loose part', weight: 60, at: [90, 0, 300] } }),
    },
  };
  const limits = [
    { quantity: 'front axle load', max: doc.choices ? 1155 : 1115 },
    { quantity: 'height above', of: 'any 1', above: 'ground', min: 220 },
    { quantity: 'setback', max: 25 },
  ];
  const datums = { chassis: { ground: { z: -400 } } };
  return scenarioOf({ ...doc, datums, weight, limits } as BayDoc);
}

const FILES: readonly Named[] = [
  ['study', fromFile('tests/bays/study.json')],
  ['remote and notch', fromFile('tests/bays/remote-and-notch.yaml')],
  ['grader', fromFile('tests/bays/grader.yaml')],
  ['narrow rails', fromFile('scenarios/narrow-rails.yaml')],
  ['towers', fromFile('scenarios/tower-squeeze.yaml')],
  ['demo', fromFile('scenarios/orchard-hauler.yaml')],
];
/** Where something fits, under options most of them, and the search has to split. */
const SEEDS = [4, 11, 16, 18, 19, 38, 39, 45, 49, 53, 58, 72, 76];
const RANDOM: readonly Named[] = SEEDS.map((seed) => [
  `random ${seed}`,
  scenarioOf(randomBay({ random: seeded(seed) })),
]);

const HELD: readonly Named[] = [4, 18, 24, 39, 49, 58, 72].map((seed) => [
  `held ${seed}`,
  held(seed),
]);

function fixed(value: number): string {
  return value.toFixed(3).replace(/^-(?=[0.]+$)/, '');
}

function spent({ boxes, gaps, lps }: Effort): string {
  return `${boxes} boxes, ${gaps} gaps, ${lps} programs`;
}

/** Where the engine stands and what it leaves: millimetres, thousandths of a radian for the pitch. */
function at({ position, margin }: Standing): string {
  const { setback, offset, height, pitch } = position;
  return [setback, offset, height, 1000 * pitch, margin].map(fixed).join(' ');
}

function rooms({ down, up }: Slack): string {
  return COORDINATES.map((name) => {
    const scale = name === 'pitch' ? 1000 : 1;
    return `${fixed(scale * down[name].room)}/${fixed(scale * up[name].room)}`;
  }).join(' ');
}

function placed(scenario: Scenario): string[] {
  const answer = solve(scenario);
  const { main, asItStands, leastWork, slack, otherPlaces } = answer;
  return [
    spent(answer.effort),
    `best ${at(main.optimum)}`,
    `set ${at(main.setting)}`,
    ...(asItStands ? [`as it stands ${at(asItStands.optimum)}`] : []),
    ...(leastWork ? [`least work ${at(leastWork.optimum)}`] : []),
    ...answer.wishes.map(
      ({ aim, standing, fits }) => `${aim} ${standing ? at(standing) : `${fits}`}`,
    ),
    ...(slack ? [`room ${rooms(slack)}`] : []),
    ...(otherPlaces
      ? [`others ${otherPlaces.places.map((one) => at(one.setting)).join(', ')}`]
      : []),
  ];
}

/** What a wish for this much more than the best margin, or to stand centred, takes to be refused and cured. */
function refused(scenario: Scenario): string[] {
  const { margin } = solve(scenario, { only: 'place' }).main.optimum;
  const more = { ranges: {}, options: [], margin: margin + 5 };
  return [more, { ranges: { offset: { min: 0, max: 0 } }, options: [] }].flatMap((wants) => {
    const { reasons, remedies, effort } = toEnd(why(scenario, { wants, tolerance: TOLERANCE }));
    return [
      spent(effort),
      ...reasons.map(({ parts, rules, limits, ends, short }) =>
        [
          `by ${parts.join(', ')}`,
          `${rules.length} rules`,
          `${limits.length} limits`,
          `${ends.length} ends`,
          ...(short ? [`${fixed(short.least)} to ${fixed(short.most)} short`] : []),
        ].join('; '),
      ),
      ...remedies.map(({ options, cuts, placement }) =>
        [
          'cured',
          `options ${options.join(' ')}`,
          ...cuts.map(({ depth }) => `cut ${fixed(depth)}`),
          at(placement.setting),
        ].join('; '),
      ),
    ];
  });
}

/** What cuts take to be worked out that let it stand centred. */
function trimmed(scenario: Scenario): string[] {
  const wants = { ranges: { offset: { min: 0, max: 0 } }, options: [] };
  const asked = { wants, tolerance: TOLERANCE, withOptions: true };
  const { effort, curves, cheapest } = toEnd(trimming(scenario, asked));
  return [
    spent(effort),
    ...curves.map(
      ({ points, enough, best }) =>
        `enough ${fixed(enough)}; ${best ? fixed(best.perHour) : 'no'} an hour; ` +
        points.map(({ depth, margin }) => `${fixed(depth)} ${fixed(margin)}`).join(', '),
    ),
    ...(cheapest ? [`cheapest ${cheapest.cuts.map(({ depth }) => fixed(depth)).join(' ')}`] : []),
  ];
}

function fronts(scenario: Scenario): string[] {
  const asked = { tolerance: TOLERANCE, allowed: allDomains(scenario), pins: {} };
  const { effort, points } = toEnd(frontier(scenario, asked));
  return [spent(effort), ...points.map(({ setting }) => at(setting))];
}

function slid(scenario: Scenario, along: Coordinate): string[] {
  const allowed = allDomains(scenario);
  const asked = { tolerance: TOLERANCE, along, steps: 9, allowed, range: scenario.position[along] };
  const { effort, points, stretches } = toEnd(slide(scenario, asked));
  return [
    spent(effort),
    `${stretches.length} stretches`,
    ...points.map(({ placement }) => at(placement.optimum)),
  ];
}

function certified(scenario: Scenario): string[] {
  const answer = solve(scenario);
  const found = toEnd(certify(scenario, requestFor(scenario), answer, false));
  if ('why' in found) return [found.why];
  const leaves = found.claims.flatMap(({ tree }) => leavesOf(tree));
  const rows = leaves.flatMap((leaf) => ('rows' in leaf ? leaf.rows : []));
  return [
    `${found.claims.length} claims, ${leaves.length} leaves, ${rows.length} rows`,
    `${JSON.stringify(found).length} characters`,
  ];
}

function leavesOf(tree: Tree): Tree[] {
  if ('split' in tree) return tree.parts.flatMap(leavesOf);
  return 'choice' in tree ? tree.options.flatMap(([, under]) => leavesOf(under)) : [tree];
}

function record(bays: readonly Named[], of: (scenario: Scenario) => readonly string[]): string {
  return bays.map(([name, scenario]) => `${[name, ...of(scenario)].join('\n  ')}\n`).join('');
}

const [STUDY, REMOTE, GRADER, NARROW, TOWERS, DEMO] = FILES as [
  Named,
  Named,
  Named,
  Named,
  Named,
  Named,
];

it('places', async () => {
  await expect(record([...FILES, ...RANDOM, ...HELD], placed)).toMatchFileSnapshot(
    'same-work/places.txt',
  );
});

it('refuses a wish and cures it', async () => {
  const asked = [STUDY, REMOTE, GRADER, ...RANDOM, ...HELD];
  await expect(record(asked, refused)).toMatchFileSnapshot('same-work/refusals.txt');
});

it('trims', async () => {
  await expect(record([REMOTE, NARROW], trimmed)).toMatchFileSnapshot('same-work/trims.txt');
});

it('goes up from the least work', async () => {
  await expect(record([REMOTE, NARROW, DEMO, ...RANDOM], fronts)).toMatchFileSnapshot(
    'same-work/fronts.txt',
  );
});

it('slides', async () => {
  await expect(
    record([STUDY, ...RANDOM.slice(0, 3)], (one) => slid(one, 'setback')),
  ).toMatchFileSnapshot('same-work/slides.txt');
});

it('certifies', async () => {
  await expect(record([STUDY, TOWERS, ...RANDOM, ...HELD], certified)).toMatchFileSnapshot(
    'same-work/certificates.txt',
  );
});

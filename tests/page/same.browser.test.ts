/**
 * One answer everywhere: what a browser's worker solves, in an engine that rounds otherwise, is what the
 * command prints, byte for byte.
 */

import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { placeJson } from '../../src/cli/json/answer.js';
import { builtPage } from '../../src/cli/explore/page.js';
import { notDrawn } from '../../src/model/notdrawn.js';
import { allDomains } from '../../src/model/options.js';
import { readScenario } from '../../src/model/read.js';
import type { Question } from '../../src/page/protocol.js';
import type { PlaceAnswer } from '../../src/solver/answer.js';
import { hoistTo } from '../../src/solver/measuring/hoist.js';
import { unruledAt } from '../../src/solver/measuring/unruled.js';
import { shown } from '../../src/cli/report/shown.js';
import { berth } from '../cli/world.js';
import { launchBrowser } from '../support/chromium.js';
import { OTHER_ENGINE } from '../support/other-engine.js';

const DEMO = 'scenarios/orchard-hauler.yaml';
const PLACE = [
  '--at',
  'setback=21,offset=1 1/4,height=1/2,pitch=3.1',
  '--option',
  'oil filter=remote',
];

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

/** What the built page's worker answers in a browser that rounds otherwise, as JSON of that browser. */
async function solvedInBrowser(text: string, question: Question): Promise<string> {
  const script = /<script id="berth-worker">(.*?)<\/script>/s.exec(await builtPage())![1]!;
  const page = await browser.newPage();
  try {
    const order = { do: 'solve', id: 1, text, question };
    return await page.evaluate<string>(`new Promise((done, failed) => {
      const source = ${JSON.stringify(OTHER_ENGINE + script)};
      const blob = new Blob([source], { type: 'text/javascript' });
      const worker = new Worker(URL.createObjectURL(blob));
      worker.onerror = ({ message }) => failed(new Error(message));
      worker.onmessage = ({ data }) => {
        if (data.say === 'done') done(JSON.stringify(data.answer));
        if (data.say === 'refused') failed(new Error(data.message));
      };
      worker.postMessage(${JSON.stringify(order)});
    })`);
  } finally {
    await page.close();
  }
}

describe('the same answer', () => {
  it('comes from the worker of a browser and from the command, byte for byte', async () => {
    const text = readFileSync(DEMO, 'utf8');
    const scenario = readScenario(text, 'auto').scenario!;
    const told = await solvedInBrowser(text, { kind: 'best', allowed: allDomains(scenario) });
    const answer = JSON.parse(told) as PlaceAnswer;
    const { options: set, optimum, setting } = answer.main;
    const json = placeJson(
      answer,
      notDrawn(scenario),
      unruledAt(scenario, set, shown(answer.main).standing),
      { scenario, units: 'in', tolerance: 25.4 / 64 },
      [],
      {
        optimum: hoistTo(scenario, set, optimum.position),
        setting: hoistTo(scenario, set, setting.position),
      },
    );
    const { out, status } = await berth(['place', DEMO, '--json']);
    expect(status).toBe(0);
    expect(JSON.parse(out)).toMatchObject({ best: 'proved', stopped: null });
    expect(`${JSON.stringify(json, null, 2)}\n`).toBe(out);
  });

  it.each([
    ['gaps', DEMO, ...PLACE],
    ['driveline', DEMO, ...PLACE],
    ['mounts', DEMO, ...PLACE],
    ['asbuilt', DEMO, '--measured', 'scenarios/taped/orchard-hauler.yaml', ...PLACE],
  ])('is printed by `%s` of an engine that rounds otherwise', async (...argv) => {
    const first = `data:text/javascript,${encodeURIComponent(OTHER_ENGINE)}`;
    const command = [...argv, '--json'];
    const other = spawnSync(process.execPath, ['--import', first, 'dist/berth.js', ...command], {
      encoding: 'utf8',
    });
    const here = await berth(command);
    expect(here.out.length).toBeGreaterThan(500);
    expect(other).toMatchObject({ stdout: here.out, status: here.status });
  });
});

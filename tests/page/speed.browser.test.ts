/** A bay of 60 parts a side, dragged: all that a frame does takes less than the frame. */

import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readScenario } from '../../src/model/read.js';
import { fromAddress } from '../../src/page/address.js';
import { measureAt } from '../../src/solver/measuring/measure.js';
import { seeded } from '../geometry/random.js';
import { exportedPage, opened, rested } from '../support/browser.js';
import { launchBrowser } from '../support/chromium.js';
import { fileOf } from '../support/doc.js';
import { plant } from '../support/planted.js';

/** Milliseconds, at the 95th centile. */
const FRAME = 16;
const MOVES = 200;

const planted = plant({
  random: seeded(21),
  pitch: 'tilted',
  choices: 2,
  pieces: { engine: 60, chassis: 10 },
  play: [1, 5],
});
// Rock is the dearest of motions, and every bay has some.
const TEXT = fileOf({ ...planted.doc, rock: 1 });

/** What every frame's work takes, styles and layout included. */
const WATCH = `
  window.frames = [];
  const ask = window.requestAnimationFrame.bind(window);
  window.requestAnimationFrame = (work) => ask((now) => {
    const begun = performance.now();
    work(now);
    document.body.getBoundingClientRect();
    window.frames.push(performance.now() - begun);
  });
`;

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

describe('a bay of 60 x 60 parts', () => {
  // A machine that does other work meanwhile may be slow once.
  it(
    'is measured within a frame while it is dragged, and exactly at rest',
    { retry: 2 },
    async () => {
      const exported = await exportedPage(TEXT, 'bay.json');
      const one = await opened(browser, exported.address, { offline: true }, WATCH);
      try {
        const { page } = one;
        const box = (await page.locator('.engine').boundingBox())!;
        const at = [box.x + box.width / 2, box.y + box.height / 2] as const;
        await page.mouse.move(...at);
        await page.mouse.down();
        await page.evaluate('void (window.frames.length = 0)');
        for (let n = 1; n <= MOVES; n++) {
          await page.mouse.move(at[0] + 40 * Math.sin(n / 9), at[1] + 25 * Math.sin(n / 7));
        }
        const frames = (await page.evaluate<number[]>('window.frames')).sort((a, b) => a - b);
        await page.mouse.up();
        expect(frames.length).toBeGreaterThan(MOVES / 4);
        const centile = frames[Math.floor(0.95 * frames.length)]!;
        expect(centile).toBeLessThan(FRAME);
        await rested(page);
        const scenario = readScenario(TEXT, 'auto').scenario!;
        const { position, options } = fromAddress(scenario, new URL(page.url()).hash);
        const exact = measureAt(scenario, options, position).readings.filter(({ fixed }) => !fixed);
        expect(exact.length).toBeGreaterThan(3000);
        const rows = await page.locator('.gap-row:visible').all();
        const margins = await Promise.all(rows.map((row) => row.getAttribute('data-margin')));
        expect(margins).toHaveLength(8);
        margins.forEach((margin, i) => {
          expect(Math.abs(Number(margin) - exact[i]!.margin)).toBeLessThan(1e-9);
        });
        expect(one.errors).toEqual([]);
      } finally {
        await one.close();
        exported.remove();
      }
    },
  );
});

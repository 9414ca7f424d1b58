/** The page for gloves, small screens, sunlight and screen readers: measured, not looked at. */

import { readFileSync } from 'node:fs';
import axe from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { exportedPage, opened, rested } from '../support/browser.js';
import { launchBrowser } from '../support/chromium.js';

const TEXT = readFileSync('scenarios/orchard-hauler.yaml', 'utf8');
const TABS = [
  'Move',
  'Change',
  'Best',
  'Why not',
  'Compare',
  'Slide',
  'Driveline',
  'Mock-up',
  'Mounts',
  'As built',
  'Save',
];
const WIDTHS = [360, 768, 1280, 1920];

let browser: Browser;
let exported: Awaited<ReturnType<typeof exportedPage>>;
beforeAll(async () => {
  browser = await launchBrowser();
  exported = await exportedPage(TEXT);
});
afterAll(async () => {
  await browser.close();
  exported.remove();
});

async function onPage(
  how: Parameters<typeof opened>[2],
  work: (page: Page) => Promise<void>,
  first?: string,
): Promise<void> {
  const one = await opened(browser, exported.address, { offline: true, ...how }, first);
  try {
    await work(one.page);
    expect(one.errors).toEqual([]);
  } finally {
    await one.close();
  }
}

/** The form for what a tape reads. */
async function toTape(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'What to tape here' }).click();
  await page.locator('.field').first().waitFor();
}

/** What axe finds wrong, in a line each. */
async function wrongs(page: Page): Promise<string[]> {
  return page.evaluate<string[]>(
    `axe.run(document, { resultTypes: ['violations'] }).then(({ violations }) =>
      violations.flatMap(({ id, nodes }) => nodes.map((node) => id + ': ' + node.html.slice(0, 120))))`,
  );
}

describe('a screen reader', () => {
  for (const theme of ['Light', 'Dark', 'Sunlight']) {
    it(`finds nothing wrong on any tab, ${theme}`, async () => {
      await onPage({}, async (page) => {
        await page.getByRole('button', { name: theme, exact: true }).click();
        await page.evaluate(axe.source);
        await page.locator('.gap-row').nth(1).click();
        for (const name of TABS) {
          await page.getByRole('tab', { name, exact: true }).click();
          if (name === 'Compare')
            await page.getByRole('button', { name: 'Keep this place' }).click();
          if (name === 'As built' && theme === 'Light') await toTape(page);
          await rested(page);
          expect(await wrongs(page)).toEqual([]);
        }
      });
    });
  }

  it('is told what is left once the engine rests, in words', async () => {
    await onPage({}, async (page) => {
      await page.locator('.ways').getByRole('button', { name: 'Back' }).click();
      const status = page.locator('.unseen[role="status"]');
      await expect
        .poll(() => status.textContent())
        .toMatch(/^short .*(half|quarter|eighth|sixteenth).* to /);
      expect(await status.textContent()).not.toMatch(/\d\/\d/);
    });
  });
});

describe('gloves and screens', () => {
  for (const width of WIDTHS) {
    it(`have room at ${width}`, async () => {
      await onPage({ viewport: { width, height: 800 }, hasTouch: width < 800 }, async (page) => {
        for (const name of TABS) {
          await page.getByRole('tab', { name, exact: true }).click();
          if (name === 'As built' && width === WIDTHS[0]) await toTape(page);
          await rested(page);
          const small = await page.evaluate<string[]>(
            `[...document.querySelectorAll('button, input, summary, [tabindex="0"]')]
              .filter((one) => one.checkVisibility())
              .map((one) => [one, one.getBoundingClientRect()])
              .filter(([, { width, height }]) => width < 47.99 || height < 47.99)
              .map(([one]) => one.outerHTML.slice(0, 100))`,
          );
          expect(small).toEqual([]);
          const [inner, outer] = await page.evaluate<[number, number]>(
            `[document.documentElement.scrollWidth, window.innerWidth]`,
          );
          expect(inner).toBeLessThanOrEqual(outer);
        }
      });
    });
  }

  it('see nothing else move while the engine is dragged', async () => {
    const watch = `window.shifts = [];
      new PerformanceObserver((list) => window.shifts.push(...list.getEntries().flatMap(({ sources }) =>
        sources.map(({ node }) => (node?.parentElement?.outerHTML ?? 'gone').slice(0, 200)))))
        .observe({ type: 'layout-shift', buffered: true });`;
    await onPage(
      {},
      async (page) => {
        await page.waitForTimeout(500);
        await page.evaluate('void (window.shifts.length = 0)');
        const box = (await page.locator('[data-part="bell housing"]').first().boundingBox())!;
        const at = [box.x + box.width / 2, box.y + box.height / 2] as const;
        await page.mouse.move(...at);
        await page.mouse.down();
        for (let n = 1; n <= 40; n++)
          await page.mouse.move(at[0] - 3 * n, at[1] + 25 * Math.sin(n / 6));
        await page.mouse.up();
        await rested(page);
        await page.waitForTimeout(300);
        expect(await page.evaluate<string[]>('window.shifts')).toEqual([]);
      },
      watch,
    );
  });

  it('keep still where less motion is asked for', async () => {
    await onPage({ reducedMotion: 'reduce' }, async (page) => {
      const moving = await page.evaluate<number>(
        `document.getAnimations().length + [...document.querySelectorAll('*')]
          .filter((one) => getComputedStyle(one).transitionDuration !== '0s').length`,
      );
      expect(moving).toBe(0);
    });
  });

  it('begin with the contrast that the device asks for', async () => {
    for (const [how, theme] of [
      [{ colorScheme: 'dark' }, 'dark'],
      [{ colorScheme: 'light' }, 'light'],
      [{ contrast: 'more' }, 'sun'],
    ] as const) {
      await onPage(how, async (page) => {
        expect(await page.evaluate('document.documentElement.dataset.theme')).toBe(theme);
      });
    }
  });
});

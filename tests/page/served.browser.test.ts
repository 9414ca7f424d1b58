/** The page as `berth explore` serves it: it follows the file, shows its errors in place, and saves on request. */

import { readFileSync, writeFileSync } from 'node:fs';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readScenario } from '../../src/model/read.js';
import { explore } from '../cli/explore-server.js';
import { launchBrowser } from '../support/chromium.js';
import { opened, rested } from '../support/browser.js';
import type { Opened } from '../support/browser.js';
import type { Running } from '../cli/explore-server.js';

const TEXT = readFileSync('scenarios/orchard-hauler.yaml', 'utf8');

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

async function served(work: (one: Opened, running: Running) => Promise<void>): Promise<void> {
  const running = await explore(TEXT);
  let one: Opened | undefined;
  try {
    one = await opened(browser, `${running.origin}/`);
    await work(one, running);
    expect(one.errors).toEqual([]);
  } finally {
    await one?.close();
    await running.stop();
  }
}

describe('a served page', () => {
  it('shows what is wrong with the file in place, keeps the last good bay, and takes it up mended', async () => {
    await served(async ({ page }, { file }) => {
      await page.locator('.ways').getByRole('button', { name: 'Back' }).click();
      await rested(page);
      const place = new URL(page.url()).hash;
      writeFileSync(file, TEXT.replace('setback: [19, 30]', 'setback: [19, thirty]'));
      const problems = page.locator('.problems.wrong');
      await problems.waitFor({ timeout: 20_000 });
      const line = TEXT.split('\n').findIndex((one) => one.includes('setback: [19, 30]')) + 1;
      expect(await problems.textContent()).toMatch(new RegExp(`Line ${line}, column \\d+`));
      expect(await problems.textContent()).toContain('thirty');
      expect(await page.locator('.gap-row:visible').count()).toBe(8);
      writeFileSync(file, TEXT.replace('title: Orchard hauler', 'title: Mended hauler'));
      await page.getByRole('heading', { name: /Mended hauler/ }).waitFor({ timeout: 20_000 });
      await rested(page);
      expect(await page.locator('.problems.wrong').count()).toBe(0);
      expect(new URL(page.url()).hash).toBe(place);
    });
  });

  it('writes the file only when asked to, and then leaves all else in it as it was', async () => {
    await served(async ({ page }, { file }) => {
      await page.locator('.ways').getByRole('button', { name: 'Back' }).click();
      await rested(page);
      expect(readFileSync(file, 'utf8')).toBe(TEXT);
      await page.getByRole('tab', { name: 'Save' }).click();
      await page.getByRole('textbox', { name: 'Name' }).fill('a notch back');
      await page.getByRole('button', { name: 'Write it into the file' }).click();
      await expect.poll(() => readFileSync(file, 'utf8'), { timeout: 20_000 }).not.toBe(TEXT);
      const text = readFileSync(file, 'utf8');
      for (const line of TEXT.split('\n')) expect(text).toContain(line);
      const kept = readScenario(text, 'auto').scenario!.cases.at(-1)!;
      expect(kept.name).toBe('a notch back');
      expect(kept.ranges.setback!.min).toBeCloseTo(24.5625 * 25.4, 6);
    });
  });
});

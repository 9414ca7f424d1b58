/** The served page in a real browser, from loading to undo, and what happens when its file changes. */

import { readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { readScenario } from '../../src/model/read.js';
import { explore } from '../cli/explore-server.js';
import type { Running } from '../cli/explore-server.js';
import { launchBrowser } from '../support/chromium.js';
import { atRest, seriousFindings, watchedPage } from './watched.js';
import type { Watched } from './watched.js';

const DEMO = readFileSync('scenarios/orchard-hauler.yaml', 'utf8');

let browser: Browser;
let on: Running;
let watched: Watched;
let page: Page;

beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

beforeEach(async () => {
  on = await explore(DEMO);
  watched = await watchedPage(browser);
  page = watched.page;
  // Nothing here takes longer, and what never comes should be told before the test itself gives up.
  page.setDefaultTimeout(15_000);
  await page.goto(on.origin);
  await atRest(page);
});

afterEach(async () => {
  const { asked, wrong } = watched;
  await watched.close();
  expect(await on.stop()).toBe(0);
  // Whatever was done: nothing went wrong, and nobody else was asked.
  expect(wrong).toEqual([]);
  expect(asked.filter((url) => new URL(url).origin !== on.origin)).toEqual([]);
});

const verdict = () => page.locator('.verdict .size').innerText();
const tab = (name: string) => page.getByRole('tab', { name, exact: true }).click();
const press = (name: string | RegExp) => page.getByRole('button', { name }).first().click();
const address = () => new URL(page.url()).hash;

describe('the served page', () => {
  it('shows the bay with its worst gap, and asks for itself and the changes alone', async () => {
    expect(await verdict()).toMatch(/\d/);
    expect(await page.locator('.gaps li').count()).toBeGreaterThan(3);
    expect(watched.asked.map((url) => new URL(url).pathname).sort()).toEqual(['/', '/changes']);
    expect(await seriousFindings(page)).toEqual([]);
  });

  it('moves the engine by dragging, and takes that back', async () => {
    const before = { address: address(), verdict: await verdict() };
    const grip = (await page.locator('[data-part="bell housing"]').first().boundingBox())!;
    const [x, y] = [grip.x + grip.width / 2, grip.y + grip.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + 30, y - 20, { steps: 5 });
    await page.mouse.up();
    await expect.poll(address).not.toBe(before.address);
    const after = { address: address(), verdict: await verdict() };
    await press('Undo');
    await expect.poll(address).toBe(before.address);
    expect(await verdict()).toBe(before.verdict);
    await press('Redo');
    await expect.poll(address).toBe(after.address);
    // The address alone brings the place back.
    await page.reload();
    await atRest(page);
    expect(await verdict()).toBe(after.verdict);
    expect(address()).toBe(after.address);
  });

  it('saves a case into the file on request, and nothing before', async () => {
    await tab('Save');
    expect(readFileSync(on.file, 'utf8')).toBe(DEMO);
    await page.getByLabel('Name').last().fill("it's <b>low</b>");
    await press('Write it into the file');
    await page.getByText(/It is in the file now/).waitFor();
    const now = readFileSync(on.file, 'utf8');
    expect(now.startsWith(DEMO)).toBe(true);
    expect(now.slice(DEMO.length)).toContain("'it''s <b>low</b>': '");
    const { name, ranges } = readScenario(now, 'auto').scenario!.cases.at(-1)!;
    expect(name).toBe("it's <b>low</b>");
    expect(ranges.setback!.min / 25.4).toBeCloseTo(Number(/at=([\d.]+)/.exec(address())![1]), 6);
    expect(await page.locator('b').count()).toBe(0);
  });
});

describe('a file that changes', () => {
  it('is shown again where the engine is, errors in place, and mended', async () => {
    await page.locator('.stage').focus();
    await page.keyboard.press('ArrowRight');
    await atRest(page);
    const where = address();
    const titled = DEMO.replace(/^title: .*$/m, 'title: Another title');
    writeFileSync(`${on.file}.new`, titled);
    renameSync(`${on.file}.new`, on.file);
    await page.getByText('Another title').first().waitFor();
    expect(address()).toBe(where);
    const line = titled.split('\n').length;
    writeFileSync(on.file, `${titled}colour: red\n`);
    const problems = page.getByRole('region', { name: 'The file' });
    await problems.getByText(`Line ${line}`).waitFor();
    expect(await problems.innerText()).toContain('colour');
    // What was read well is still there.
    expect(await verdict()).toMatch(/\d/);
    expect(await seriousFindings(page)).toEqual([]);
    rmSync(on.file);
    await problems.getByText('there is no such file').waitFor();
    writeFileSync(on.file, DEMO);
    await problems.waitFor({ state: 'detached' });
    expect(address()).toBe(where);
  });
});

/** The page of `berth explore` in a real browser: served, or as one file without a network. */

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { builtPage, pageWith } from '../../src/cli/explore/page.js';

/** A page, and every error that it printed or threw. */
export interface Opened {
  readonly page: Page;
  readonly errors: string[];
  close(): Promise<void>;
}

/** Opens an address in a window of its own, and waits until all is measured. */
export async function opened(
  browser: Browser,
  address: string,
  options: BrowserContextOptions = {},
  first?: string,
): Promise<Opened> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
  const page = await context.newPage();
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(String(error)));
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  if (first !== undefined) await page.addInitScript({ content: first });
  await page.goto(address);
  await rested(page);
  return { page, errors, close: () => context.close() };
}

/** Waits until nothing moves and every rule is measured. */
export async function rested(page: Page): Promise<void> {
  await page.waitForSelector('.app[data-rest]', { timeout: 60_000 });
}

/** The exported page of a scenario's text, as a file: its address, and how to be rid of it. */
export async function exportedPage(
  text: string,
  name = 'bay.yaml',
): Promise<{ readonly address: string; remove(): void }> {
  const folder = mkdtempSync(join(tmpdir(), 'berth-page-'));
  const file = join(folder, 'page.html');
  writeFileSync(file, pageWith(await builtPage(), { name, text, live: false }).html);
  return {
    address: pathToFileURL(file).href,
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}

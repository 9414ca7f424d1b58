/** A page of a browser with everything written down that it must not do. */

import axe from 'axe-core';
import type { Browser, Page } from 'playwright-core';

export interface Watched {
  readonly page: Page;
  /** Addresses asked for, those within the page itself (`blob:`, `data:`) left out. */
  readonly asked: string[];
  /** Errors of scripts and of the console, breaches of the policy, and dialogs. */
  readonly wrong: string[];
  close(): Promise<void>;
}

/** How the browser stands in for a phone: a narrow screen that is touched. */
export const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };

/** Opens an empty page; `goto` comes after, so that nothing is missed. */
export async function watchedPage(
  browser: Browser,
  options: Parameters<Browser['newContext']>[0] = {},
): Promise<Watched> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, ...options });
  const [asked, wrong]: [string[], string[]] = [[], []];
  const page = await context.newPage();
  context.on('request', (request) => {
    const url = request.url();
    if (!/^(?:blob|data):/.test(url)) asked.push(url);
  });
  context.on('console', (message) => {
    if (message.type() === 'error') wrong.push(`console: ${message.text()}`);
  });
  context.on('weberror', (error) => wrong.push(`script: ${error.error().message}`));
  page.on('dialog', (dialog) => {
    wrong.push(`dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  await page.exposeFunction('tellBreach', (words: string) => wrong.push(`policy: ${words}`));
  await page.addInitScript(
    `document.addEventListener('securitypolicyviolation', (event) =>
      tellBreach(event.violatedDirective + ' ' + event.blockedURI));`,
  );
  return { page, asked, wrong, close: () => context.close() };
}

/** Waits until the engine is at rest and all of it is measured. */
export async function atRest(page: Page): Promise<void> {
  await page.locator('.app[data-rest]').waitFor();
}

/** What axe finds serious or critical, each with where. */
export async function seriousFindings(page: Page): Promise<string[]> {
  await page.evaluate(axe.source);
  const found = await page.evaluate<
    { id: string; impact: string; nodes: { target: string[]; failureSummary: string }[] }[]
  >('axe.run(document, { resultTypes: ["violations"] }).then(({ violations }) => violations)');
  return found
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .flatMap(({ id, nodes }) =>
      nodes.map(({ target, failureSummary }) => `${id}: ${target.join(' ')}: ${failureSummary}`),
    );
}

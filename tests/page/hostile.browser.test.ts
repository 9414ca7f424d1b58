/** The exported page opened from disk with a scenario that means harm: it must neither run nor escape. */

import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readScenario } from '../../src/model/read.js';
import { ORCHARD } from '../model/orchard.js';
import { berth } from '../cli/world.js';
import { explore } from '../cli/explore-server.js';
import { launchBrowser } from '../support/chromium.js';
import { atRest, PHONE, seriousFindings, watchedPage } from './watched.js';
import type { Watched } from './watched.js';

const RUN = 'window.harmed=1';
const IMAGE = `<img src=x onerror=${RUN}>`;
const END = `</script><script>${RUN}</script><!--<script>`;
const LINES = 'one\u2028two\u2029three';

/** As a name or a text in YAML. */
const quoted = (text: string) => JSON.stringify(text);

/** The same bay, its names replaced by what a page could take for markup, code or its own objects. */
const HOSTILE = ORCHARD.replaceAll('oil filter:', `${quoted(IMAGE)}:`)
  .replaceAll('[oil filter]', `[${quoted(IMAGE)}]`)
  .replaceAll('front crossmember', quoted('constructor'))
  .replaceAll('"constructor":', 'constructor:')
  .replaceAll('radiator:', 'toString:')
  .replaceAll(', radiator]', ', toString]')
  .replaceAll('left header', 'hasOwnProperty')
  .replace('remote:', `${quoted(`"><svg onload=${RUN}>`)}:`)
  .replace(/^title: .*$/m, `title: ${quoted(END + LINES)}`)
  .replace('a flexing frame brings the core to the fan', quoted(`javascript:${RUN} ${END}`));

let browser: Browser;
let folder = '';
beforeAll(async () => {
  browser = await launchBrowser();
  folder = mkdtempSync(join(tmpdir(), 'berth-hostile-'));
});
afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
});

/** Opens a file from disk without a network; nothing but the file may be asked for. */
async function fromDisk(html: string, work: (page: Page) => Promise<void>, options = {}) {
  const file = join(folder, 'page.html');
  writeFileSync(file, html);
  const address = pathToFileURL(file).href;
  const watched = await watchedPage(browser, { ...options, offline: true });
  await watched.page.goto(address);
  await work(watched.page);
  await expectUnharmed(watched);
  expect([...new Set(watched.asked.map((url) => url.replace(/#.*$/s, '')))]).toEqual([address]);
  await watched.close();
}

async function expectUnharmed({ page, wrong }: Watched): Promise<void> {
  expect(await page.evaluate<unknown>('window.harmed')).toBeUndefined();
  expect(await page.locator('img, iframe, object, embed, base, [onerror], [onload]').count()).toBe(
    0,
  );
  expect(await page.locator('script').count()).toBe(2);
  expect(await page.evaluate<unknown>('Object.keys(Object.prototype).length')).toBe(0);
  expect(wrong).toEqual([]);
}

/** The page as the command writes it. */
async function exported(text: string): Promise<string> {
  const target = join(folder, 'exported.html');
  const { status, err } = await berth(['explore', '-', '--export', target], { stdin: text });
  expect([status, err.replace(/^warning: .*\n/gm, '')]).toEqual([0, '']);
  return readFileSync(target, 'utf8');
}

describe('a hostile scenario', () => {
  it('is one that can be read, or this tests nothing', () => {
    const { scenario, problems } = readScenario(HOSTILE, 'yaml');
    expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(scenario!.parts.map(({ name }) => name)).toEqual(
      expect.arrayContaining([IMAGE, 'constructor', 'toString', 'hasOwnProperty']),
    );
    expect(scenario!.title).toContain(END);
  });

  it('is shown as the text it is, through every tab, on a phone without a network', async () => {
    const work = async (page: Page) => {
      await atRest(page);
      expect(await page.locator('body').innerText()).toContain(IMAGE);
      for (const one of await page.getByRole('tab').all()) {
        await one.click();
        expect(await page.locator('img').count()).toBe(0);
      }
      await page.getByRole('tab', { name: 'Change' }).click();
      await page.getByRole('group', { name: IMAGE }).getByRole('switch').last().click();
      await page.getByRole('tab', { name: 'Why not', exact: true }).click();
      await page.getByRole('button', { name: 'Why not centred?' }).click();
      await page.locator('.answer .lead').filter({ visible: true }).first().waitFor();
      for (const look of ['Top', 'Front', 'Side']) {
        await page.getByRole('button', { name: look, exact: true }).click();
      }
      await atRest(page);
      expect(await seriousFindings(page)).toEqual([]);
    };
    await fromDisk(await exported(HOSTILE), work, PHONE);
  });

  it('is harmless in the address too', async () => {
    const html = await exported(HOSTILE);
    await fromDisk(html, async (page) => {
      await atRest(page);
      for (const hash of [
        `at=1e999,NaN,${'9'.repeat(400)},-0&look=__proto__&with+constructor=${encodeURIComponent(END)}`,
        `keep=name%3D${encodeURIComponent(encodeURIComponent(IMAGE))}&keep=${'%25'.repeat(500)}`,
        `__proto__=x&with+__proto__=y&${encodeURIComponent(IMAGE)}=%E0%A4%A&cut=-1,1e308,x`,
      ]) {
        await page.goto(`${page.url().replace(/#.*$/s, '')}#${hash}`);
        await page.reload();
        await atRest(page);
        await page.getByRole('tab', { name: 'Compare', exact: true }).click();
        expect(await page.locator('.verdict .size').innerText()).toMatch(/\d/);
      }
    });
  });
});

describe('a hostile file that cannot be read', () => {
  it.each([
    ['markup in names', `${ORCHARD}${quoted(IMAGE)}: 1\n`],
    ['names of prototypes', `${ORCHARD}__proto__: { polluted: 1 }\nconstructor: ${quoted(END)}\n`],
    [
      'numbers beyond all bounds',
      ORCHARD.replace('setback: [20, 32]', `setback: [-1e308, ${'9'.repeat(400)}]`),
    ],
    ['an end of the script', `${END}\n${IMAGE}\n`],
    ['no scenario at all', '\u0000\u2028</SCRIPT >]]>'],
    ['an alias of itself', 'berth: &a [*a]\n'],
  ])('%s', async (_what, text) => {
    const on = await explore(text);
    const watched = await watchedPage(browser);
    await watched.page.goto(on.origin);
    const problems = watched.page.getByRole('region', { name: 'The file' });
    await problems.waitFor();
    expect(await problems.innerText()).toContain('bay.yaml cannot be read');
    await expectUnharmed(watched);
    await watched.close();
    await on.stop();
  });
});

describe('what is printed of a hostile bay', () => {
  const BAY = fileURLToPath(new URL('../hostile/bay.yaml', import.meta.url));
  const AT = ['--at', 'setback=20,offset=0,height=2,pitch=3'];

  it('runs nothing and asks for nothing, even where no policy would stop it', async () => {
    const made = join(folder, 'printed');
    await berth(['sheet', BAY, '-o', join(folder, 'sheet.html'), '--svg', made]);
    await berth(['mounts', BAY, '-o', made, ...AT]);
    await berth(['init', '--form', '--page', join(folder, 'form.html')]);
    const sheet = readFileSync(join(folder, 'sheet.html'), 'utf8');
    const bare = sheet.replace(/<meta http-equiv[^>]*>/, '');
    expect(bare).not.toBe(sheet);
    writeFileSync(join(folder, 'bare.html'), bare);
    const patterns = readdirSync(made).filter((file) => file.endsWith('plate.svg'));
    expect(patterns.length).toBeGreaterThan(2);
    const files = [
      ...['sheet', 'bare', 'form'].map((name) => join(folder, `${name}.html`)),
      ...['side.svg', patterns[0]!].map((file) => join(made, file)),
    ];
    const watched = await watchedPage(browser, { offline: true });
    for (const file of files) {
      await watched.page.goto(pathToFileURL(file).href);
      const found = await watched.page.evaluate<unknown>(
        `[window.harmed, document.querySelectorAll('script, img, iframe, a, b[onclick], [onload], [onerror], parsererror').length]`,
      );
      expect(found, file).toEqual([undefined, 0]);
      if (file.endsWith('.html')) {
        // The style counts: the policy's hash is that of the style.
        const font = await watched.page.evaluate<string>(
          `getComputedStyle(document.body).fontSize`,
        );
        expect(font, file).toBe('14px');
      }
    }
    expect(watched.wrong).toEqual([]);
    expect(watched.asked).toEqual(files.map((file) => pathToFileURL(file).href));
    await watched.close();
  });
});

describe('the policy', () => {
  it('stops a script, a style and a request that the page was not built with', async () => {
    const html = await exported(ORCHARD);
    const added = html.replace(
      '</body>',
      `<script>${RUN}</script><img src="https://example.invalid/x"><style>body{}</style></body>`,
    );
    const file = join(folder, 'spoilt.html');
    writeFileSync(file, added);
    const watched = await watchedPage(browser);
    await watched.page.goto(pathToFileURL(file).href);
    await atRest(watched.page);
    expect(await watched.page.evaluate<unknown>('window.harmed')).toBeUndefined();
    const failed = await watched.page.evaluate<string>(
      `fetch('https://example.invalid/').then(() => 'sent', (error) => error.name)`,
    );
    expect(failed).toBe('TypeError');
    const made = await watched.page.evaluate<string[]>(
      `[() => (document.body.innerHTML = '<b>x</b>'), () => new Worker('data:,')].map((make) => {
        try { make(); return 'made'; } catch (error) { return error.name; }
      })`,
    );
    expect(made).toEqual(['TypeError', 'TypeError']);
    const breached = () =>
      new Set(watched.wrong.flatMap((one) => /^policy: ([a-z]+-src)/.exec(one)?.[1] ?? []));
    await expect
      .poll(breached)
      .toEqual(new Set(['script-src', 'img-src', 'style-src', 'connect-src']));
    await watched.close();
  });
});

/** How long the page of `berth explore` takes to its first view, and how large it is as one file. */
import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { launchBrowser } from '../tests/support/chromium.js';
import { median } from './harness.js';
import type { BenchRow } from './harness.js';

const COMMAND = 'dist/berth.js';
const DEMO = 'scenarios/orchard-hauler.yaml';
const WANTED_MS = 1000;
const WANTED_MB = 2;

/**
 * From the start of the process until the bay is drawn with its gaps measured, in a browser that runs
 * already. Every view is checked for a verdict and the eight worst gaps.
 */
export async function benchPage(short: boolean): Promise<BenchRow[]> {
  const browser = await launchBrowser();
  const times: number[] = [];
  try {
    const page = await browser.newPage();
    for (let run = 0; run < (short ? 3 : 11); run += 1) {
      const begin = performance.now();
      const child = spawn(process.execPath, [COMMAND, 'explore', DEMO, '--port', '0']);
      const address = await new Promise<string>((resolve, reject) => {
        child.stdout.on('data', (text: Buffer) => resolve(text.toString().split('\n', 1)[0]!));
        child.on('close', () => reject(new Error('the server ended')));
      });
      await page.goto(address, { waitUntil: 'commit' });
      await page.locator('.app[data-rest]').waitFor();
      times.push(performance.now() - begin);
      const rows = await page.locator('.gap-row:visible').count();
      const verdict = await page.locator('.verdict').innerText();
      if (rows < 8 || !/\d/.test(verdict)) throw new Error('the first view is not whole');
      await page.goto('about:blank');
      child.removeAllListeners('close');
      const ended = new Promise((resolve) => child.on('close', resolve));
      child.kill('SIGINT');
      if ((await ended) !== 0) throw new Error('the server did not end well');
    }
  } finally {
    await browser.close();
  }
  const value = median(times);
  return [
    {
      name: 'first view',
      value,
      unit: 'ms',
      wanted: `at most ${WANTED_MS} ms from the start of the process`,
      met: value <= WANTED_MS,
      checked: times.length,
      note: 'server started, page loaded and drawn, every gap measured; the browser runs already',
    },
    exportedSize(),
  ];
}

function exportedSize(): BenchRow {
  const folder = mkdtempSync(join(tmpdir(), 'berth-bench-'));
  try {
    const page = join(folder, 'page.html');
    const { status, stderr } = spawnSync(
      process.execPath,
      [COMMAND, 'explore', DEMO, '--export', page],
      { encoding: 'utf8' },
    );
    if (status !== 0) throw new Error(`the export ended with ${status}: ${stderr}`);
    const value = statSync(page).size / 1e6;
    return {
      name: 'exported page size',
      value,
      unit: 'MB',
      wanted: `less than ${WANTED_MB} MB`,
      met: value < WANTED_MB,
      counted: true,
      checked: 1,
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

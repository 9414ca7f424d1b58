/** A real browser for the tests of the page: found on this machine, never fetched. */

import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { chromium } from 'playwright-core';
import type { Browser } from 'playwright-core';

/** Says where Chromium is, before any other place is looked in. */
const SAYS_WHERE = 'BERTH_CHROMIUM';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome'];
const ELSEWHERE = [
  '/usr/bin',
  '/Applications/Chromium.app/Contents/MacOS',
  '/Applications/Google Chrome.app/Contents/MacOS',
];

const HOW_TO_GET_ONE = `No Chromium was found, and these tests need one. Install it, on Debian or Ubuntu with
    apt-get install chromium
or set ${SAYS_WHERE} to the program of a Chromium or Chrome that is here already.`;

/** Asks nothing of the network by itself: what is seen to leave is the page's own doing. */
const QUIET = [
  '--disable-gpu',
  '--enable-unsafe-swiftshader',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/**
 * The program of a Chromium on this machine.
 * @throws Error that says how to get one, where there is none: a test without it must not pass.
 */
export function findChromium(
  env: Readonly<Record<string, string | undefined>> = process.env,
  elsewhere: readonly string[] = ELSEWHERE,
): string {
  const said = env[SAYS_WHERE];
  if (said !== undefined && said !== '') {
    if (canRun(said)) return said;
    throw new Error(`${SAYS_WHERE} is ${said}, which cannot be run.\n${HOW_TO_GET_ONE}`);
  }
  const folders = [...(env['PATH'] ?? '').split(delimiter), ...elsewhere].filter(
    (one) => one !== '',
  );
  for (const name of [...NAMES, 'Chromium', 'Google Chrome']) {
    for (const folder of folders) {
      const path = join(folder, name);
      if (canRun(path)) return path;
    }
  }
  throw new Error(HOW_TO_GET_ONE);
}

/** Starts it without a window. */
export function launchBrowser(): Promise<Browser> {
  // Chromium's own sandbox does not start for root, as which most containers run.
  const asRoot = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
  return chromium.launch({ executablePath: findChromium(), args: [...asRoot, ...QUIET] });
}

function canRun(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

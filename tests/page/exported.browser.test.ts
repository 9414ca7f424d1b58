/** The page in a browser, without a network: dragging, undo, the address, the solver, and the numbers. */

import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { drivelineChecks, isKept } from '../../src/geometry/driveline/checks.js';
import { drivelineAt } from '../../src/geometry/driveline/standing.js';
import { lengthOf } from '../../src/geometry/adjusters/links.js';
import { loadsAt, supportedUnder } from '../../src/geometry/mounts/load-cases.js';
import { mountAt } from '../../src/geometry/mounts/standing.js';
import { loadCells } from '../../src/words/mount-loads.js';
import { allDomains } from '../../src/model/options.js';
import { readScenario } from '../../src/model/read.js';
import { tape } from '../../src/model/text/tape.js';
import { stanceOf } from '../../src/model/stance.js';
import { fromAddress } from '../../src/page/address.js';
import { measureAt } from '../../src/solver/measuring/measure.js';
import { place } from '../../src/solver/place.js';
import { axleNow } from '../../src/words/axle.js';
import { checkCells } from '../../src/words/driveline.js';
import { adjusterTape } from '../../src/words/fitup.js';
import { PLAIN_LOOK } from '../../src/words/text.js';
import { exportedPage, opened, rested } from '../support/browser.js';
import { launchBrowser } from '../support/chromium.js';
import type { Opened } from '../support/browser.js';

const TEXT = readFileSync('scenarios/orchard-hauler.yaml', 'utf8');
const scenario = readScenario(TEXT, 'auto').scenario!;
const INCH = 25.4;

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

/** Runs on a page of its own that has no network, and lets no error of it pass. */
async function onPage(
  work: (page: Page) => Promise<void>,
  hash = '',
  how: Parameters<typeof opened>[2] = {},
): Promise<void> {
  let one: Opened | undefined;
  try {
    one = await opened(browser, exported.address + hash, { offline: true, ...how });
    await work(one.page);
    expect(one.errors).toEqual([]);
  } finally {
    await one?.close();
  }
}

function stateOf(page: Page): ReturnType<typeof fromAddress> {
  return fromAddress(scenario, new URL(page.url()).hash);
}

/** What the rows say, in millimetres. */
async function margins(page: Page): Promise<number[]> {
  const rows = await page.locator('.gap-row:visible').all();
  return Promise.all(rows.map(async (row) => Number(await row.getAttribute('data-margin'))));
}

/** Every number shown is that of the command line, at the place that the address names. */
async function expectMeasured(page: Page): Promise<void> {
  await rested(page);
  const { position, options } = stateOf(page);
  const exact = measureAt(scenario, options, position).readings.filter(({ fixed }) => !fixed);
  const shown = await margins(page);
  expect(shown.length).toBe(8);
  shown.forEach((margin, i) => expect(Math.abs(margin - exact[i]!.margin)).toBeLessThan(1e-9));
}

/** Where the engine can be taken hold of. */
async function grip(page: Page): Promise<{ x: number; y: number }> {
  const box = (await page.locator('[data-part="bell housing"]').first().boundingBox())!;
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

async function drag(page: Page, across: number, down: number): Promise<void> {
  const { x, y } = await grip(page);
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + across / 2, y + down / 2, { steps: 4 });
  await page.mouse.move(x + across, y + down, { steps: 4 });
  await page.mouse.up();
  await rested(page);
}

describe('the engine', () => {
  it('is dragged onto tape marks, taken back as one, and done again', async () => {
    await onPage(async (page) => {
      const before = stateOf(page).position;
      await drag(page, 60, -24);
      const after = stateOf(page).position;
      expect(after.setback).toBeGreaterThan(before.setback + INCH / 2);
      expect(after.height).toBeGreaterThan(before.height + INCH / 8);
      expect(after.offset).toBe(before.offset);
      expect(after.setback / (INCH / 16)).toBeCloseTo(Math.round(after.setback / (INCH / 16)), 6);
      await expectMeasured(page);
      await page.getByRole('button', { name: 'Undo' }).click();
      await rested(page);
      expect(stateOf(page).position).toEqual(before);
      await expectMeasured(page);
      await page.keyboard.press('Control+Shift+Z');
      await rested(page);
      expect(stateOf(page).position).toEqual(after);
      await expectMeasured(page);
    });
  });

  it('stays inside the ranges of the file', async () => {
    await onPage(async (page) => {
      await drag(page, 2000, 0);
      expect(stateOf(page).position.setback).toBeCloseTo(30 * INCH, 6);
      await expectMeasured(page);
    });
  });

  it('goes by keys, buttons and sliders, with the view or without', async () => {
    await onPage(async (page) => {
      const start = stateOf(page).position;
      await page.locator('.stage').focus();
      await page.keyboard.press('ArrowRight');
      await page.keyboard.press('ArrowRight');
      await page.keyboard.press('Shift+ArrowUp');
      await page.keyboard.press('PageDown');
      await rested(page);
      const keyed = stateOf(page).position;
      expect(keyed.setback).toBeCloseTo(start.setback + INCH / 8, 6);
      expect(keyed.height).toBeCloseTo(start.height + INCH / 4, 6);
      expect(keyed.pitch).toBeCloseTo(start.pitch + Math.PI / 1800, 6);
      await page.locator('.ways').getByRole('button', { name: 'Forward' }).click();
      await rested(page);
      expect(stateOf(page).position.setback).toBeCloseTo(keyed.setback - INCH / 16, 6);
      await page.getByRole('slider', { name: 'Offset' }).focus();
      await page.keyboard.press('ArrowRight');
      await rested(page);
      expect(stateOf(page).position.offset).toBeCloseTo(start.offset + INCH / 16, 6);
      const spoken = await page
        .getByRole('slider', { name: 'Offset' })
        .getAttribute('aria-valuetext');
      expect(spoken).toBe('a sixteenth to passenger');
      await expectMeasured(page);
    });
  });

  it('comes back from its address, on a phone too', async () => {
    let address = '';
    await onPage(async (page) => {
      await page.getByRole('button', { name: 'Top' }).click();
      await page.getByRole('tab', { name: 'Change' }).click();
      await page.getByRole('switch', { name: 'remote' }).click();
      await page.getByRole('slider', { name: /crossmember/ }).focus();
      await page.keyboard.press('ArrowRight');
      await rested(page);
      await page.getByRole('tab', { name: 'Compare' }).click();
      await page.getByRole('button', { name: 'Keep this place' }).click();
      await rested(page);
      address = new URL(page.url()).hash;
    });
    const phone = { viewport: { width: 360, height: 740 }, hasTouch: true };
    await onPage(
      async (page) => {
        expect(new URL(page.url()).hash).toBe(address);
        const state = stateOf(page);
        expect(state.options[0]).toBe(1);
        expect(state.depths[0]).toBeCloseTo(INCH / 16, 6);
        expect(state.kept).toHaveLength(1);
        expect(state.looking).toBe('top');
        expect(await page.getByRole('button', { name: 'Top' }).getAttribute('aria-pressed')).toBe(
          'true',
        );
      },
      address,
      phone,
    );
  });
});

describe('figures that follow the engine', () => {
  it('are those of the command line, in the hand and at rest', async () => {
    await onPage(async (page) => {
      const told = (): { front: string; joints: string[]; lead: RegExp } => {
        const { position, options } = stateOf(page);
        const driveline = scenario.driveline!;
        const checks = drivelineChecks(driveline, drivelineAt(driveline, position));
        const telling = { scenario, units: 'in', look: PLAIN_LOOK } as const;
        return {
          front: axleNow(options, position, telling)!,
          joints: checks.map((check) => checkCells(check, telling).is),
          lead: checks.every(isKept) ? /^Works\. / : /^Does not work: \d of 10 not kept/,
        };
      };
      const seen = async () => ({
        front: await page.locator('.axle').textContent(),
        joints: await page.locator('.figure:visible .left').allTextContents(),
        lead: await page.locator('.tab-body:visible .lead').textContent(),
      });
      await page.getByRole('tab', { name: 'Driveline' }).click();
      const before = await seen();
      const { x, y } = await grip(page);
      await page.mouse.move(x, y);
      await page.mouse.down();
      await page.mouse.move(x + 60, y - 70, { steps: 6 });
      await expect.poll(async () => (await seen()).front).not.toBe(before.front);
      expect((await seen()).joints).not.toEqual(before.joints);
      await page.mouse.up();
      await rested(page);
      const { lead, ...after } = await seen();
      const { lead: expected, ...right } = told();
      expect(after).toEqual(right);
      expect(lead).toMatch(expected);
      await page.getByRole('button', { name: 'Undo' }).click();
      await rested(page);
      expect(await seen()).toEqual(before);
      await page.getByRole('tab', { name: 'Mock-up' }).click();
      const stance = stanceOf(stateOf(page).position);
      const lengths = scenario.mockup!.adjusters.map((one) =>
        adjusterTape(lengthOf(one, stance), 'in'),
      );
      expect(await page.locator('.figure:visible .left').allTextContents()).toEqual(lengths);
      await page.getByRole('tab', { name: 'Mounts' }).click();
      const reach = scenario.mounts!.make.map((mount) => mountAt(mount, stance).reach);
      const figures = await page.locator('.figure:visible .left').allTextContents();
      expect(figures.slice(0, reach.length)).toEqual(
        reach.map((mm) => tape(mm, 'in', { round: 'nearest' })),
      );
      const { options } = stateOf(page);
      const loads = loadsAt(scenario.mounts!, stance, supportedUnder(scenario, options));
      const [, , ...rows] = loadCells(
        { loads, mounts: scenario.mounts! },
        { scenario, units: 'in', look: PLAIN_LOOK },
      )!;
      expect(figures.slice(-rows.length)).toEqual(rows.map((row) => `${row[1]!} lbf down`));
    });
  });

  it('take what a tape reads, and name the reading that the others contradict', async () => {
    await onPage(async (page) => {
      await page.getByRole('tab', { name: 'As built' }).click();
      await page.getByRole('button', { name: 'What to tape here' }).click();
      const tail = page.getByLabel('Tail bar');
      await tail.fill('two');
      await page.getByRole('button', { name: 'Where is it really?' }).click();
      expect(await tail.getAttribute('aria-invalid')).toBe('true');
      const fields = await page.locator('.field').all();
      for (const field of fields) {
        const hint = (await field.locator('.hint').textContent())!;
        const reads = /should read ([\d ./]*\d)/.exec(hint)![1]!;
        await field.locator('input').fill(reads);
      }
      await tail.fill('14 +- 1/32');
      await page.getByRole('button', { name: 'Where is it really?' }).click();
      const facts = page.locator('.card .facts');
      await facts.waitFor();
      expect(await tail.getAttribute('aria-invalid')).toBeNull();
      expect(await facts.textContent()).toMatch(
        /Off by(nothing that can be told|1\/32 [^;]*)Known to.*\(95 in 100\)Left outtail bar reads 14, the others say /,
      );
    });
  });
});

describe('a pair', () => {
  it('is marked when its row is touched, and when its part is', async () => {
    await onPage(async (page) => {
      await page.locator('.gap-row').first().click();
      const marked = page.locator('.part.chosen');
      const names = await marked.evaluateAll((all) =>
        all.map((one) =>
          (one as unknown as { getAttribute(n: string): string }).getAttribute('data-part'),
        ),
      );
      const told = await page.locator('.gap-row').first().locator('.pair').textContent();
      expect(new Set(names)).toEqual(new Set(told!.split(' - ')));
      expect(await page.locator('.tag.chosen').textContent()).toBe('1');
      const { x, y } = await grip(page);
      await page.mouse.click(x, y);
      const now = await page.locator('.gap-row[aria-pressed="true"]:visible').allTextContents();
      const chosen = await page.locator('.part.chosen').count();
      expect(now.join()).not.toContain(told!);
      expect(chosen).toBeGreaterThanOrEqual(2);
    });
  });
});

describe('the solver', () => {
  it('finds the best place of the command, and the engine is put there', async () => {
    const request = {
      aim: 'margin',
      keep: 0,
      tolerance: INCH / 64,
      pins: {},
      allowed: allDomains(scenario),
      only: 'place',
    } as const;
    const search = place(scenario, request);
    let step = search.next('go');
    while (step.done !== true) step = search.next('go');
    const best = step.value.main;
    await onPage(async (page) => {
      await page.getByRole('tab', { name: 'Best' }).click();
      await page.getByRole('button', { name: 'Best position with any options' }).click();
      await page
        .getByRole('button', { name: 'Put the engine there' })
        .first()
        .click({ timeout: 120_000 });
      await rested(page);
      const { position, options } = stateOf(page);
      expect(options).toEqual(best.options);
      expect(position.setback).toBeCloseTo(best.setting.position.setback, 6);
      expect(position.pitch).toBeCloseTo(best.setting.position.pitch, 8);
      expect((await margins(page))[0]).toBeCloseTo(best.setting.margin, 8);
      expect(await page.locator('.verdict').getAttribute('data-fits')).toBe('true');
    });
  });

  it('stops when it is told to, with what it has', async () => {
    await onPage(async (page) => {
      await page.getByRole('tab', { name: 'Slide' }).click();
      await page.getByRole('button', { name: 'Slide setback' }).click();
      await page.getByRole('button', { name: 'Stop' }).click();
      await page.waitForSelector('.answer > *', { timeout: 20_000 });
      expect(await page.getByRole('button', { name: 'Stop' }).count()).toBe(0);
    });
  });

  it('says why it cannot be centred, and applies a remedy with a touch', async () => {
    await onPage(async (page) => {
      await page.getByRole('tab', { name: 'Why not' }).click();
      await page.getByRole('button', { name: 'Why not centred?' }).click();
      await page.waitForSelector('.reasons li', { timeout: 120_000 });
      expect(await page.locator('.reasons').textContent()).toMatch(/[Ss]teering valve/);
      await page.getByRole('button', { name: 'Do this' }).first().click();
      await rested(page);
      expect(stateOf(page).position.offset).toBe(0);
      expect(await page.locator('.verdict').getAttribute('data-fits')).toBe('true');
      await page.keyboard.press('Control+z');
      await rested(page);
      expect(await page.locator('.verdict').getAttribute('data-fits')).toBe('false');
    });
  });

  it('draws a slide, and says the same as a table', async () => {
    await onPage(async (page) => {
      await page.getByRole('tab', { name: 'Slide' }).click();
      await page.getByRole('button', { name: 'Slide offset' }).click();
      await page.waitForSelector('.plot path.line', { timeout: 120_000 });
      await page.getByText('The same as a table').click();
      expect(await page.locator('.tab-body table tbody tr').count()).toBeGreaterThanOrEqual(17);
      expect(await page.locator('.stretches li').count()).toBeGreaterThan(0);
    });
  });
});

describe('saving a copy', () => {
  it('offers the file with the place as a case, all else as it was', async () => {
    await onPage(async (page) => {
      await page.getByRole('tab', { name: 'Save' }).click();
      await page.getByRole('textbox', { name: 'Name' }).fill('as dragged');
      const waiting = page.waitForEvent('download');
      await page.getByRole('button', { name: 'Download the changed file' }).click();
      const file = await (await waiting).path();
      const text = readFileSync(file, 'utf8');
      expect(text).toContain('as dragged');
      for (const line of TEXT.split('\n')) expect(text).toContain(line);
      expect(readScenario(text, 'auto').scenario!.cases.map(({ name }) => name)).toContain(
        'as dragged',
      );
    });
  });
});

describe('limits', () => {
  it('are told where they are missed', async () => {
    await onPage(async (page) => {
      // The middle of the ranges, where the shaft is too steep at full droop and the pitch is kept.
      const middle = await page.locator('.limits').textContent();
      expect(middle).toMatch(/^Limit missed: pinion joint at full droop/);
      expect(middle).not.toContain('must be at most 4.0 deg');
      expect(stateOf(page).position.pitch).toBeLessThan((4 * Math.PI) / 180);
      await page.getByRole('slider', { name: 'Pitch' }).focus();
      await page.keyboard.press('End');
      await rested(page);
      expect(await page.locator('.limits').textContent()).toContain('must be at most 4.0 deg');
      expect(await page.locator('.verdict').getAttribute('data-fits')).toBe('false');
    });
  });
});

describe('the bay in three dimensions', () => {
  it('is drawn, and turns', async () => {
    await onPage(async (page) => {
      await page.getByRole('button', { name: 'Turn', exact: true }).click();
      await rested(page);
      const stage = page.locator('.stage canvas');
      const before = await stage.screenshot();
      await page.getByRole('button', { name: 'Turn left' }).click();
      await page.waitForTimeout(300);
      const turned = await stage.screenshot();
      expect(turned.equals(before)).toBe(false);
      await page.locator('.gap-row').first().click();
      await page.waitForTimeout(300);
      expect((await stage.screenshot()).equals(turned)).toBe(false);
    });
  });
});

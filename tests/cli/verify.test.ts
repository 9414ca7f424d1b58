/** `berth verify` as typed: what is said of a proof, of one that is none, and of one that was not gone through. */

import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { berth } from './world.js';

const BAY = 'tests/bays/study.json';
const folder = mkdtempSync(join(tmpdir(), 'berth-verify-'));
const proof = join(folder, 'proof.json');

beforeAll(async () => {
  const { status, out } = await berth(['place', BAY, '--certificate', proof]);
  expect(status).toBe(0);
  expect(out).toContain(`Written: ${proof}`);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('berth verify', () => {
  it('says that it is proved, and of what', async () => {
    const { status, out } = await berth(['verify', BAY, proof, '--plain']);
    expect(status).toBe(0);
    expect(out).toMatch(/^PROVED\. The certificate holds for the parts and sizes in this file\.\n/);
    expect(out).toContain('At most   5/8 to spare anywhere, whatever options are taken');
    const json = await berth(['verify', BAY, proof, '--json']);
    expect(JSON.parse(json.out)).toMatchObject({ proved: true, certificateAsWritten: true });
  });

  it('says what is wrong with one that proves nothing', async () => {
    const spoilt = join(folder, 'spoilt.json');
    const text = JSON.parse(readFileSync(proof, 'utf8')) as {
      answer: { place: { margin: number } };
    };
    text.answer.place.margin += 1;
    writeFileSync(spoilt, JSON.stringify(text));
    const { status, out } = await berth(['verify', BAY, spoilt]);
    expect(status).toBe(1);
    expect(out).toContain('NO PROOF. This certificate proves nothing of this file.');
    expect(out).toContain('Fault     the place: ');
    const json = await berth(['verify', BAY, spoilt, '--json']);
    expect(JSON.parse(json.out)).toMatchObject({ proved: false, unchecked: false });
  });

  it('says nothing for it or against it where a limit or Ctrl-C stops it, and ends with status 3', async () => {
    const args = ['verify', BAY, proof];
    const late = await berth([...args, '--time-limit', '0.2'], { tick: 1 });
    expect(late.status).toBe(3);
    expect(late.out).toMatch(
      /^NOT CHECKED\. Stopped before its end: nothing is said for it or against it\.\n/,
    );
    const json = await berth([...args, '--time-limit', '0.2', '--json'], { tick: 1 });
    expect(json.status).toBe(3);
    expect(JSON.parse(json.out)).toMatchObject({ proved: false, unchecked: true });
    const full = await berth(args, { tick: 1, full: () => true });
    expect(full.status).toBe(3);
    // With time enough it is proved.
    expect((await berth([...args, '--time-limit', '900'], { tick: 1 })).status).toBe(0);
  });

  it('takes no limit that is none', async () => {
    const { status, err } = await berth(['verify', BAY, proof, '--time-limit', 'soon']);
    expect(status).toBe(2);
    expect(err).toContain('--time-limit');
  });
});

/** Every scenario of ours, as printed: the search is cut short, for only the look is in question. */

import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { FIRST_SCREEN } from '../../src/cli/report/answer.js';
import { columns } from '../../src/words/text.js';
import { berth } from './world.js';

const FOLDER = 'scenarios';
const files = readdirSync(FOLDER).filter((name) => name.endsWith('.yaml'));

describe('scenarios', () => {
  it('are there', () => {
    expect(files.length).toBeGreaterThanOrEqual(3);
  });

  it.each(files)('%s keeps to 80 columns and has its answer in 24 lines', async (name) => {
    const path = `${FOLDER}/${name}`;
    for (const look of [[], ['--plain'], ['--units', 'mm']]) {
      const { status, out, err } = await berth([
        'place',
        path,
        '--all',
        '--time-limit',
        '0.3',
        ...look,
      ]);
      expect([0, 1, 3], err).toContain(status);
      const lines = out.split('\n');
      for (const line of lines) expect(columns(line), line).toBeLessThanOrEqual(80);
      expect(lines.slice(0, FIRST_SCREEN).some((line) => line.startsWith('Space only'))).toBe(true);
    }
  });

  it.each(files)('%s is measured at a place in its ranges', async (name) => {
    const at = 'setback=24,offset=0,height=2,pitch=3';
    const { status, out, err } = await berth(['gaps', `${FOLDER}/${name}`, '--at', at]);
    expect([0, 1], err).toContain(status);
    for (const line of out.split('\n')) expect(columns(line), line).toBeLessThanOrEqual(80);
  });

  it.each(files)('%s is checked', async (name) => {
    const { status, out } = await berth(['check', `${FOLDER}/${name}`]);
    expect(status, out).toBe(0);
  });
});

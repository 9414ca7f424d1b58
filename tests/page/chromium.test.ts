import { chmodSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { findChromium } from '../support/chromium.js';

const folder = mkdtempSync(join(tmpdir(), 'berth-chromium-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function program(name: string, mode = 0o755): string {
  const path = join(folder, name);
  writeFileSync(path, '');
  chmodSync(path, mode);
  return path;
}

describe('the browser of the tests', () => {
  it('is the one that is said, or the first on the path', () => {
    const chrome = program('google-chrome');
    const path = ['/nowhere', folder].join(delimiter);
    expect(findChromium({ PATH: path }, [])).toBe(chrome);
    expect(findChromium({}, [folder])).toBe(chrome);
    const chromium = program('chromium');
    expect(findChromium({ PATH: path }, [])).toBe(chromium);
    expect(findChromium({ PATH: path, BERTH_CHROMIUM: chrome }, [])).toBe(chrome);
  });

  it('is asked for plainly where there is none: no test is passed over', () => {
    expect(() => findChromium({ PATH: '/nowhere' }, [])).toThrow(/apt-get install chromium/);
    expect(() => findChromium({}, [])).toThrow(/BERTH_CHROMIUM/);
    const said = { BERTH_CHROMIUM: join(folder, 'none'), PATH: folder };
    expect(() => findChromium(said, [folder])).toThrow(/cannot be run/);
  });
});

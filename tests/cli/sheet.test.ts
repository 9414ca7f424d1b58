/** `berth sheet`: the page, the drawings alone, cuts, and what it refuses. */

import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { berth } from './world.js';
import type { Outcome } from './world.js';

const BAY = `berth: 1
title: A bay <script>alert(1)</script> & "so on"
units: in
driver: left
origin: front axle centreline, frame centre, rail top
datums:
  chassis: { front axle: { x: 0 }, frame centre: { y: 0 }, rail top: { z: 0 }, firewall face: { x: 30 } }
  engine: { block rear face: { x: 0 }, pulley face: { x: -20 } }
position: { setback: [20, 28], offset: [-1, 1], height: [0, 3], pitch: [0, 2] }
rock: 1
engine:
  block: { kind: block, box: { x: [-20, 0], y: [-8, 8], z: [-6, 14] } }
  oil filter: { kind: oil filter, cylinder: { axis: z, from: -9, to: -6, center: [-10, 6], diameter: 4 }, comes out: { z: [-2, 0] } }
chassis:
  firewall: { kind: firewall, box: { x: [30, 34], y: [-30, 30], z: [0, 25] } }
  radiator: { kind: radiator, box: { x: [-6, -4], y: [-14, 14], z: [-4, 18] }, sweep: { x: [0, 1/4] } }
  '<b>cross</b> member': { kind: crossmember, box: { x: [8, 14], y: [-14, 14], z: [-16, -12] } }
rulebook: none
worth: 4 # so that the filter stays
rules:
  - { between: [engine, chassis], gap: 1/2 }
  - { between: [oil filter, chassis], gap: 1/4, coming out: true }
choices:
  oil filter:
    on the block: {}
    remote: { remove: [oil filter], hours: 1.5, cost: 90 }
trims:
  - { part: firewall, cut: back, over: { y: [-9, 9] }, up to: 3, hours: 4, plus: { hours: 2, per: 1 in } }
`;

let folder: string;
let bay: string;
const path = (name: string) => join(folder, name);
const read = (name: string) => readFileSync(path(name), 'utf8');
const begin = () => {
  folder = mkdtempSync(join(tmpdir(), 'berth-sheet-'));
  bay = path('bay.yaml');
  writeFileSync(bay, BAY);
};
const end = () => rmSync(folder, { recursive: true, force: true });

const count = (text: string, what: RegExp) => [...text.matchAll(what)].length;
const texts = (page: string) =>
  page
    .replace(/<style>[^]*?<\/style>/g, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/&#39;/g, "'")
    .replace(/\s+/g, ' ');

describe('a sheet', () => {
  let page: string;
  let made: Outcome;
  let place: string;
  let json: { setting: { position: Record<string, number> } };
  beforeAll(async () => {
    begin();
    made = await berth(['sheet', bay, '-o', path('sheet.html'), '--svg', path('dräwings')], {
      today: '2031-02-03',
    });
    page = read('sheet.html');
    place = (await berth(['place', bay, '--all', '--plain'])).out;
    json = JSON.parse((await berth(['place', bay, '--json'])).out) as typeof json;
  });
  afterAll(end);

  /** What `place` says under a label. */
  const rest = (label: string) => {
    const lines = place.split('\n');
    const from = lines.findIndex((line) => line.startsWith(label));
    const more = lines.slice(from + 1);
    const upTo = more.findIndex((line) => !line.startsWith('          '));
    return [lines[from]!, ...more.slice(0, upTo)].map((line) => line.slice(10)).join(' ');
  };

  it('is written with the drawings beside it, and says so', () => {
    expect(made.err).toBe('');
    expect(made.status).toBe(0);
    expect(made.out.split('\n').filter((line) => line.startsWith('Written: '))).toHaveLength(4);
    expect(made.out).toContain(`Written: ${path('dräwings')}/top.svg\n`);
    expect(readdirSync(path('dräwings')).sort()).toEqual(['front.svg', 'side.svg', 'top.svg']);
    expect(readdirSync(folder).sort()).toEqual(['bay.yaml', 'dräwings', 'sheet.html']);
  });

  it('is one file with no script that loads nothing, whatever the names are', () => {
    expect(page).not.toMatch(/<script|<b>|<link|<img|@import|javascript:|src=|\son\w+=/i);
    expect(page.replaceAll('http://www.w3.org/2000/svg', '')).not.toMatch(/https?:/);
    expect(count(page, /url\((?!#berth-)/g)).toBe(0);
    expect(page).toContain("default-src 'none'");
    expect(page).toContain('&lt;script&gt;alert(1)&lt;/script&gt;');
    // Names of the drawings' hatchings and clips do not meet those of another view.
    const ids = [...page.matchAll(/ id="([^"]*)"/g)].map((found) => found[1]!);
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids.length).toBeGreaterThan(6);
  });

  it('says what `place` says: the verdict, where to set it, what to tape', () => {
    const said = texts(page);
    expect(said).toContain(place.split('\n')[0]);
    const where = rest('Set ')
      .replace(/ \(crank.*/, '')
      .split(', ');
    expect(where).toHaveLength(4);
    for (const one of where) expect(said).toContain(` ${one} `);
    const tapes = rest('Tape ').split(' | ');
    expect(tapes.length).toBeGreaterThan(1);
    for (const one of tapes) expect(said).toContain(` ${one} `);
    expect(said).toContain(rest('Search ').replace(/\d+ box.*/, ''));
    expect(said).toContain('2031-02-03');
  });

  it('has a blank for every rule and every line of the card', () => {
    const rules = /<h2>Check list: (\d+) rules/.exec(page)!;
    const [before, after] = page.split(rules[0]);
    expect(count(after!, /class="blank"/g)).toBe(Number(rules[1]));
    // setback, offset, height and pitch, then the tapes from the datums.
    const tapes = rest('Tape ')
      .split(' | ')
      .filter((one) => !one.startsWith('read'));
    const [card, built] = before!.split('<h2>As built</h2>');
    expect(count(card!, /class="blank"/g)).toBe(4 + tapes.length);
    // Every blank that is to be taped as built has its number, and its place in the file to type.
    const numbers = [...built!.matchAll(/<tr><td>(\d+)<\/td>/g)].map((found) => found[1]!);
    expect(count(built!, /class="blank"/g)).toBe(numbers.length);
    expect(numbers.length).toBeGreaterThan(5);
    const [, form] = /<pre>([^]*)<\/pre>/.exec(built!)!;
    expect([...form!.matchAll(/\((\d+)\)/g)].map((found) => found[1])).toEqual(numbers);
    // The rules that `place --all` lists.
    const [, free] = /All rules (\d+), tightest first/.exec(place)!;
    const fixed = /^Fixed {5}(\d+), whatever/m.exec(place)?.[1] ?? '0';
    expect(Number(rules[1])).toBe(Number(free) + Number(fixed));
  });

  it('tells options, trims, room to work and cautions', () => {
    const said = texts(page);
    for (const one of [
      'oil filter',
      'remote 1.5 90',
      'firewall back not cut up to 3 10',
      'oil filter comes out down',
      'Space only, not strength',
      'local codes',
      'measure this again before cutting',
    ]) {
      expect(said).toContain(one);
    }
  });

  it('draws the gaps that `gaps` measures at the setting', async () => {
    const { setback, offset, height, pitch } = json.setting.position;
    const at = `setback=${setback},offset=${offset},height=${height},pitch=${pitch}`;
    const told = await berth(['gaps', bay, '--at', at, '--json']);
    const { rules } = JSON.parse(told.out) as { rules: { gap: number; atRest: number }[] };
    const svg = read('dräwings/side.svg') + read('dräwings/top.svg') + read('dräwings/front.svg');
    const drawn = [...svg.matchAll(/ data-gap="([^"]*)" data-at-rest="([^"]*)"/g)].map((found) =>
      found.slice(1).map((mm) => Number(mm) / 25.4),
    );
    expect(drawn.length).toBeGreaterThan(2);
    for (const [gap, atRest] of drawn) {
      // Programs get inches to four decimals, rounded down.
      const same = rules.filter(
        (one) => Math.abs(one.gap - gap!) < 1.01e-4 && Math.abs(one.atRest - atRest!) < 1.01e-4,
      );
      expect(same.length).toBeGreaterThan(0);
    }
    for (const drawing of ['side', 'top', 'front']) {
      expect(page).toContain(read(`dräwings/${drawing}.svg`).trim());
    }
  });

  it('prints on both papers: text stands, drawings lie', () => {
    expect(page).toMatch(/@page \{ margin: 10mm \}/);
    expect(page).toMatch(/@page lying \{ size: landscape;/);
    // Letter is 279.4 by 215.9 mm and A4 297 by 210, 10 mm margins each.
    const [, w, h] = /<svg[^>]* width="([\d.]+)mm" height="([\d.]+)mm"/.exec(page)!;
    expect(Number(w)).toBeLessThanOrEqual(279.4 - 20);
    expect(Number(h)).toBeLessThanOrEqual(210 - 20);
    const points = [...page.matchAll(/font(?:-size)?: ([\d.]+)pt/g)].map((m) => Number(m[1]));
    expect(points.length).toBeGreaterThan(4);
    expect(Math.min(...points)).toBeGreaterThanOrEqual(10);
  });

  it('is written again over itself, for one paper if asked', async () => {
    const again = await berth(['sheet', bay, '-o', path('sheet.html'), '--paper', 'A4']);
    expect(again.status).toBe(0);
    expect(read('sheet.html')).toContain('@page lying { size: a4 landscape;');
  });
});

describe('a sheet of a bay with all that goes with an engine', () => {
  const MORE = `driveline:
  output: { at: [22, 0, 1] }
  pinion: { ride: { at: [96, 1, -4], up: 2 }, bump: { at: [95, 1, -1], up: 3 } }
  top speed: { shaft: 3000 }
  slip: { in: 2, out: 1 }
  tube: { diameter: 3, wall: 0.083 }
mock-up:
  adjusters:
    'left: front': { frame: [8, -14, -3], engine: [-16, -8, 0], thread: 5/8-11, hand: turnbuckle, range: [4, 14], now: 8 }
    right front: { frame: [8, 14, -3], engine: [-16, 8, 0], thread: 5/8-11, range: [4, 14], now: 8 }
    rear: { frame: [26, -14, -6], engine: [0, -8, 2], thread: 3/4-10, range: [4, 16], now: 11 }
mounts:
  make:
    left:
      boss: { on: block, hole: 7/16, holes: [[-11, -8, 1], [-8, -8, 1], [-11, -8, 3], [-8, -8, 3]] }
      tube: { diameter: 1 3/4, wall: 0.12 }
      base plate: { size: [5, 4], holes: [[-2, -1 1/2], [2, 1 1/2]], hole: 1/2 }
      pad: { on: left rail, at: [15, -14, 1], face: inside }
weight:
  axles: { front: 0, rear: 110 }
  before: { front: 1900 lb }
  out: { old engine: { weight: 600 lb, at: [6, 0, 4] } }
  in: { engine: { weight: 550 lb, at: [-11, 0, 4], side: engine } }
`;
  const AT = 'setback=24,offset=0,height=1,pitch=1';
  const PINNED = 'position: { setback: 24, offset: 0, height: 1, pitch: 1 }';
  const RAIL = 'chassis:\n  left rail: { box: { x: [-10, 60], y: [-18, -14], z: [-4, 4] } }';
  const whole = BAY.replace(/position: .*/, PINNED).replace(/^chassis:/m, RAIL) + MORE;
  let page: string;
  beforeAll(async () => {
    begin();
    writeFileSync(bay, whole);
    const made = await berth(['sheet', bay, '-o', path('s.html')]);
    expect(made.err).toBe('');
    page = read('s.html');
  });
  afterAll(end);

  const part = (heading: string) =>
    page.slice(page.indexOf(`<h2>${heading}</h2>`)).split('<h2>')[1]!;
  const wordsOf = (heading: string) =>
    texts(part(heading)).replaceAll('&lt;', '<').replaceAll('&gt;', '>');
  /** Every word of a report from a label on, as the page has it. */
  const said = (out: string, label: RegExp) => {
    const from = out.slice(out.search(label)).split('\n');
    const upTo = from.slice(1).findIndex((line) => !line.startsWith('          '));
    return from
      .slice(0, upTo + 1)
      .map((line) => line.slice(10))
      .join(' ');
  };

  it('says what `driveline` says, joint by joint', async () => {
    const { out } = await berth(['driveline', bay, '--plain', '--at', AT]);
    const told = wordsOf('Driveline');
    expect(told).toContain(out.split('\n')[0]!);
    for (const label of [/^Allowed/m, /^Pinion/m, /^Length/m, /^Speed/m, /^Ripple/m]) {
      expect(told).toContain(said(out, label));
    }
    const cells = out.split('\n').filter((line) => /^ {2}.*(front|pinion) {2,}\d/.test(line));
    expect(cells).toHaveLength(4);
    for (const row of cells) {
      // Beside the true angle, the last number before the length, the page has what it may be.
      const [, upTo, length = ''] = /^(.*? \d+\.\d)((?: {2,}[\d /]+)?)$/.exec(row.trimEnd())!;
      const [before, after] = [upTo!, length].map((text) => text.trim().replace(/\s+/g, ' '));
      const may = told.slice(told.indexOf(before!) + before!.length);
      expect(may).toMatch(/^ (\d\.\d to )?\d\.\d/);
      expect(may.replace(/^ (\d\.\d to \d\.\d|\d\.\d at most) /, '')).toMatch(
        new RegExp(`^${after!}`),
      );
    }
    expect(told).toContain('Space only, not strength.');
  });

  it('has the card of the mock-up, in the order that `mockup` has', async () => {
    const { out } = await berth(['mockup', bay, '--plain', '--at', AT]);
    const told = wordsOf('Mock-up adjusters');
    expect(told).toContain(out.split('\n')[0]!);
    for (const row of out.split('\n').filter((line) => / (longer|shorter) +[-+\d]/.test(line))) {
      expect(told).toContain(row.trim().replace(/\s+/g, ' '));
    }
    const moves = said(out, /^Order/m).split('; ');
    expect(moves.length).toBeGreaterThan(1);
    const items = [...part('Mock-up adjusters').matchAll(/<li>([^<]*)<\/li>/g)];
    expect(items.map(([, move], i) => `${i + 1} ${move!}`)).toEqual(moves);
    expect(told).toContain('Keep the hoist on');
  });

  it('tells what the front axle carries', async () => {
    const { out } = await berth(['gaps', bay, '--plain', '--at', AT]);
    expect(said(out, /^Axle/m)).toMatch(/^front 1,900 lb before/);
    expect(texts(page)).toContain(said(out, /^Axle/m));
  });

  it('has the mounts that `mounts` works out, and the patterns that a page takes, at full size', async () => {
    const argv = ['mounts', bay, '--plain', '--at', AT, '-o', path('patterns')];
    const { out } = await berth(argv);
    const told = wordsOf('Mounts');
    expect(told).toContain(out.split('\n')[0]!);
    expect(told).toContain(said(out, /^Cut /m));
    const upToCut = out.slice(0, out.search(/^Cut /m));
    const rows = upToCut.split('\n').filter((line) => /^left {2}/.test(line));
    expect(rows).toHaveLength(2);
    for (const row of rows) expect(told).toContain(row.trim().replace(/\s+/g, ' '));
    const carried = out
      .slice(out.search(/^Loads /m))
      .split('\n')
      .find((line) => /^left {2}/.test(line));
    expect(told).toContain(carried!.trim().replace(/\s+/g, ' '));
    expect(told).toContain('Forces alone, no strength: 550 lb');
    expect(told).toContain('Never work under a hanging engine.');
    const files = readdirSync(path('patterns')).filter((file) => file.endsWith('.svg'));
    expect(files.length).toBeGreaterThan(2);
    const patterns = part('Patterns of the mounts, full size');
    let shown = 0;
    for (const file of files) {
      const svg = read(`patterns/${file}`);
      const [wide, tall] = [/ width="([\d.]+)in"/, / height="([\d.]+)in"/].map((size) =>
        Number(size.exec(svg)![1]),
      );
      const fits = wide! * 25.4 <= 190 && tall! * 25.4 <= 257;
      if (fits) shown++;
      const own = svg.slice(svg.indexOf('<rect')).trim();
      expect(patterns.includes(own), file).toBe(fits);
      expect(texts(patterns).includes(/<title>([^<]*)</.exec(svg)![1]!), file).toBe(true);
    }
    expect(shown).toBeGreaterThan(1);
    expect(count(patterns, /class="pattern"/g)).toBe(shown);
    // A pattern's own style would be every drawing's.
    expect(count(page, /<style>/g)).toBe(
      count(page.split('Patterns of the mounts')[0]!, /<style>/g),
    );
  });

  it('has a file of readings that `asbuilt` reads: what should be read puts it where it is meant', async () => {
    const values = new Map<string, string>();
    for (const [, row] of part('Mock-up adjusters').matchAll(/<tr>(.*?)<\/tr>/g)) {
      const number = /class="blank">(\d+)</.exec(row!)?.[1];
      const cells = [...row!.matchAll(/<td>([^<]*)<\/td>/g)];
      if (number !== undefined) values.set(number, cells[2]![1]!);
    }
    for (const [, number, read] of part('As built').matchAll(
      /<tr><td>(\d+)<\/td><td>[^<]*<\/td><td>[^<]*<\/td><td>(-?[\d ./]*\d)[^<]*<\/td>/g,
    )) {
      values.set(number!, read!);
    }
    const [, form] = /<pre>([^]*)<\/pre>/.exec(page)!;
    const plain = form!
      .replaceAll('&quot;', '"')
      .replaceAll('&lt;', '<')
      .replaceAll('&gt;', '>')
      .replaceAll('&amp;', '&');
    let filled = 0;
    const typed = plain.replace(/\((\d+)\)/g, (_, number: string) => {
      filled++;
      return values.get(number)!;
    });
    expect(filled).toBe(values.size);
    expect(filled).toBeGreaterThan(9);
    writeFileSync(path('readings.yaml'), typed);
    const argv = ['asbuilt', bay, '--measured', path('readings.yaml'), '--at', AT, '--plain'];
    const { out, err } = await berth(argv);
    expect(err).toBe('');
    expect(out).toMatch(/^(GO ON|SET IT AGAIN|IN DOUBT)\./);
    expect(out).toContain('Off by    nothing that can be told');
    expect(out).not.toMatch(/Left out|At odds|Not used/);
  });
});

describe('a sheet with cuts', () => {
  beforeEach(begin);
  afterEach(end);

  it('shows what is cut off, says it, and places the engine with it', async () => {
    const argv = ['sheet', bay, '-o', path('s.html'), '--cut', 'firewall=1 1/2'];
    const made = await berth(argv);
    expect(made.err).toBe('');
    const page = read('s.html');
    expect(count(page, /class="removed"/g)).toBe(3);
    const said = texts(page);
    expect(said).toContain('cut 1: firewall 1 1/2 back');
    expect(said).toContain('firewall back cut 1 1/2 up to 3');
    expect(said).not.toContain('cut nothing');
    expect(said).toContain('Measure every cut again before cutting.');
    // 4 h and 1 1/2 times 2 h.
    expect(said).toContain('7 h');
  });

  it('tells a bay that does not fit as the least bad place', async () => {
    writeFileSync(
      bay,
      BAY.replace('box: { x: [-6, -4]', 'box: { x: [2, 6]').replace('[20, 28]', '[20, 22]'),
    );
    const made = await berth(['sheet', bay, '-o', path('s.html')]);
    expect(made.status).toBe(1);
    const said = texts(read('s.html'));
    expect(said).toContain('DOES NOT FIT.');
    expect(said).toContain('this is the least bad place');
  });
});

describe('a sheet is refused', () => {
  beforeEach(begin);
  afterEach(end);

  const refused = async (argv: readonly string[], ...words: string[]) => {
    const made = await berth(['sheet', bay, ...argv]);
    expect(made.status).toBe(2);
    for (const word of words) expect(made.err).toContain(word);
  };

  it('with nothing to write, or over the scenario, or over what is not ours', async () => {
    await refused([], 'needs the name of the page');
    await refused(['-o', bay, '--force'], 'the scenario itself');
    expect(readFileSync(bay, 'utf8')).toBe(BAY);
    writeFileSync(path('mine.html'), 'my notes');
    await refused(['-o', path('mine.html')], 'is there already');
    expect(read('mine.html')).toBe('my notes');
    await refused(['--svg', path('mine.html')], 'no folder');
    await refused(['-o', path('no/such/sheet.html')], 'no such folder');
    expect(readdirSync(folder).sort()).toEqual(['bay.yaml', 'mine.html']);
    const forced = await berth(['sheet', bay, '-o', path('mine.html'), '--force']);
    expect(forced.status).toBe(0);
    expect(read('mine.html')).toContain('<!doctype html>');
  });

  it('for a paper, a trim or a depth that is not there', async () => {
    const out = ['-o', path('s.html')];
    await refused([...out, '--paper', 'legal'], "no 'legal'", 'letter or a4');
    await refused([...out, '--cut', 'radiator=1'], "no trim 'radiator'");
    await refused([...out, '--cut', 'firewal=1'], 'nearest', 'firewall');
    await refused([...out, '--cut', 'firewall=4'], '3 in at most');
    await refused([...out, '--cut', 'firewall=1', '--cut', 'firewall back=2'], 'twice');
    await refused([...out, '--keep', '1/4'], '--keep needs --aim');
    await refused([...out, '--time-limit', 'soon'], '--time-limit');
    expect(existsSync(path('s.html'))).toBe(false);
  });
});

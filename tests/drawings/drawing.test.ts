import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { drawingsOf } from '../../src/drawings/drawing.js';
import type { Drawing } from '../../src/drawings/drawing.js';
import type { Subject } from '../../src/drawings/subject.js';
import { onPaper, viewOf } from '../../src/drawings/view.js';
import { firstOptions } from '../../src/model/options.js';
import { readScenario } from '../../src/model/read.js';
import type { Scenario, Vec3 } from '../../src/model/scenario.js';
import { measureAt } from '../../src/solver/measuring/measure.js';
import { seeded } from '../geometry/random.js';
import { scenarioOf } from '../support/doc.js';
import type { BayDoc } from '../support/doc.js';
import { randomBay } from '../support/random-bays.js';

const ROOM = new URL('../../scenarios/', import.meta.url);
const files = readdirSync(ROOM).filter((name) => name.endsWith('.yaml'));
const read = (name: string): Scenario =>
  readScenario(readFileSync(new URL(name, ROOM), 'utf8'), 'yaml').scenario!;

/** Drawn at the middle of the ranges, which is as good a place to draw as any. */
function subjectOf(scenario: Scenario, set = firstOptions(scenario)): Subject {
  const of = ({ min, max }: { min: number; max: number }) => (min + max) / 2;
  const { setback, offset, height, pitch } = scenario.position;
  const position = {
    setback: of(setback),
    offset: of(offset),
    height: of(height),
    pitch: of(pitch),
  };
  const standing = measureAt(scenario, set, position);
  return {
    scenario,
    set,
    standing,
    units: scenario.units,
    options: 'as it stands',
    date: '2026-03-01',
  };
}

/** No text over another, none off the paper. */
function expectApart({ texts, size: [width, height], view }: Drawing, of: string): void {
  texts.forEach(({ text, box }, i) => {
    const inside = box.x >= 0 && box.y >= 0 && box.x + box.w <= width && box.y + box.h <= height;
    expect(inside, `${of} ${view}: '${text}' falls outside`).toBe(true);
    for (const other of texts.slice(i + 1)) {
      const b = other.box;
      const apart =
        box.x + box.w <= b.x || b.x + b.w <= box.x || box.y + box.h <= b.y || b.y + b.h <= box.y;
      expect(apart, `${of} ${view}: '${text}' over '${other.text}'`).toBe(true);
    }
  });
}

const numbers = (svg: string, attribute: string): string[] =>
  [...svg.matchAll(new RegExp(` ${attribute}="([^"]*)"`, 'g'))].map((found) => found[1]!);

describe('drawings', () => {
  it.each(files)(
    'of %s keep every text apart and on the paper, under the first and last options',
    (name) => {
      const scenario = read(name);
      for (const set of [
        firstOptions(scenario),
        scenario.choices.map(({ options }) => options.length - 1),
      ]) {
        for (const drawing of drawingsOf(subjectOf(scenario, set)).views) {
          expect(drawing.texts.length).toBeGreaterThan(40);
          expectApart(drawing, name);
        }
      }
    },
  );

  it('of a hundred random bays keep every text apart and on the paper', () => {
    let labels = 0;
    for (let seed = 1; seed <= 100; seed++) {
      const scenario = scenarioOf(randomBay({ random: seeded(seed * 577) }));
      const { views, dimensions } = drawingsOf(subjectOf(scenario));
      for (const drawing of views) expectApart(drawing, `bay ${seed}`);
      // Every gap chosen is drawn, with its label.
      for (const { letter, views: shown } of dimensions) {
        for (const view of shown) {
          const { svg, texts } = views.find((one) => one.view === view)!;
          expect(numbers(svg, 'data-letter')).toContain(letter);
          expect(texts.some(({ text }) => text.startsWith(`${letter}  `))).toBe(true);
          labels++;
        }
      }
    }
    expect(labels).toBeGreaterThan(600);
  });

  it.each(files)('of %s carry the sizes that the solver measured, to the last digit', (name) => {
    const subject = subjectOf(read(name));
    const { views, dimensions } = drawingsOf(subject);
    const tightest = subject.standing.readings.filter(({ fixed }) => !fixed)[0]!;
    expect(dimensions[0]!.reading.margin).toBe(tightest.margin);
    const seen = new Set<string>();
    for (const { svg, view, scale } of views) {
      const letters = numbers(svg, 'data-letter');
      const of = (attribute: string) => numbers(svg, attribute);
      letters.forEach((letter, i) => {
        seen.add(letter);
        const [first, second] = [of('data-first')[i]!, of('data-second')[i]!];
        const readings = subject.standing.readings.filter(
          ({ between }) => between[0] === first && between[1] === second,
        );
        const reading = readings.find(({ gap }) => String(gap) === of('data-gap')[i])!;
        expect(reading).toBeDefined();
        expect(Number(of('data-at-rest')[i])).toBe(reading.atRest);
        expect(Number(of('data-needed')[i])).toBe(reading.needed);
        // The places it is drawn between are as far apart, and the view sees that at its full size.
        const [from, to] = ['data-from', 'data-to'].map(
          (attribute) => of(attribute)[i]!.split(' ').map(Number) as unknown as Vec3,
        );
        const between = from!.map((v, k) => v - to![k]!);
        if (reading.measured === 'nearest' && reading.atRest > 0) {
          expect(Math.abs(Math.hypot(...between) - reading.atRest)).toBeLessThan(2e-3);
          const [u, v] = onPaper(viewOf(view), between);
          expect(Math.hypot(u, v)).toBeGreaterThan(0.81 * reading.atRest);
        }
      });
      expect(scale).toMatch(/^1:\d+(\.\d)?$/);
    }
    expect([...seen].sort()).toEqual(dimensions.map(({ letter }) => letter).sort());
  });

  it('are to scale: a box is as many times smaller on the paper as the drawing says', () => {
    const doc: BayDoc = {
      units: 'mm',
      position: { setback: [0, 0], offset: [0, 0], height: [0, 0], pitch: [0, 0] },
      engine: { block: { box: { x: [0, 500], y: [-150, 150], z: [0, 400] } } },
      chassis: { wall: { box: { x: [560, 580], y: [-300, 300], z: [0, 500] } } },
      rules: [{ between: ['engine', 'chassis'], gap: 20 }],
    };
    const [side] = drawingsOf(subjectOf(scenarioOf(doc))).views;
    const scale = Number(side!.scale.slice(2));
    const paths = [...side!.svg.matchAll(/<path d="([^"]*)" fill="#fff"/g)];
    const xs = [...paths[0]![1]!.matchAll(/[ML]([\d.]+) ([\d.]+)/g)].map((m) => Number(m[1]));
    expect(Math.abs(Math.max(...xs) - Math.min(...xs) - 500 / scale)).toBeLessThan(0.011);
    expect(numbers(side!.svg, 'data-at-rest')).toEqual(['60']);
  });

  it('write no name that a file gives as markup, and cut one that would fill the page', () => {
    const evil = '<script>alert("x")</script> & \'q\'';
    const long = 'very '.repeat(60) + 'long';
    const doc: BayDoc = {
      units: 'mm',
      position: { setback: [0, 0], offset: [0, 0], height: [0, 0], pitch: [0, 0] },
      engine: { [evil]: { box: { x: [0, 500], y: [-150, 150], z: [0, 400] } } },
      chassis: { [long]: { box: { x: [560, 580], y: [-300, 300], z: [0, 500] } } },
      rules: [{ between: ['engine', 'chassis'], gap: 20 }],
      datums: { chassis: { '<b>\u202e\u0007zero</b>': { x: 0 } } },
    };
    const scenario = { ...scenarioOf(doc), title: `]]></title>${evil}` };
    const { views } = drawingsOf({ ...subjectOf(scenario), options: `<i>${long}</i>` });
    for (const drawing of views) {
      expect(drawing.svg).not.toMatch(/<script|<b>|<i>|\u202e|\u0007/);
      expect(drawing.svg).toContain('&lt;script&gt;');
      expectApart(drawing, 'hostile names');
    }
  });

  it('hatch the pair that binds, and draw what is cut off and what moves', () => {
    const doc: BayDoc = {
      units: 'mm',
      position: { setback: [0, 0], offset: [0, 0], height: [0, 0], pitch: [0, 0] },
      rock: 2,
      engine: { block: { box: { x: [0, 500], y: [-150, 150], z: [0, 400] } } },
      chassis: {
        wall: { box: { x: [560, 600], y: [-300, 300], z: [0, 500] } },
        arm: { box: { x: [700, 760], y: [-50, 50], z: [0, 50] }, sweep: { z: [0, 30] } },
      },
      rules: [{ between: ['engine', 'chassis'], gap: 20 }],
    };
    const [side, , front] = drawingsOf(subjectOf(scenarioOf(doc))).views;
    expect(side!.svg).toMatch(/fill="url\(#berth-side-first\)"/);
    expect(side!.svg).toMatch(/fill="url\(#berth-side-second\)"/);
    expect(front!.svg.match(/class="motion"/g)).toHaveLength(2);
    expect(side!.svg).not.toContain('class="removed"');
    expect(side!.texts.map(({ text }) => text)).toContain('in motion');
  });

  it('use no text under 10 pt, and no colour but black and white', () => {
    for (const { svg, size } of drawingsOf(subjectOf(read(files[0]!))).views) {
      expect(svg).toContain(`width="${size[0]}mm"`);
      const sizes = numbers(svg, 'font-size').map(Number);
      expect(sizes.length).toBeGreaterThan(1);
      // A point is 25.4 / 72 mm.
      for (const mm of sizes) expect(mm).toBeGreaterThanOrEqual((10 * 25.4) / 72);
      const colours = new Set(svg.match(/#[0-9a-f]{3,6}"/g));
      expect([...colours].sort()).toEqual(['#000"', '#fff"']);
    }
  });
});

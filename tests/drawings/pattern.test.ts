/** Flat patterns on paper: full size whatever the units, told apart by line, and safe to open. */

import { describe, expect, it } from 'vitest';
import { patternDrawing } from '../../src/drawings/pattern.js';
import { boundsOf, patternsOf } from '../../src/geometry/mounts/patterns.js';
import { mountAt } from '../../src/geometry/mounts/standing.js';
import { AT_HOME, UPRIGHT } from '../geometry/mounts/random-mounts.js';

const GUSSETS = { count: 3, ends: ['base'], onPlate: 30, onTube: 40, thick: 6, first: 0 } as const;
const patterns = () => patternsOf(mountAt({ ...UPRIGHT, gussets: GUSSETS }, AT_HOME).pieces!);
const numbers = (path: string): number[] => [...path.matchAll(/-?[\d.]+/g)].map(Number);
const pathsOf = (svg: string, sort: string): number[][] =>
  [...svg.matchAll(new RegExp(`<path d="([^"]*)" class="${sort}"`, 'g'))].map(([, d]) =>
    numbers(d!),
  );

describe('a pattern on paper', () => {
  it.each(['in', 'mm'] as const)('is drawn one to one in %s', (units) => {
    const per = units === 'in' ? 25.4 : 1;
    for (const pattern of patterns()) {
      const { svg, size } = patternDrawing(pattern, 'left', units);
      const [, wide, tall, boxWide, boxTall] =
        /width="([\d.]+)(?:in|mm)" height="([\d.]+)(?:in|mm)" viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(
          svg,
        )!;
      expect(svg).toContain(`width="${wide!}${units}"`);
      expect(Number(wide) * per).toBeCloseTo(Number(boxWide), 3);
      expect(Number(tall) * per).toBeCloseTo(Number(boxTall), 3);
      expect(Number(boxWide)).toBeCloseTo(size[0], 3);
      const cut = pathsOf(svg, 'cut');
      expect(cut.length).toBe(pattern.cut.length);
      const xs = cut.flat().filter((_, i) => i % 2 === 0);
      const ys = cut.flat().filter((_, i) => i % 2 === 1);
      const [[left, right], [low, high]] = boundsOf(pattern);
      expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(right - left, 3);
      expect(Math.max(...ys) - Math.min(...ys)).toBeCloseTo(high - low, 3);
      expect(Math.min(...xs, ...ys)).toBeGreaterThan(0);
      // As it is, not turned over: paper's y runs down.
      const points = pattern.cut.flatMap((run) => run.points);
      points.forEach(([x, y], i) => {
        expect(xs[i]! - x).toBeCloseTo(xs[0]! - points[0]![0], 3);
        expect(ys[i]! + y).toBeCloseTo(ys[0]! + points[0]![1], 3);
      });
      expect(Math.max(...xs)).toBeLessThan(size[0]);
      expect(Math.max(...ys)).toBeLessThan(size[1]);
      expect(pathsOf(svg, 'scribe').length).toBe(pattern.scribe.length);
      expect([...svg.matchAll(/class="scribe" [^>]*dasharray/g)].length).toBe(
        pattern.scribe.length,
      );
      expect(svg).not.toMatch(/class="cut" [^>]*dasharray/);
      expect([...svg.matchAll(/<circle class="hole"/g)].length).toBe(pattern.holes.length);
      const check = /<path class="check" d="[^"]*M([\d.]+) [\d.]+H([\d.]+)/.exec(svg)!;
      expect(Number(check[2]) - Number(check[1])).toBeCloseTo(units === 'in' ? 101.6 : 100, 3);
    }
  });

  it('says what it is, of what, and which way up', () => {
    const [base, upper, wrap, gusset] = patterns().map(
      (one) => patternDrawing(one, 'left', 'mm').svg,
    );
    expect(base).toMatch(/left base plate.*1 off, 6 mm plate; seen from the tube\..*Holes: 12 mm/s);
    expect(base).toContain('>right of vehicle<');
    expect(upper).toContain('left upper plate');
    expect(wrap).toMatch(/round 50 mm tube, printed side out\..*0 along the front of the tube/s);
    expect([...wrap!.matchAll(/>(\d+)<\/text>/g)].map(([, mark]) => Number(mark))).toEqual(
      Array.from({ length: 12 }, (_, i) => i),
    );
    expect(gusset).toMatch(
      /left gussets 1, 2, 3, base plate.*3 off, 6 mm plate.*Corner 90\.0 deg/s,
    );
    for (const svg of [base, upper, wrap, gusset]) expect(svg).toContain('local codes');
  });

  it('holds names from anyone', () => {
    const { svg } = patternDrawing(patterns()[0]!, '<script>"&\u0000\u202e', 'in');
    expect(svg).toContain('&lt;script&gt;&quot;&amp; base plate');

    expect(svg).not.toMatch(/<script|[\u0000\u202e]/);
  });
});

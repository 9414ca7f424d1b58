import { describe, expect, it } from 'vitest';
import { Labels } from '../../src/drawings/labels.js';
import type { Box } from '../../src/drawings/labels.js';
import { scaleBar, scaleWords, usualScale } from '../../src/drawings/scale.js';
import { escaped, fitted, textWidth, wrapped } from '../../src/drawings/text.js';
import { between, seeded } from '../geometry/random.js';

describe('labels', () => {
  it('stay apart and inside when there are more than a field holds, and use what room there is', () => {
    const field: Box = { x: 10, y: 20, w: 120, h: 60 };
    const random = seeded(9);
    const labels = new Labels(field);
    let refused = 0;
    for (let k = 0; k < 200; k++) {
      // All about one corner, where there is soon no room.
      const anchor = [between(random, 10, 40), between(random, 20, 40)] as const;
      if (labels.place(11, 5, anchor) === undefined) refused++;
    }
    const boxes = labels.placed.map(({ box }) => box);
    expect(boxes.length + refused).toBe(200);
    // A tight grid would hold 12 by 11 of them.
    expect(boxes.length).toBeGreaterThan(70);
    boxes.forEach((a, i) => {
      expect(a.x >= 10 && a.y >= 20 && a.x + a.w <= 130 && a.y + a.h <= 80).toBe(true);
      for (const b of boxes.slice(i + 1)) {
        const apart = a.x + a.w <= b.x || b.x + b.w <= a.x || a.y + a.h <= b.y || b.y + b.h <= a.y;
        expect(apart).toBe(true);
      }
    });
  });

  it('keep off what is drawn where that can be had', () => {
    const labels = new Labels({ x: 0, y: 0, w: 100, h: 100 });
    for (let y = 0; y < 50; y++) labels.drawn([0, y], [100, y], 4);
    const { box } = labels.placeNear(12, 5, [50, 48])!;
    expect(box.y).toBeGreaterThanOrEqual(49);
    expect(labels.covers([box.x + 1, box.y + 1])).toBe(true);
    expect(labels.covers([1, 1])).toBe(false);
  });
});

describe('scales', () => {
  it('are usual ones, and the largest that fits', () => {
    expect(usualScale([2000, 500], [250, 100])).toBe(8);
    expect(usualScale([2001, 500], [250, 100])).toBe(10);
    expect(usualScale([100, 801], [250, 100])).toBe(10);
    expect(usualScale([250, 100], [250, 100])).toBe(1);
    expect(scaleWords(usualScale([100, 10], [250, 100]))).toBe('2:1');
    expect(scaleWords(usualScale([3100, 10], [250, 100]))).toBe('1:15');
  });

  it('have a bar as long on paper as it says', () => {
    expect(scaleBar(8, 'in', 45)).toEqual({ words: '12 in', paper: (12 * 25.4) / 8, parts: 3 });
    expect(scaleBar(10, 'mm', 45)).toMatchObject({ words: '200 mm', paper: 20 });
  });
});

describe('text on a drawing', () => {
  it('is escaped, and has nothing in it that turns or stacks', () => {
    expect(escaped('<a href="x">&\'')).toBe('&lt;a href=&quot;x&quot;&gt;&amp;&#39;');
    expect(escaped('a\u0000b\u202ec\ud800d\ufeff')).toBe('abcd');
    expect(escaped('z\u0335\u0336\u0337\u0335 \t\n x')).toBe('z x');
  });

  it('is cut to a width, and broken into no more lines than asked', () => {
    const long = 'front crossmember of the left side';
    const cut = fitted(long, 30);
    expect(cut.endsWith('…')).toBe(true);
    expect(textWidth(cut)).toBeLessThanOrEqual(30);
    expect(fitted(long, 300)).toBe(long);
    const lines = wrapped(long.repeat(5), 60, 2);
    expect(lines).toHaveLength(2);
    for (const line of lines) expect(textWidth(line)).toBeLessThanOrEqual(60);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fold, list, print, whole } from '../../src/cli/report/lines.js';
import { clean, columns, fit, name, PLAIN_LOOK, wrap } from '../../src/words/text.js';
import type { Look } from '../../src/words/text.js';

const RICH: Look = { width: 80, plain: false, colour: false };

/** What a terminal could act on, or a reader be fooled by. */

const DANGEROUS = /[\u0000-\u001f\u007f-\u009f\u200b-\u200f\u202a-\u202e\u2066-\u2069]/;

describe('cleaning', () => {
  it.each([
    ['fan\u001b[31m red\u001b[0m', 'fan red'],
    ['\u001b]0;title\u0007fan', 'fan'],
    ['fan\r\nradiator\tcore', 'fan radiator core'],
    ['\u009b2Jfan', 'fan'],
    ['abc\u202edef\u200b', 'abcdef'],
    ['a\u0000b\u0008c', 'abc'],
    ['z\u0300\u0301\u0302algo', 'zalgo'],
  ])('%j becomes %j', (text, safe) => {
    expect(clean(text, RICH)).toBe(safe);
  });

  it('leaves only ASCII where asked', () => {
    expect(clean('Kühler – “Fächer” …', PLAIN_LOOK)).toBe('Kuhler - "Facher" ...');
    expect(clean('風扇', PLAIN_LOOK)).toBe('??');
  });

  it('keeps letters of other languages otherwise', () => {
    expect(clean('Kühler 風扇', RICH)).toBe('Kühler 風扇');
    expect(columns('Kühler 風扇')).toBe(11);
  });

  it('leaves nothing a terminal would act on, whatever the text', () => {
    const nasty = fc.string({
      unit: fc.oneof(
        fc.constantFrom('\u001b', '[', ']', 'm', ';', '\u0007', '\u202e'),
        fc.string(),
      ),
    });
    fc.assert(
      fc.property(nasty, (text) => {
        expect(clean(text, RICH)).not.toMatch(DANGEROUS);
        expect(clean(text, PLAIN_LOOK)).toMatch(/^[\x20-\x7e]*$/);
      }),
      { numRuns: 1000 },
    );
  });
});

describe('fitting', () => {
  it('cuts with an ellipsis that the look has', () => {
    expect(fit('front crossmember', 10, RICH)).toBe('front cro…');
    expect(fit('front crossmember', 10, PLAIN_LOOK)).toBe('front c...');
    expect(fit('fan', 10, RICH)).toBe('fan');
    expect(name(' \u0000 ', RICH)).toBe('(no name)');
  });

  it('never exceeds the width, wrapped or cut, and wrapping loses no letter', () => {
    let broken = 0;
    fc.assert(
      fc.property(
        fc.string({ unit: fc.constantFrom(...'abcde 風é-'), maxLength: 300, size: 'max' }),
        fc.integer({ min: 2, max: 40 }),
        (raw, width) => {
          const text = clean(raw, RICH);
          expect(columns(fit(text, width, RICH))).toBeLessThanOrEqual(width);
          const lines = wrap(text, width);
          if (lines.length > 1) broken++;
          for (const line of lines) expect(columns(line)).toBeLessThanOrEqual(width);
          expect(lines.join('').replaceAll(' ', '')).toBe(text.replaceAll(' ', ''));
        },
      ),
      { numRuns: 500 },
    );
    expect(broken).toBeGreaterThan(50);
  });
});

describe('a list of pieces', () => {
  const pieces = ['one piece', 'another piece', 'a third piece of it', 'the fourth piece'];

  it('breaks between pieces and says how many it leaves out', () => {
    const narrow: Look = { ...RICH, width: 40 };
    const section = list('Do', pieces, '; ', narrow);
    expect(section.lines.map((line) => line.text)).toEqual([
      'one piece; another piece;',
      'a third piece of it;',
      'the fourth piece',
    ]);
    expect(section.shorter!(1).map((line) => line.text)).toEqual(['one piece; 3 more']);
    expect(section.lines.every((line) => columns(line.text) <= 30)).toBe(true);
  });

  it('is shortened before what yields later, and no further than it can', () => {
    const a = list('A', Array<string>(20).fill('a piece of some length'), ', ', RICH, {
      least: 2,
      yields: 1,
    });
    const b = list('B', Array<string>(20).fill('a piece of some length'), ', ', RICH, {
      least: 1,
      yields: 2,
    });
    const fixed = whole([{ label: 'C', text: 'stays' }]);
    const full = a.lines.length + b.lines.length + 1;
    const { shown, cut } = fold([b, a, fixed], full - 1);
    expect(shown.length).toBe(full - 1);
    expect(cut).toEqual([a]);
    expect(fold([b, a, fixed], 4).shown.length).toBe(4);
    expect(fold([b, a, fixed], 1).shown.length).toBe(4);
    expect(fold([b, a, fixed], full).cut).toEqual([]);
  });
});

describe('printing', () => {
  it('colours labels only where the look has colour', () => {
    const lines = [
      { label: 'FITS.', text: 'Proved.', tone: 'good' } as const,
      { label: 'Set', text: 'x' },
    ];
    expect(print(lines, RICH)).toBe('FITS. Proved.\nSet       x\n');
    expect(print(lines, { ...RICH, colour: true })).toContain('\u001b[');
    expect(print(lines, { ...RICH, colour: true, plain: true })).not.toContain('\u001b');
  });
});

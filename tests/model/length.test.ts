import fc from 'fast-check';
import { all, create } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { MAX_LENGTH_MM, parseAngle, parseLength } from '../../src/model/text/length.js';

const mm = (text: string | number, unit: 'in' | 'mm' = 'in') => {
  const length = parseLength(text, unit);
  return 'mm' in length ? length.mm : length.problem;
};

describe('lengths as a person writes them', () => {
  // 1 in = 25.4 mm exactly, NIST SP 811; the millimetres are worked out by hand from it.
  it.each<[string | number, number]>([
    ['3/8', 9.525],
    ['3 5/8', 92.075],
    ['19-1/4', 488.95],
    ['19-1/4"', 488.95],
    ["2'", 609.6],
    ['2 ft', 609.6],
    ['2 ft 3 in', 685.8],
    [`2'-3 1/2"`, 698.5],
    [`2' 3"`, 685.8],
    ['490 mm', 490],
    ['49 cm', 490],
    ['0.49 m', 490],
    ['3/8 in', 9.525],
    ['-3 5/8', -92.075],
    ['-2 ft 3 in', -685.8],
    ['- 3', -76.2],
    ['+3', 76.2],
    ['.5', 12.7],
    ['1e-1', 2.54],
    [0.1, 2.54],
    [1e-3, 0.0254],
    ['3 5/8 INCHES', 92.075],
    ['3\u00bd', 88.9],
    ['\u22121/2', -12.7],
    ['0', 0],
    ['-0', 0],
  ])('reads %s', (text, expected) => {
    expect(mm(text)).toBe(expected);
  });

  it('takes numbers without a unit in the unit of the file', () => {
    expect(mm('3 5/8', 'mm')).toBe(3.625);
    expect(mm(12, 'mm')).toBe(12);
    expect(mm('1 in', 'mm')).toBe(25.4);
  });

  it.each([
    '',
    'in',
    'abc',
    '--3',
    '4:30',
    '2024-01-01',
    '3 9/8',
    '1/0',
    '3/0',
    '19 - 1/4',
    '3 -5/8',
    '2 ft 3',
    '10 mm 3 in',
    '3 furlong',
    '3 in 2 ft',
    '1e99',
    '1e-99',
    'NaN',
    'Infinity',
    '3 + 4',
    'sqrt(4)',
    '2 * 3 in',
    '9'.repeat(70),
    NaN,
    Infinity,
    1e300,
  ])('refuses %s', (text) => {
    expect(typeof mm(text)).toBe('string');
  });

  it('stops at a kilometre', () => {
    expect(mm(MAX_LENGTH_MM, 'mm')).toBe(MAX_LENGTH_MM);
    expect(typeof mm(MAX_LENGTH_MM + 1, 'mm')).toBe('string');
  });

  it('reads back any 64th exactly, in every way of writing it', () => {
    let counted = 0;
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 300 }),
        fc.integer({ min: 1, max: 63 }),
        fc.boolean(),
        fc.constantFrom(' ', '-'),
        fc.constantFrom('', ' in', '"', ' inches'),
        (whole, over, negative, join, unit) => {
          const written = `${negative ? '-' : ''}${whole > 0 ? `${whole}${join}` : ''}${over}/64${unit}`;
          // 25.4 / 64 = 127 / 320 mm: whole numbers on top, so that one rounding is left.
          const exact = ((whole * 64 + over) * 127) / 320;
          expect(mm(written)).toBe(negative ? -exact : exact);
          counted++;
        },
      ),
      { numRuns: 1000 },
    );
    expect(counted).toBe(1000);
  });

  it('gives feet and inches, inches and decimals the same length', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 20 }), fc.integer({ min: 0, max: 11 }), (ft, inch) => {
        expect(mm(`${ft} ft ${inch} in`)).toBe(mm(String(ft * 12 + inch)));
        expect(mm(`${ft}' ${inch}"`)).toBe(mm(ft * 12 + inch));
      }),
      { numRuns: 200 },
    );
  });

  it('is right where a general reader of units goes wrong', () => {
    const general = create(all!);
    expect(String(general.evaluate('19-1/4 in'))).toBe('18.75 in');
    expect(String(general.evaluate('2 ft 3 in'))).toBe('72 in^2');
    expect(mm('19-1/4 in')).toBe(19.25 * 25.4);
    expect(mm('2 ft 3 in')).toBe(27 * 25.4);
  });

  it('never throws, whatever the text', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string(), fc.stringMatching(/^[-+]?[0-9 ./'"einftm-]{0,20}$/)),
        (text) => {
          const length = parseLength(text, 'in');
          expect('mm' in length ? Number.isFinite(length.mm) : length.problem !== '').toBe(true);
          parseAngle(text);
        },
      ),
      { numRuns: 3000 },
    );
  });
});

describe('angles', () => {
  it.each<[string | number, number]>([
    [3, 3],
    ['2.5', 2.5],
    ['2 1/2 deg', 2.5],
    ['-3\u00b0', -3],
    ['45 degrees', 45],
  ])('reads %s', (text, degrees) => {
    expect(parseAngle(text)).toEqual({ radians: (degrees * Math.PI) / 180 });
  });
  it.each(['3 in', 'x', NaN, -Infinity, 1000])('refuses %s', (text) => {
    expect(parseAngle(text)).toHaveProperty('problem');
  });
});

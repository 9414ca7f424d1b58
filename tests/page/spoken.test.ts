import { describe, expect, it } from 'vitest';
import { spoken } from '../../src/page/spoken.js';

describe('numbers as a voice reads them', () => {
  it.each([
    ['25 1/2 back of front axle', '25 and a half back of front axle'],
    ['1/8 to passenger', 'an eighth to passenger'],
    ['short 13/16', 'short 13 sixteenths'],
    ['-3 5/8', 'minus 3 and 5 eighths'],
    ['-1/4', 'minus a quarter'],
    ['-3', 'minus 3'],
    ['3.1 deg tail-down', '3.1 degrees tail-down'],
    ['14 mm to spare', '14 millimetres to spare'],
    ['fan - radiator, fore-aft', 'fan to radiator, fore-aft'],
    ['5/64', '5 sixty-fourths'],
    ['on centre', 'on centre'],
    ['3/7 of it', '3/7 of it'],
  ])('%s', (written, said) => expect(spoken(written)).toBe(said));
});

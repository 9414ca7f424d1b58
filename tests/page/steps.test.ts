import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readScenario } from '../../src/model/read.js';
import { startOf } from '../../src/page/state.js';
import { nudged, onMark, stepsOf, waysOf } from '../../src/page/steps.js';

const s = readScenario(readFileSync('scenarios/orchard-hauler.yaml', 'utf8'), 'auto').scenario!;
const [fine, quarter] = stepsOf(s);

describe('steps', () => {
  it('go to the next mark, whether or not they start on one', () => {
    const at = { ...startOf(s).position, setback: 25.4 * 25.03 };
    const back = nudged(s, at, 'setback', 1, fine!);
    expect(back.setback / 25.4).toBeCloseTo(25.0625, 9);
    expect(nudged(s, back, 'setback', 1, fine!).setback / 25.4).toBeCloseTo(25.125, 9);
    expect(nudged(s, back, 'setback', -1, fine!).setback / 25.4).toBeCloseTo(25, 9);
    expect(nudged(s, at, 'setback', 1, quarter!).setback / 25.4).toBeCloseTo(25.25, 9);
    expect(nudged(s, at, 'setback', -1, quarter!).setback / 25.4).toBeCloseTo(25, 9);
  });

  it('turn by a tenth of a degree, and stop at the ends of the ranges', () => {
    const at = { ...startOf(s).position, pitch: s.position.pitch.max - 1e-4 };
    expect(nudged(s, at, 'pitch', 1, fine!).pitch).toBe(s.position.pitch.max);
    const degrees = nudged(s, startOf(s).position, 'pitch', -1, fine!).pitch * (180 / Math.PI);
    expect(degrees).toBeCloseTo(2.4, 9);
  });

  it('come back to where they began', () => {
    let at = startOf(s).position;
    for (let n = 0; n < 40; n++) at = nudged(s, at, 'height', 1, fine!);
    for (let n = 0; n < 40; n++) at = nudged(s, at, 'height', -1, fine!);
    expect(at.height).toBeCloseTo(onMark(startOf(s).position.height, fine!.length), 9);
  });

  it('are called by where people sit', () => {
    expect(waysOf(s, 'offset')).toEqual(['To driver', 'To passenger']);
    expect(waysOf({ ...s, driver: 'right' }, 'offset')).toEqual(['To passenger', 'To driver']);
  });
});

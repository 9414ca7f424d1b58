/** Other places as good as the answer, in words and for programs. */

import { describe, expect, it } from 'vitest';
import { placeJson } from '../../src/cli/json/answer.js';
import { alsoSection, elsewhereWords } from '../../src/cli/report/also.js';
import type { OtherPlaces, PlaceAnswer, Placement } from '../../src/solver/answer.js';
import { at, fitting, INCH, readings, RULED, scenario, standing, telling } from './sample.js';

function elsewhere(complete: boolean, ...places: Placement[]): OtherPlaces {
  const own = scenario().position;
  return { places, reach: 0.09 * INCH, own, complete };
}

function words(answer: PlaceAnswer): string {
  return alsoSection(answer, telling())
    .lines.map(({ label, text }) => (label === '' ? text : `${label}: ${text}`))
    .join(' ');
}

/** The setting elsewhere, inches and degrees. */
function placed(setback: number, pitch: number, options: readonly number[]): Placement {
  const there = standing(at(setback, 0.25, 2.25, pitch), readings(0.2));
  return { ...fitting().main, options, optimum: there, setting: there };
}

describe('other places as good', () => {
  it('are told by what differs from the answer', () => {
    const { options } = fitting().main;
    const one = elsewhere(true, placed(14.375, 3.1, options));
    expect(words(fitting({ otherPlaces: one }))).toBe(
      'Also: as good: 14 3/8 back of front axle (3/16 to spare)',
    );
    const two = elsewhere(false, placed(14.375, 2, options), placed(30, 3.1, [0, 0]));
    expect(words(fitting({ otherPlaces: two }))).toBe(
      'Also: as good: 14 3/8 back of front axle, 2.0 deg tail-down (3/16 to spare) | ' +
        '30 back of front axle with nothing changed (3/16 to spare) | more not ruled out',
    );
  });

  it('where there is none, only the search says so', () => {
    for (const otherPlaces of [elsewhere(true), elsewhere(false)]) {
      expect(words(fitting({ otherPlaces }))).toBe('');
    }
    expect(elsewhereWords(fitting({ otherPlaces: elsewhere(true) }))).toBe(
      'nowhere else as good; ',
    );
    expect(elsewhereWords(fitting({ otherPlaces: elsewhere(false) }))).toBe(
      'other places as good not ruled out; ',
    );
    expect(elsewhereWords(fitting())).toBe('');
  });

  it('are told to programs as placements, with whether there may be more', () => {
    const numbers = { scenario: scenario(), units: 'in' } as const;
    const otherPlaces = elsewhere(true, placed(14.375, 3.1, fitting().main.options));
    expect(placeJson(fitting({ otherPlaces }), [], RULED, numbers)).toMatchObject({
      otherPlaces: { reach: 0.09, complete: true, places: [{ setting: { margin: 0.2 } }] },
    });
    expect(placeJson(fitting(), [], RULED, numbers)).toMatchObject({ otherPlaces: null });
  });
});

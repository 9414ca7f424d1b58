/**
 * What a search proves of a box of positions, against places measured in it: the bound of the whole, and of every
 * piece still open. Whole answers seldom show a bound that is too low, for the best place is mostly found at once.
 */

import { optionSets } from '../src/model/options.js';
import { COORDINATES } from '../src/model/scenario.js';
import type { OptionSet, Position, PositionRanges, Scenario } from '../src/model/scenario.js';
import { compileBay } from '../src/solver/measuring/compile.js';
import { standingAt, vectorOf } from '../src/solver/measuring/measure.js';
import { Meter } from '../src/solver/measuring/meter.js';
import { MARGIN } from '../src/solver/searching/objective.js';
import { Search } from '../src/solver/searching/search.js';
import { between } from '../tests/geometry/random.js';
import type { Random } from '../tests/geometry/random.js';
import type { Notes } from './subject.js';

/** Millimetres: a bracketed motion is measured at its lower end. */
const ROUNDING = 1e-3;
/** Millimetres of a box's half width; radians are so many of them a metre. */
const WIDTHS = [0.02, 0.3, 2, 10, 60] as const;
const RADIANS = 1 / 1000;

interface Place {
  readonly x: Float64Array;
  readonly set: OptionSet;
  readonly margin: number;
}

/** @param best a place as good as any that is known, under its options. */
export function boundedCase(
  notes: Notes,
  scenario: Scenario,
  best: { readonly position: Position; readonly set: OptionSet },
  random: Random,
): void {
  const bay = compileBay(scenario);
  const sets = [...optionSets(scenario)];
  for (const width of WIDTHS) {
    const ranges = about(scenario.position, best.position, width, random);
    const measured = new Meter(bay);
    const placeAt = (x: Float64Array, set: OptionSet): Place => ({
      x,
      set,
      margin: marginAt(measured, set, x),
    });
    const places = [placeAt(vectorOf(best.position), best.set)];
    for (let n = 0; n < 12; n++) {
      const x = Float64Array.from(COORDINATES, (name) =>
        between(random, ranges[name].min, ranges[name].max),
      );
      places.push(placeAt(x, sets[Math.floor(sets.length * random())]!));
    }
    const search = new Search({
      meter: new Meter(bay),
      domains: bay.domains,
      objective: MARGIN,
      ranges,
      tolerance: 0,
      start: [],
      still: true,
    });
    for (const boxes of [1, 1, 6, 30]) {
      const { bound, open } = search.run(boxes);
      notes.count('boxes bounded');
      const most = Math.max(...places.map(({ margin }) => margin));
      notes.hold(
        bound >= most - ROUNDING,
        `within ${width} mm: bound ${bound}, and ${most} mm is measured there`,
      );
      for (const node of open) {
        for (const { x, set, margin } of places) {
          const inside = x.every((v, k) => v >= node.lo[k]! && v <= node.hi[k]!);
          if (!inside || !set.every((option, c) => node.view.domains[c]!.includes(option)))
            continue;
          notes.count('places in open boxes');
          notes.hold(
            margin <= node.bound + ROUNDING,
            `within ${width} mm: ${margin} mm in an open box of bound ${node.bound}`,
          );
        }
      }
    }
  }
}

function marginAt(meter: Meter, set: OptionSet, x: Float64Array): number {
  const { margin, limits } = standingAt(meter, set, x);
  return limits.every(({ met }) => met) ? margin : -Infinity;
}

/** A box that holds the place, seldom in its middle, inside the ranges of the file. */
function about(all: PositionRanges, at: Position, width: number, random: Random): PositionRanges {
  const entries = COORDINATES.map((name) => {
    const size = name === 'pitch' ? width * RADIANS : width;
    const { min, max } = all[name];
    const low = Math.max(min, at[name] - size * random());
    return [
      name,
      {
        min: Math.min(low, at[name]),
        max: Math.max(at[name], Math.min(max, at[name] + size * random())),
      },
    ];
  });
  return Object.fromEntries(entries) as PositionRanges;
}

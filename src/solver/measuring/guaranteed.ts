/**
 * Margins both ways: as the file draws the bay, and guaranteed, which is what is left in the worst case
 * of its measuring errors at the same position, measured there with exact geometry.
 */

import { leanOf } from '../../model/stance.js';
import type { OptionSet, Scenario } from '../../model/scenario.js';
import { hasErrors, worstCase } from '../../model/errors/worst.js';
import type { PlaceAnswer, Placement, Reading, Standing } from '../answer.js';
import { compileBay } from './compile.js';
import { standingAt, vectorOf } from './measure.js';
import { Meter } from './meter.js';
import { keyOf } from './reading-key.js';

/** What a standing was measured on: the bay as drawn, or its worst case. */
type Measured = 'drawn' | 'worst';

/**
 * The scenario with coordinates held to narrower ranges, on which its worst case rests: what may be off
 * by how much depends on the pitch. On which side parts lie stays what the whole ranges say.
 */
export function heldTo(s: Scenario, ranges: Partial<Scenario['position']>): Scenario {
  return { ...s, position: { ...s.position, ...ranges }, drawn: s.drawn ?? s };
}

/**
 * One standing, measured as drawn, with its guaranteed margins, for an engine turned just so. The
 * standing itself where the file has no measuring error.
 */
export function guaranteedAt(s: Scenario, set: OptionSet, standing: Standing): Standing {
  if (!hasErrors(s)) return standing;
  const { pitch } = standing.position;
  const held = heldTo(s, { pitch: { min: pitch, max: pitch } });
  const worst = worstCase(held, leanOf(standing.position));
  return new Beside(worst, 'drawn').of(standing, set);
}

/**
 * Every standing of an answer with its margins the other way beside its own.
 * @param held as drawn, held to the ranges that were searched.
 * @param measured whether `held` was searched, or its worst case.
 */
export function bothWays(answer: PlaceAnswer, held: Scenario, measured: Measured): PlaceAnswer {
  const beside = new Beside(measured === 'drawn' ? worstCase(held) : held, measured);
  const { main, asItStands, leastWork, wishes, otherPlaces } = answer;
  return {
    ...answer,
    main: beside.placement(main),
    ...(asItStands && { asItStands: beside.placement(asItStands) }),
    ...(leastWork && { leastWork: beside.placement(leastWork) }),
    ...(otherPlaces && {
      otherPlaces: {
        ...otherPlaces,
        places: otherPlaces.places.map((place) => beside.placement(place)),
      },
    }),
    wishes: wishes.map((wish) => ({
      ...wish,
      ...(wish.standing && { standing: beside.of(wish.standing, main.options) }),
    })),
  };
}

/** Measures at the same positions on the other scenario; one bay an option set. */
class Beside {
  private readonly meters = new Map<string, Meter>();

  constructor(
    private readonly other: Scenario,
    private readonly measured: Measured,
  ) {}

  placement(placement: Placement): Placement {
    const { options, optimum, setting } = placement;
    return {
      ...placement,
      optimum: this.of(optimum, options),
      setting: this.of(setting, options),
    };
  }

  of(standing: Standing, set: OptionSet): Standing {
    const there = standingAt(this.meter(set), set, vectorOf(standing.position));
    const least = new Map<string, Reading>();
    // Tightest first: of two readings told by the same words, neither may be told as more than the least.
    for (const one of there.readings) {
      if (!least.has(keyOf(one))) least.set(keyOf(one), one);
    }
    const readings = standing.readings.map((one) => this.reading(one, least.get(keyOf(one))!));
    return this.measured === 'drawn'
      ? { ...standing, readings, guaranteed: Math.min(standing.margin, there.margin) }
      : { ...standing, readings, guaranteed: standing.margin, drawn: { margin: there.margin } };
  }

  private reading(one: Reading, other: Reading): Reading {
    if (this.measured === 'drawn') {
      return { ...one, guaranteed: Math.min(one.margin, other.margin) };
    }
    const { gap, atRest, margin } = other;
    return { ...one, guaranteed: one.margin, drawn: { gap, atRest, margin } };
  }

  private meter(set: OptionSet): Meter {
    const key = set.join();
    let meter = this.meters.get(key);
    if (!meter) {
      const bay = compileBay(this.other, { allowed: set.map((option) => [option]) });
      this.meters.set(key, (meter = new Meter(bay)));
    }
    return meter;
  }
}

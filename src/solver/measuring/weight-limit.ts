/** A limit on what the front axle carries. It depends on setback, pitch and the options. */

import { maxOf, minOf } from '../../model/extremes.js';
import {
  axleLoadsUnder,
  emptyMoments,
  frontLoad,
  loadLine,
  momentsOf,
  NO_MOMENTS,
  sumOfMoments,
} from '../../geometry/weight.js';
import type { LoadLine, Moments } from '../../geometry/weight.js';
import { choicesOfLoad, loadUnder } from '../../model/fitup/loads-under.js';
import type { OptionDomains } from '../../model/options.js';
import type { Limit, OptionSet, Scenario } from '../../model/scenario.js';
import { stanceFrom } from '../../model/stance.js';
import type { Load, Weights } from '../../model/fitup/weight.js';
import { boxOf } from '../box.js';
import type { PositionBox } from '../box.js';
import type { Rows } from '../rows.js';

/** Millimetres of row for a kilogram, at the least and at the most: where next to nothing rides with the engine. */
const LEVER = { least: 1, most: 1000 };

/** What the loads come to under open choices: one sum of what they leave alone, and the variants of the rest. */
interface Open {
  readonly sure: Moments;
  readonly varied: readonly (readonly Moments[])[];
}

/** A line, and how far the load may lie above or below it. */
type Line = Pick<LoadLine, 'value' | 'bySetback' | 'byPitch'> & { readonly bend: number };

export class WeightLimit {
  readonly kind = 'weight';
  /** The choices that any load turns on. */
  readonly choices: readonly number[];
  /** Millimetres of setback for a kilogram: rows of a program should weigh alike. */
  readonly lever: number;
  private readonly known = new Map<string, Open>();

  constructor(
    readonly limit: Limit,
    readonly scenario: Scenario,
    private readonly weights: Weights,
  ) {
    const all = weights.in.flatMap((load) => choicesOfLoad(scenario, load));
    this.choices = [...new Set(all)].sort((a, b) => a - b);
    const slides = sumOfMoments(weights.in.map((load) => momentsOf(weights.axles, load))).slide;
    this.lever = slides > 0 ? Math.min(LEVER.most, Math.max(LEVER.least, 1 / slides)) : LEVER.least;
  }

  /** Kilograms under an option set, at a position or at a stance of six numbers. */
  value(set: OptionSet, x: ArrayLike<number>): number {
    if (x.length === 6) return axleLoadsUnder(this.scenario, set, stanceFrom(x))!.after.front;
    return frontLoad(this.open(set.map((option) => [option])).sure, x[0]!, x[3]!);
  }

  /** A lower and an upper bound of the slack anywhere between two positions, under any open option, kilograms. */
  slackOver(
    domains: OptionDomains,
    lo: ArrayLike<number>,
    hi: ArrayLike<number>,
  ): { least: number; most: number } {
    const box = boxOf(lo, hi);
    const [low, high] = ([-1, 1] as const).map((way) => {
      const { value, bySetback, byPitch, bend } = this.line(domains, box, way);
      return value + way * (Math.abs(bySetback) + Math.abs(byPitch) + bend);
    });
    const { min, max } = this.limit;
    return {
      least: Math.min(low! - min, max - high!),
      most: Math.min(high! - min, max - low!),
    };
  }

  /** Hard rows over a box, above the slack everywhere in it under any open option; `slack` kilograms are let go. */
  addRows(domains: OptionDomains, box: PositionBox, slack: number, rows: Rows): void {
    this.sides(domains, box, (line, way, end) =>
      this.hardRow(line, way, end, line.bend, slack, rows),
    );
  }

  /** The same of one option set to first order, `pad` millimetres of row inside. */
  addModelRows(set: OptionSet, box: PositionBox, pad: number, rows: Rows): void {
    const domains = set.map((option) => [option]);
    this.sides(domains, box, (line, way, end) =>
      this.hardRow(line, way, end, 0, -pad / this.lever, rows),
    );
  }

  /** The ends that there are, each with the line that has to keep it: from above for the least, from below for the most. */
  private sides(
    domains: OptionDomains,
    box: PositionBox,
    each: (line: Line, way: 1 | -1, end: number) => void,
  ): void {
    const { min, max } = this.limit;
    if (min > -Infinity) each(this.line(domains, box, 1), 1, min);
    if (max < Infinity) each(this.line(domains, box, -1), -1, max);
  }

  private hardRow(
    { value, bySetback, byPitch, bend }: Line,
    way: 1 | -1,
    end: number,
    loose: number,
    slack: number,
    rows: Rows,
  ): void {
    const { lever } = this;
    const row = rows.add(-1, true);
    rows.values[row] = lever * (way * (value - end) + loose + slack);
    rows.slopes[4 * row] = lever * way * bySetback;
    rows.slopes[4 * row + 3] = lever * way * byPitch;
    rows.blame[4 * row + 3] = lever * Math.min(loose, bend);
  }

  /** A line that the load leaves by no more than its bend, upwards (way 1) or downwards (-1). */
  private line(domains: OptionDomains, { mid, half }: PositionBox, way: 1 | -1): Line {
    const { sure, varied } = this.open(domains);
    return varied
      .map((variants) =>
        lineBeyond(
          variants.map((one) => loadLine(one, mid, half)),
          way,
        ),
      )
      .reduce(added, loadLine(sure, mid, half));
  }

  private open(domains: OptionDomains): Open {
    const key = this.choices.map((c) => domains[c]!.join('.')).join('|');
    let known = this.known.get(key);
    if (known === undefined) this.known.set(key, (known = this.opened(domains)));
    return known;
  }

  private opened(domains: OptionDomains): Open {
    const all = this.weights.in.map((load) => this.variants(load, domains));
    const sure = all.filter((variants) => variants.length === 1).flat();
    return {
      sure: sumOfMoments([emptyMoments(this.weights), ...sure]),
      varied: all.filter((variants) => variants.length > 1),
    };
  }

  /** What one load comes to under each combination of the open options that touch it. */
  private variants(load: Load, domains: OptionDomains): readonly Moments[] {
    const { scenario, weights } = this;
    const choices = choicesOfLoad(scenario, load);
    let sets: OptionSet[] = [domains.map((domain) => domain[0]!)];
    for (const c of choices)
      sets = sets.flatMap((set) =>
        domains[c]!.map((o) => set.map((one, k) => (k === c ? o : one))),
      );
    const found = new Map<string, Moments>();
    for (const set of sets) {
      const standing = loadUnder(scenario, load, set);
      const moments = standing ? momentsOf(weights.axles, standing) : NO_MOMENTS;
      found.set(Object.values(moments).join(), moments);
    }
    return [...found.values()];
  }
}

/** A line that none of several leaves by more than its bend, on one side. */
function lineBeyond(lines: readonly LoadLine[], way: 1 | -1): Line {
  const bySetback = lines.reduce((sum, line) => sum + line.bySetback, 0) / lines.length;
  const byPitch = lines.reduce((sum, line) => sum + line.byPitch, 0) / lines.length;
  const far = lines.map(
    (line) =>
      way * line.value +
      Math.abs(line.bySetback - bySetback) +
      Math.abs(line.byPitch - byPitch) +
      line.bend,
  );
  const bend = minOf(lines.map((line) => line.bend));
  return { value: way * (maxOf(far) - bend), bySetback, byPitch, bend };
}

function added(a: Line, b: Line): Line {
  return {
    value: a.value + b.value,
    bySetback: a.bySetback + b.bySetback,
    byPitch: a.byPitch + b.byPitch,
    bend: a.bend + b.bend,
  };
}

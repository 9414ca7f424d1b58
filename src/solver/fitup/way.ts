/** The way the engine goes as one adjuster is turned and the others keep their lengths. */

import {
  lengthOf,
  scaledStance,
  stanceOfLengths,
  unscaledStance,
} from '../../geometry/adjusters/links.js';
import type { Hold, Link } from '../../geometry/adjusters/links.js';
import type { Stance } from '../../model/stance.js';

/** Millimetres: a link that is farther off its length than this does not follow. */
const FOLLOWS = 0.01;

/** From share 0 to share 1 of a move. */
export class Way {
  private readonly known: Map<number, Stance>;

  /**
   * @param links as many as are independent.
   * @param from their lengths where the way begins, at `start`; `to` where it ends.
   */
  constructor(
    private readonly links: readonly Link[],
    private readonly holds: readonly Hold[],
    private readonly start: Stance,
    private readonly from: readonly number[],
    private readonly to: readonly number[],
  ) {
    this.known = new Map([[0, start]]);
  }

  at(share: number): Stance {
    let stance = this.known.get(share);
    if (stance === undefined) {
      const near = this.nearTo(share);
      stance = stanceOfLengths(this.links, this.lengths(share), near, this.holds).stance;
      this.known.set(share, stance);
    }
    return stance;
  }

  /** Whether the links follow as far as a share; where they do not, one would lift off or snap over. */
  follows(share: number): boolean {
    const lengths = this.lengths(share);
    const stance = this.at(share);
    return this.links.every((link, i) => Math.abs(lengthOf(link, stance) - lengths[i]!) <= FOLLOWS);
  }

  private lengths(share: number): number[] {
    return this.from.map((a, i) => a + share * (this.to[i]! - a));
  }

  /** Where to look from: between the nearest known on either side. */
  private nearTo(share: number): Stance {
    let [below, above] = [0, Infinity];
    for (const at of this.known.keys()) {
      if (at <= share) below = Math.max(below, at);
      else above = Math.min(above, at);
    }
    const from = this.known.get(below) ?? this.start;
    if (above === Infinity) return from;
    const [a, b] = [scaledStance(from), scaledStance(this.known.get(above)!)];
    const part = (share - below) / (above - below);
    return unscaledStance(a.map((value, k) => value + part * (b[k]! - value)));
  }
}

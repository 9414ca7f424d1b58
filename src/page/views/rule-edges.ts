/** The tape rule along the top and the left of a view. */

import { onPaper, viewOf } from '../../drawings/view.js';
import type { ViewName } from '../../drawings/view.js';
import { setFrom } from '../../model/errors/set-from.js';
import type { Scenario } from '../../model/scenario.js';
import { svg } from '../dom.js';
import type { Frame } from './plan-view.js';
import { ticksOf } from './ticks.js';

/** Pixels that the rule is wide. */
export const RULE = 30;

export class RuleEdges {
  readonly element = svg('svg', { class: 'rule', attrs: { 'aria-hidden': 'true' } });
  private drawn = '';

  /** Draws the rule for a view of a frame, unless it is drawn already. */
  show(s: Scenario, name: ViewName, frame: Frame): void {
    const key = JSON.stringify([name, frame, s.units]);
    if (key === this.drawn) return;
    this.drawn = key;
    const { width, height, scale, middle } = frame;
    this.element.setAttribute('viewBox', `0 0 ${width} ${height}`);
    const [du, dv] = datumOf(s, name);
    const across = {
      length: width,
      start: middle[0] - width / 2 / scale - du,
      perPixel: 1 / scale,
    };
    const down = {
      length: height,
      start: middle[1] + height / 2 / scale - dv,
      perPixel: -1 / scale,
    };
    const marks: string[] = [];
    const texts: SVGTextElement[] = [];
    for (const { at, rank, text } of ticksOf(across, s.units)) {
      if (at < RULE) continue;
      marks.push(`M${at.toFixed(1)} ${RULE}v${-(5 + rank * 9)}`);
      if (text !== undefined) texts.push(svg('text', { attrs: { x: at + 3, y: 13 } }, text));
    }
    for (const { at, rank, text } of ticksOf(down, s.units)) {
      if (at < RULE) continue;
      marks.push(`M${RULE} ${at.toFixed(1)}h${-(5 + rank * 9)}`);
      if (text !== undefined) {
        const attrs = { transform: `translate(13 ${at - 3}) rotate(-90)` };
        texts.push(svg('text', { attrs }, text));
      }
    }
    this.element.replaceChildren(
      svg('path', { class: 'blade', attrs: { d: `M0 0H${width}V${RULE}H${RULE}V${height}H0Z` } }),
      svg('path', { class: 'ticks', attrs: { d: marks.join('') } }),
      ...texts,
    );
  }
}

/** Where the rule begins on the paper: the datums that the engine is set from. */
function datumOf(s: Scenario, name: ViewName): readonly [number, number] {
  const x = setFrom('x', 'chassis', s)?.x ?? 0;
  const z = setFrom('z', 'chassis', s)?.z ?? 0;
  return onPaper(viewOf(name), [x, 0, z]);
}

/** Number tags: which parts get one in a view, and where it points. */

import { minOf } from '../model/extremes.js';
import * as trig from '../model/trig.js';
import { nearestIn } from './labels.js';
import type { Labels, Place } from './labels.js';
import { n } from './paper.js';
import type { Paper } from './paper.js';
import type { Edged, Field } from './field.js';
import type { Seen } from './seen.js';
import { LINES } from './styles.js';
import { TEXT_SIZE, textWidth } from './text.js';
import { areaOf, seenIn } from './window.js';
import type { Window } from './window.js';

/** So many tags at most, as the key has room for. */
const MOST_TAGS = 25;

/** Square millimetres of paper under which a part is not tagged, unless a gap is dimensioned at it. */
const LEAST_AREA = 12;

/** Tags the parts of the dimensioned gaps and then the largest; returns those that got one, in order. */
export function tagParts(
  paper: Paper,
  labels: Labels,
  parts: readonly Edged[],
  { window, shown }: Field,
): Seen[] {
  const told = new Set(shown.flatMap(({ reading }) => reading.between));
  const area = (one: Edged): number =>
    one.outlines.reduce((sum, outline) => sum + areaOf(seenIn(window, outline)), 0) /
    trig.squared(window.scale);
  const wanted = parts
    .map((one) => ({ one, told: told.has(one.part.name), size: area(one) }))
    .filter((each) => each.told || each.size > LEAST_AREA)
    .sort((a, b) => Number(b.told) - Number(a.told) || b.size - a.size)
    .slice(0, MOST_TAGS);
  const tagged: Edged[] = [];
  const taken: Place[] = [];
  for (const { one } of wanted) {
    const anchor = anchorOf(one, window, labels, taken);
    if (anchor === undefined) continue;
    const words = String(one.tag);
    const [w, h] = [textWidth(words) + 1.6, TEXT_SIZE * 1.25];
    const placed = labels.placeNear(w, h, anchor);
    if (placed === undefined) continue;
    taken.push(anchor);
    tagged.push(one);
    const { box } = placed;
    paper.add(`<g class="tag" data-tag="${one.tag}">`);
    paper.line(anchor, nearestIn(box, anchor), LINES.leader);
    paper.add(`<circle cx="${n(anchor[0])}" cy="${n(anchor[1])}" r="0.5" fill="#000"/>`);
    paper.add(
      `<rect x="${n(box.x)}" y="${n(box.y)}" width="${n(w)}" height="${n(h)}" rx="${n(h / 2)}" fill="#fff" ${LINES.leader}/>`,
    );
    paper.text(box.x + (w - textWidth(words)) / 2, box.y + h / 2, words);
    paper.add('</g>');
  }
  return tagged.sort((a, b) => a.tag - b.tag);
}

/** The place on the part's edge with the least drawn about it, and away from what other tags point at. */
function anchorOf(
  { edges }: Edged,
  { frame, toPaper }: Window,
  labels: Labels,
  taken: readonly Place[],
): Place | undefined {
  let best: Place | undefined;
  let least = Infinity;
  for (const run of edges) {
    for (let i = 1; i < run.length; i++) {
      const [a, b] = [toPaper(run[i - 1]!), toPaper(run[i]!)];
      const steps = Math.min(40, Math.ceil(trig.hypot(b[0] - a[0], b[1] - a[1]) / 4));
      for (let k = 0; k < steps; k++) {
        const t = (k + 0.5) / steps;
        const [x, y] = [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
        const inside =
          x > frame.x + 1 &&
          y > frame.y + 1 &&
          x < frame.x + frame.w - 1 &&
          y < frame.y + frame.h - 1;
        if (!inside || labels.covers([x, y])) continue;
        const near = minOf(taken.map(([u, v]) => trig.hypot(u - x, v - y)));
        const cost = labels.inkNear(x, y) + Math.max(0, 12 - near);
        if (cost < least) [best, least] = [[x, y], cost];
      }
    }
  }
  return best;
}

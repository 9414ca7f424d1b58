/**
 * One view of a bay as a drawing to scale: the engine at its position over the chassis, motions as
 * envelopes, what is cut off, the datums, and the tightest gaps where they are. Plain data in, SVG text out.
 */

import { dimensionsOf } from './dimensions.js';
import type { Dimension } from './dimensions.js';
import { headHeight, writeHead } from './head.js';
import { keyHeight, writeKey } from './key.js';
import type { Box } from './labels.js';
import { Paper } from './paper.js';
import type { TextBox } from './paper.js';
import { drawParts } from './parts.js';
import { scaleWords } from './scale.js';
import { sceneOf } from './scene.js';
import { seenOf } from './seen.js';
import type { Seen } from './seen.js';
import type { Subject } from './subject.js';
import { onPaper, VIEWS, viewOf } from './view.js';
import type { ViewName } from './view.js';
import { windowOn } from './window.js';

export interface Drawing {
  readonly view: ViewName;
  readonly svg: string;
  /** Such as `1:8`. */
  readonly scale: string;
  /** Every text with the room kept for it, in millimetres of a paper of this size. */
  readonly texts: readonly TextBox[];
  readonly size: readonly [number, number];
}

export interface Drawings {
  readonly views: readonly Drawing[];
  readonly dimensions: readonly Dimension[];
}

/** Millimetres: what Letter and A4, lying, both leave within margins of 10 mm. */
const WIDTH = 257;
const HEIGHT = 186;

/** The three views. */
export function drawingsOf(subject: Subject): Drawings {
  const { scenario, set, standing } = subject;
  const dimensions = dimensionsOf(scenario, set, standing);
  const scene = sceneOf(scenario, set);
  const views = VIEWS.map((name) =>
    drawn(subject, name, seenOf(scene, standing.position, viewOf(name)), dimensions),
  );
  return { views, dimensions };
}

function drawn(
  subject: Subject,
  name: ViewName,
  seen: readonly Seen[],
  all: readonly Dimension[],
): Drawing {
  const view = viewOf(name);
  const shown = all.filter(({ views }) => views.includes(name));
  const paper = new Paper(WIDTH, HEIGHT);
  const top = headHeight(subject);
  const bottom = keyHeight(shown.length);
  const frame: Box = { x: 0.3, y: top, w: WIDTH - 0.6, h: HEIGHT - top - bottom };
  const engine = seen.filter(({ part }) => part.side === 'engine');
  const places = shown.flatMap(({ witness }) => [
    onPaper(view, witness.from),
    onPaper(view, witness.to),
  ]);
  const subjectOutlines = (engine.length > 0 ? engine : seen).flatMap(({ outlines }) => outlines);
  const window = windowOn(subjectOutlines, places, frame);
  const scale = scaleWords(window.scale);
  writeHead(paper, subject, name, scale);
  const tagged = drawParts(paper, { subject, view, window, seen, shown });
  writeKey(paper, { subject, window, top: HEIGHT - bottom, shown, tagged, all: seen });
  const title = `${TITLES[name]}, scale ${scale}`;
  return {
    view: name,
    svg: paper.svg(title, `${subject.scenario.title}; ${subject.date}`),
    scale,
    texts: paper.texts,
    size: [WIDTH, HEIGHT],
  };
}

const TITLES = { side: 'Side view', top: 'Top view', front: 'Front view' } as const;

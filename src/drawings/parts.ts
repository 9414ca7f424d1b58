/** The field of a drawing: parts, motions, what is cut off, datums, dimensions, and number tags. */

import { maxOf, minOf } from '../model/extremes.js';
import { chassisDatums, engineDatums } from './datums.js';
import { drawDimension } from './dimension-lines.js';
import { outerEdges } from './edges.js';
import type { Edged, Field } from './field.js';
import { Labels, nearestIn } from './labels.js';
import type { Place } from './labels.js';
import type { Outline } from './outline.js';
import { n, pathOf } from './paper.js';
import type { Paper } from './paper.js';
import type { Seen } from './seen.js';
import { hatchings, LINES } from './styles.js';
import { tagParts } from './tags.js';
import { fitted, TEXT_SIZE, textWidth } from './text.js';
import type { Window } from './window.js';

/** Millimetres of paper that a datum's name may take. */
const DATUM_NAME = 46;

/** Draws the field and returns the parts that got a number tag. */
export function drawParts(paper: Paper, field: Field): Seen[] {
  const { view, window, shown } = field;
  const { frame } = window;
  const labels = new Labels(frame);
  const parts = field.seen.map((one): Edged => ({ ...one, edges: outerEdges(one.outlines) }));
  const id = `berth-${view.name}`;
  paper.add(hatchings(id));
  paper.add(
    `<clipPath id="${id}-frame"><rect x="${n(frame.x)}" y="${n(frame.y)}" width="${n(frame.w)}" height="${n(frame.h)}"/></clipPath>`,
  );
  paper.add(`<g clip-path="url(#${id}-frame)">`);
  solidParts(paper, parts, field, labels, id);
  motions(paper, parts, field, labels);
  paper.add('</g>');
  paper.box(frame, LINES.frame);
  for (const dimension of shown) drawDimension(paper, labels, dimension, field);
  datums(paper, labels, field);
  return tagParts(paper, labels, parts, field);
}

function solidParts(
  paper: Paper,
  parts: readonly Edged[],
  { window, shown }: Field,
  labels: Labels,
  id: string,
): void {
  const chassis = parts.filter(({ part }) => part.side === 'chassis');
  const engine = parts.filter(({ part }) => part.side === 'engine');
  for (const one of chassis) edged(paper, one, LINES.chassis, window, labels);
  for (const { removed, part } of chassis) {
    if (removed.length === 0) continue;
    const d = filled(removed, window);
    paper.add(
      `<path class="removed" data-part="${part.solids.length}" d="${d}" fill="url(#${id}-cut)" ${LINES.removed}/>`,
    );
  }
  // The nearest last; what lies behind shows through faintly.
  for (const one of [...engine].sort((a, b) => a.depth - b.depth)) {
    paper.add(`<path d="${filled(one.outlines, window)}" fill="#fff" fill-opacity="0.72"/>`);
    edged(paper, one, LINES.engine, window, labels);
  }
  const binding = shown.filter(({ reading }) => reading.binding);
  const hatched = (binding.length > 0 ? binding : shown.slice(0, 1)).map(({ reading }) => reading);
  parts.forEach((one) => {
    const { name, side } = one.part;
    const end = hatched.some(({ between }) => between[0] === name)
      ? 'first'
      : hatched.some(({ between }) => between[1] === name)
        ? 'second'
        : undefined;
    if (end === undefined) return;
    paper.add(`<path d="${filled(one.outlines, window)}" fill="url(#${id}-${end})"/>`);
    edged(paper, one, side === 'engine' ? LINES.engine : LINES.chassis, window, labels);
  });
}

function edged(
  paper: Paper,
  { edges }: Edged,
  style: string,
  { toPaper }: Window,
  labels: Labels,
): void {
  const runs = edges.map((run) => run.map(toPaper));
  for (const run of runs) ink(run, labels);
  paper.add(`<path d="${pathOf(runs, false)}" ${style}/>`);
}

function filled(outlines: readonly Outline[], { toPaper }: Window): string {
  return pathOf(
    outlines.map((outline) => outline.map(toPaper)),
    true,
  );
}

/** Each chassis part over its own motions; the engine's rock as one envelope; the room of what comes out. */
function motions(
  paper: Paper,
  parts: readonly Edged[],
  { window, shown }: Field,
  labels: Labels,
): void {
  const envelope = (outlines: readonly Outline[], style: string, name: string): void => {
    if (outlines.length === 0) return;
    const runs = outerEdges(outlines).map((run) => run.map(window.toPaper));
    for (const run of runs) ink(run, labels);
    paper.add(`<path class="${name}" d="${pathOf(runs, false)}" ${style}/>`);
  };
  for (const { part, motions } of parts) {
    if (part.side === 'chassis') envelope(motions, LINES.motion, 'motion');
  }
  const engine = parts.filter(({ part }) => part.side === 'engine');
  if (engine.some(({ motions }) => motions.length > 0)) {
    envelope(
      engine.flatMap(({ motions }) => motions),
      LINES.motion,
      'motion',
    );
  }
  const out = new Set(shown.map(({ reading }) => reading.withdrawn?.part));
  for (const { part, comesOut } of parts) {
    if (out.has(part.name)) envelope(comesOut, LINES.comesOut, 'comes-out');
  }
}

function ink(run: readonly Place[], labels: Labels): void {
  for (let i = 1; i < run.length; i++) labels.drawn(run[i - 1]!, run[i]!);
}

/** The datums' lines, and the name of each at the end of it that leaves room for it. */
function datums(paper: Paper, labels: Labels, { subject, view, window, seen }: Field): void {
  const { scenario, standing } = subject;
  const reach = seen
    .filter(({ part }) => part.side === 'engine')
    .flatMap(({ part }) => part.solids)
    .flatMap(({ center, radius }) => [center[0]! - radius, center[0]! + radius]);
  const crank = { min: Math.min(0, minOf(reach)), max: Math.max(0, maxOf(reach)) };
  const lines = [
    ...chassisDatums(scenario, view, window.low, window.high),
    ...engineDatums(scenario, view, standing.position, crank),
  ];
  const { frame } = window;
  for (const { name, from, to } of lines) {
    const [a, b] = [window.toPaper(from), window.toPaper(to)];
    paper.add(`<g clip-path="url(#berth-${view.name}-frame)">`);
    paper.line(a, b, LINES.datum);
    paper.add('</g>');
    labels.drawn(a, b, 0.5);
    const words = fitted(name, DATUM_NAME);
    const [w, h] = [textWidth(words) + 1, TEXT_SIZE * 1.25];
    const [x, y] = nearestIn(frame, a);
    const placed = labels.place(w, h, [x, y]);
    if (placed === undefined) continue;
    const { box } = placed;
    paper.add('<g class="datum">');
    paper.box(box, 'fill="#fff" fill-opacity="0.85"');
    paper.line([x, y], nearestIn(box, [x, y]), LINES.leader);
    paper.text(box.x + 0.5, box.y + h / 2, words);
    paper.add('</g>');
  }
}

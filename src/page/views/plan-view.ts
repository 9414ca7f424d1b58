/**
 * A view square on to the bay: the chassis drawn once, the engine as a group that is moved over it. From the
 * side its pitch is a turn of that group; from the top and the front a pitch draws it anew.
 */

import { maxOf } from '../../model/extremes.js';
import { aroundAll, boundsOf, outlineOf } from '../../drawings/outline.js';
import type { Outline } from '../../drawings/outline.js';
import { posing } from '../../drawings/scene.js';
import type { Scene } from '../../drawings/scene.js';
import { onPaper, viewOf } from '../../drawings/view.js';
import type { Point2, View, ViewName } from '../../drawings/view.js';
import type { Position, Vec3 } from '../../model/scenario.js';
import { mark, svg } from '../dom.js';
import { hatches } from './hatches.js';

type ScenePart = Scene['parts'][number];

/** Where the paper lies on the screen. */
export interface Frame {
  /** Pixels. */
  readonly width: number;
  readonly height: number;
  /** Pixels a millimetre, and the place on the paper at the middle of the screen. */
  readonly scale: number;
  readonly middle: Point2;
}

const ORIGIN: Position = { setback: 0, offset: 0, height: 0, pitch: 0 };
const DEGREES = 180 / Math.PI;
/** Parts far larger than the engine that say nothing of the bay: drawn faint, never in front. */
const UNDER = ['ground'];

export class PlanView {
  readonly element: SVGSVGElement;
  private readonly view: View;
  private readonly chassis = svg('g', { class: 'chassis' });
  private readonly engine = svg('g', { class: 'engine' });
  /** The chosen chassis part once more, over the engine that may hide it. */
  private readonly over = svg('g', { class: 'chassis over' });
  private readonly marks = svg('g', { class: 'marks' });
  private readonly shapes = new Map<string, SVGPathElement>();
  private scene: Scene = { parts: [] };
  private drawnPitch = NaN;
  private chosen = '';

  constructor(readonly name: ViewName) {
    this.view = viewOf(name);
    this.element = svg(
      'svg',
      { class: 'plan', attrs: { 'aria-hidden': 'true' } },
      hatches(),
      this.chassis,
      this.engine,
      this.over,
      this.marks,
    );
  }

  /** What stands, drawn anew. */
  show(scene: Scene): void {
    this.scene = scene;
    this.shapes.clear();
    this.chosen = '';
    this.chassis.replaceChildren(...this.drawn('chassis', ORIGIN));
    this.drawnPitch = NaN;
  }

  /** The box about the engine over these positions, on the paper. */
  reach(positions: readonly Position[]): { readonly low: Point2; readonly high: Point2 } {
    const outlines = positions.flatMap((position) =>
      this.parts('engine').flatMap((part) => this.outlines(part, position)),
    );
    return boundsOf(outlines);
  }

  /** Puts the engine where it is. */
  place(position: Position, { width, height, scale, middle }: Frame): void {
    mark(this.element, 'viewBox', `0 0 ${width} ${height}`);
    const isSide = this.name === 'side';
    const drawnAt = isSide ? 0 : position.pitch;
    if (this.drawnPitch !== drawnAt) {
      const at = { ...ORIGIN, pitch: drawnAt };
      this.engine.replaceChildren(...this.drawn('engine', at));
      this.drawnPitch = drawnAt;
    }
    const paper = `translate(${width / 2 - scale * middle[0]} ${height / 2 + scale * middle[1]}) scale(${scale} ${-scale})`;
    mark(this.chassis, 'transform', paper);
    mark(this.over, 'transform', paper);
    const [u, v] = onPaper(this.view, [position.setback, position.offset, position.height]);
    const turn = isSide ? ` rotate(${-position.pitch * DEGREES})` : '';
    mark(this.engine, 'transform', `${paper} translate(${u} ${v})${turn}`);
    // Hatching keeps its pitch on the screen, however large the paper.
    this.element.style.setProperty('--unscale', String(1 / scale));
    for (const pattern of this.element.querySelectorAll('pattern')) {
      mark(pattern, 'patternTransform', `scale(${1 / scale}) rotate(${pattern.dataset['turn']!})`);
    }
  }

  /** Hatches the parts of a pair. */
  choose(pair: readonly string[]): void {
    const key = pair.join('\n');
    for (const [name, shape] of this.shapes) {
      shape.classList.toggle('chosen', pair.includes(name));
    }
    if (key === this.chosen) return;
    this.chosen = key;
    const above = [...this.shapes].filter(([name, { parentNode }]) => {
      return pair.includes(name) && parentNode === this.chassis;
    });
    this.over.replaceChildren(...above.map(([, shape]) => shape.cloneNode()));
  }

  /** Numbers at places in the vehicle frame, and the line of the chosen one. */
  tag(
    tags: readonly { readonly at: Vec3; readonly text: string; readonly chosen: boolean }[],
    line: readonly [Vec3, Vec3] | undefined,
    frame: Frame,
  ): void {
    const children: SVGElement[] = [];
    if (line) {
      const [[x1, y1], [x2, y2]] = line.map((at) => this.onScreen(at, frame)) as [Point2, Point2];
      children.push(svg('line', { class: 'gap', attrs: { x1, y1, x2, y2 } }));
    }
    // The worst is drawn last, over the others.
    const taken: Point2[] = [];
    for (const { at, text, chosen } of tags) {
      const [x, y] = clear(this.onScreen(at, frame), taken, frame);
      const group = svg(
        'g',
        {
          class: chosen ? 'tag chosen' : 'tag',
          attrs: { transform: `translate(${x} ${y})` },
        },
        svg('rect', { attrs: { x: -12, y: -12, width: 24, height: 24 } }),
        svg('text', { attrs: { y: 5, 'text-anchor': 'middle' } }, text),
      );
      children.splice(line ? 1 : 0, 0, group);
    }
    this.marks.replaceChildren(...children);
  }

  private onScreen(at: Vec3, { width, height, scale, middle }: Frame): Point2 {
    const [u, v] = onPaper(this.view, at);
    return [width / 2 + scale * (u - middle[0]), height / 2 - scale * (v - middle[1])];
  }

  private parts(side: ScenePart['side']): readonly ScenePart[] {
    return this.scene.parts.filter((part) => part.side === side);
  }

  /** The farthest from the eye first. */
  private drawn(side: ScenePart['side'], position: Position): SVGPathElement[] {
    const { depth } = this.view;
    const pose = posing(side, position);
    const near = ({ solids }: ScenePart): number =>
      maxOf(
        solids.map((solid) => {
          const { center, radius } = pose(solid);
          return depth[0] * center[0]! + depth[1] * center[1]! + depth[2] * center[2]! + radius;
        }),
      );
    return this.parts(side)
      .map((part) => ({ part, near: near(part) }))
      .sort((a, b) => a.near - b.near)
      .map(({ part }) => this.shape(part, position));
  }

  private shape(part: ScenePart, position: Position): SVGPathElement {
    const moving = part.motions.map((cell) =>
      aroundAll(cell.map((solid) => outlineOf(posing(part.side, position)(solid), this.view))),
    );
    const d = [...(part.side === 'chassis' ? moving : []), ...this.outlines(part, position)]
      .map(pathOf)
      .join('');
    const faint = part.kind !== undefined && UNDER.includes(part.kind);
    const known = this.shapes.get(part.name);
    const shape = svg('path', {
      class: `part${faint ? ' faint' : ''}${known?.classList.contains('chosen') ? ' chosen' : ''}`,
      attrs: { d, 'data-part': part.name },
    });
    this.shapes.set(part.name, shape);
    return shape;
  }

  private outlines({ side, solids }: ScenePart, position: Position): Outline[] {
    const pose = posing(side, position);
    return solids.map((solid) => outlineOf(pose(solid), this.view));
  }
}

/** Pixels between the middles of tags. */
const TAG_APART = 26;

/** A place for a tag that is on the screen and over no other. */
function clear([x, y]: Point2, taken: Point2[], { width, height }: Frame): Point2 {
  const inside = (value: number, most: number): number =>
    Math.min(most - TAG_APART, Math.max(TAG_APART * 2, value));
  let at: Point2 = [inside(x, width), inside(y, height)];
  for (let tries = 0; tries < 8; tries++) {
    const other = taken.find(([u, v]) => {
      return Math.abs(u - at[0]) < TAG_APART && Math.abs(v - at[1]) < TAG_APART;
    });
    if (!other) break;
    at = [at[0], inside(other[1] + TAG_APART, height)];
    if (at[1] === other[1]) at = [at[0] + TAG_APART, at[1]];
  }
  taken.push(at);
  return at;
}

function pathOf(outline: Outline): string {
  return `M${outline.map(([u, v]) => `${round(u)} ${round(v)}`).join('L')}Z`;
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}

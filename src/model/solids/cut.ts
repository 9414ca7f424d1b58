/**
 * Trims carried out: a chassis part with its face cut back.
 *
 * The plane lies so deep from the part's extreme, as drawn; with `over`, only that stretch is cut and
 * the rest of the part stays as it is. Cuts come after tilt and mirror and before the moves of options.
 */

import { maxOf, minOf } from '../extremes.js';
import { across, clipped, IN_PLANE, pointsOf } from './clip.js';
import type { HalfSpace } from './clip.js';
import { partExtents, solidExtents } from './extents.js';
import { mirrorImage } from './mirror.js';
import { areaVector } from './panel.js';
import { AXES } from '../scenario.js';
import type { Cut, Part, PositionRanges, Range, Solid, Trim, Vec3 } from '../scenario.js';
import { dot, unit } from '../vector.js';

const known = new WeakMap<Part, Map<string, Part>>();

/**
 * The part with these cuts made one after the other, each from the extreme of the part as drawn.
 * @param engine where the engine datum may be, for a panel's `outward`: away from the middle of it.
 */
export function cutPart(part: Part, cuts: readonly Cut[], engine: PositionRanges): Part {
  const made = cuts.filter(({ depth }) => depth > 0);
  if (made.length === 0) return part;
  const byCuts = known.get(part) ?? new Map<string, Part>();
  known.set(part, byCuts);
  const key = JSON.stringify([made, engine]);
  let done = byCuts.get(key);
  if (!done) byCuts.set(key, (done = withCuts(part, made, engine)));
  return done;
}

/**
 * What `cutPart` takes off a part, as convex solids in its own frame, already mirrored. Where a round
 * solid is cut, what goes is as closely held as what stays.
 */
export function takenOff(
  part: Part,
  cuts: readonly Cut[],
  engine: PositionRanges,
): readonly Solid[] {
  const off: Solid[] = [];
  withCuts(
    part,
    cuts.filter(({ depth }) => depth > 0),
    engine,
    off,
  );
  return off;
}

/** @param off where what is taken off is put. */
function withCuts(
  part: Part,
  cuts: readonly Cut[],
  engine: PositionRanges,
  off: Solid[] = [],
): Part {
  const solids = part.solids.flatMap(({ taken: _taken, ...drawn }) => {
    const solid = part.mirrored ? mirrorImage(drawn) : drawn;
    let pieces: readonly Solid[] = [solid];
    for (const cut of cuts) {
      const keep = planeOf(cut, part, solid, engine);
      pieces = pieces.flatMap((piece) => cutSolid(piece, keep, cut.trim, off));
    }
    return pieces;
  });
  return { ...part, mirrored: false, solids };
}

function cutSolid(solid: Solid, keep: HalfSpace, trim: Trim, off: Solid[]): readonly Solid[] {
  const pieces: Solid[] = [];
  let rest: Solid | undefined = solid;
  const leftOf = (half: HalfSpace) => rest && within(solid, rest, half);
  for (const axis of AXES) {
    const range = trim.over?.[axis];
    if (range === undefined) continue;
    for (const [out, inside] of [
      [across(axis, 'below', range.min), across(axis, 'above', range.min)],
      [across(axis, 'above', range.max), across(axis, 'below', range.max)],
    ] as const) {
      const piece = leftOf(out);
      if (piece === rest) return rest ? [solid] : pieces;
      if (piece) pieces.push(piece);
      rest = leftOf(inside);
    }
  }
  const left = leftOf(keep);
  // A solid that the cut misses stays as it is, round where it was.
  if (left === rest && rest !== undefined) return [solid];
  const gone = leftOf(beyond(keep));
  if (gone) off.push(gone);
  return left ? [...pieces, left] : pieces;
}

/** The other side of a plane. */
function beyond({ normal, at }: HalfSpace): HalfSpace {
  return { normal: [-normal[0], -normal[1], -normal[2]], at: -at };
}

/**
 * What is left in a half space of a piece of a solid. The corners of what stands for a round solid
 * reach further than it does, so the solid itself tells whether the plane meets it at all.
 */
function within(solid: Solid, piece: Solid, keep: HalfSpace): Solid | undefined {
  const axis = AXES.find((_, i) => Math.abs(keep.normal[i]!) === 1);
  if (axis === undefined) return clipped(piece, keep);
  const { min, max } = solidExtents(solid)[axis];
  const above = keep.normal[AXES.indexOf(axis)]! < 0;
  const [near, far] = above ? [-max, -min] : [min, max];
  if (near >= keep.at - IN_PLANE) return undefined;
  return far <= keep.at + IN_PLANE ? piece : clipped(piece, keep);
}

/** What a cut keeps of a part, or of one panel of it, which is cut along its own normal. */
function planeOf(
  { trim, depth }: Cut,
  part: Part,
  solid: Solid,
  engine: PositionRanges,
): HalfSpace {
  const { x, y, z } = partExtents(part);
  switch (trim.cut) {
    case 'down':
      return across('z', 'below', z.max - depth);
    case 'up':
      return across('z', 'above', z.min + depth);
    case 'ahead':
      return across('x', 'below', x.max - depth);
    case 'back':
      return across('x', 'above', x.min + depth);
    case 'left':
      return across('y', 'below', y.max - depth);
    case 'right':
      return across('y', 'above', y.min + depth);
    case 'outward':
      if (solid.shape === 'panel') return panelPlane(solid, depth, engine);
      return y.min + y.max > 0
        ? across('y', 'above', y.min + depth)
        : across('y', 'below', y.max - depth);
  }
}

/** A panel is cut along its normal, from its face towards the engine. */
function panelPlane(panel: Panel, depth: number, engine: PositionRanges): HalfSpace {
  const { normal, low, high } = acrossPanel(panel);
  const middle = ({ min, max }: Range): number => (min + max) / 2;
  const datum = dot(normal, [middle(engine.setback), middle(engine.offset), middle(engine.height)]);
  // What is kept lies away from the engine.
  return datum > (low + high) / 2
    ? { normal, at: high - depth }
    : { normal: [-normal[0], -normal[1], -normal[2]], at: -(low + depth) };
}

/** The normal of a panel as it stands, and how far it reaches along it. */
function acrossPanel(panel: Panel): { normal: Vec3; low: number; high: number } {
  const { tilt, corners } = panel;
  const normal = unit(
    areaVector(pointsOf({ shape: 'hull', points: corners, ...(tilt && { tilt }) })),
  );
  const heights = pointsOf(panel).map((point) => dot(normal, point));
  return { normal, low: minOf(heights), high: maxOf(heights) };
}

type Panel = Extract<Solid, { shape: 'panel' }>;

/** Millimetres at which a cut this way, all over the part, leaves nothing of it. */
export function throughDepth(part: Part, cut: Trim['cut']): number {
  const { x, y, z } = partExtents(part);
  const along = { down: z, up: z, ahead: x, back: x, left: y, right: y, outward: y }[cut];
  const across = part.solids.map((solid) => {
    if (cut !== 'outward' || solid.shape !== 'panel') return along.max - along.min;
    const { low, high } = acrossPanel(solid);
    return high - low;
  });
  return maxOf(across);
}

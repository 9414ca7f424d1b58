/** The datums of a file as lines in a view: the chassis' across it all, the engine's about its crankshaft. */

import type { Datum, Position, Range, Scenario, Vec3 } from '../model/scenario.js';
import { AXES } from '../model/scenario.js';
import { plus } from '../model/vector.js';
import * as trig from '../model/trig.js';
import { onPaper } from './view.js';
import type { Point2, View, ViewName } from './view.js';

/** A datum's line in the view's plane. */
export interface DatumLine {
  readonly name: string;
  readonly from: Point2;
  readonly to: Point2;
}

/** Millimetres that an engine datum's line goes to either side. */
const REACH = 110;

/** The two axes that a view shows. */
const SHOWN: Readonly<Record<ViewName, readonly [number, number]>> = {
  side: [0, 2],
  top: [0, 1],
  front: [1, 2],
};

/** The chassis' datums as lines from edge to edge of a window, those within it. */
export function chassisDatums(s: Scenario, view: View, low: Point2, high: Point2): DatumLine[] {
  return s.datums.chassis.flatMap((datum) =>
    planesOf(datum, view).flatMap(({ axis, at }): DatumLine[] => {
      const [u, v] = onPaper(view, unitOf(axis));
      const along = u === 0 ? 1 : 0;
      const place = at * (u + v);
      if (place < low[along] || place > high[along]) return [];
      const { name } = datum;
      return along === 0
        ? [{ name, from: [place, low[1]], to: [place, high[1]] }]
        : [{ name, from: [low[0], place], to: [high[0], place] }];
    }),
  );
}

/**
 * The engine's datums as short lines, and its crankshaft, with the engine at a position.
 * @param crank from where to where along its own axis the crankshaft is drawn.
 */
export function engineDatums(
  s: Scenario,
  view: View,
  position: Position,
  crank: Range,
): DatumLine[] {
  const line = (name: string, a: Vec3, b: Vec3): DatumLine => ({
    name,
    from: onPaper(view, posed(position, a)),
    to: onPaper(view, posed(position, b)),
  });
  const centre = line('crank centreline', [crank.min, 0, 0], [crank.max, 0, 0]);
  const marks = s.datums.engine.flatMap((datum) =>
    planesOf(datum, view).map(({ axis, at }) => {
      const [i, j] = SHOWN[view.name];
      const across = unitOf(axis === i ? j : i);
      // A plane along the crankshaft is marked at the middle of the engine.
      const along: Vec3 =
        axis !== 0 && view.name !== 'front' ? [(crank.min + crank.max) / 2, 0, 0] : [0, 0, 0];
      const middle = plus(along, unitOf(axis), at);
      return line(datum.name, plus(middle, across, -REACH), plus(middle, across, REACH));
    }),
  );
  return view.name === 'front' ? marks : [centre, ...marks];
}

/** The planes of a datum that a view sees on edge. */
function planesOf(datum: Datum, view: View): { axis: number; at: number }[] {
  return SHOWN[view.name].flatMap((axis) => {
    const at = datum[AXES[axis]!];
    return at === undefined ? [] : [{ axis, at }];
  });
}

function unitOf(axis: number): Vec3 {
  return [axis === 0 ? 1 : 0, axis === 1 ? 1 : 0, axis === 2 ? 1 : 0];
}

/** A point of the engine's frame in the vehicle's. */
function posed({ setback, offset, height, pitch }: Position, [x, y, z]: Vec3): Vec3 {
  const [cos, sin] = [trig.cos(pitch), trig.sin(pitch)];
  return [setback + x * cos + z * sin, offset + y, height + z * cos - x * sin];
}

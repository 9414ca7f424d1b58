/** What to cut from stock for a mount, and what it weighs. */

import type { MountPieces } from './pieces.js';
import { boundsOf, patternsOf } from './patterns.js';
import type { Pattern } from './patterns.js';
import { areaOf } from './plate.js';
import { steelArea } from './tube.js';

/** Kilograms a cubic millimetre: 7,850 kg/m3, common practice for steel, no source. */
const STEEL = 7850e-9;

export type StockPiece =
  | {
      readonly of: 'tube';
      readonly count: 1;
      readonly diameter: number;
      readonly wall: number;
      /** Millimetres from tip to tip. */
      readonly length: number;
      /** Kilograms, cut. */
      readonly mass: number;
    }
  | {
      readonly of: 'plate';
      readonly piece: Exclude<Pattern['piece'], 'tube wrap'>;
      readonly count: number;
      readonly thick: number;
      /** Of a gusset: its legs, and the corner between them, radians. */
      readonly legs?: { readonly onPlate: number; readonly onTube: number; readonly angle: number };
      /** Of the rectangle that it is cut from. */
      readonly size: readonly [number, number];
      /** Kilograms, all of them. */
      readonly mass: number;
    };

/** The tube, then the plates. */
export function stockOf(pieces: MountPieces): readonly StockPiece[] {
  const { tube } = pieces;
  const plates = patternsOf(pieces).flatMap((pattern): StockPiece[] => {
    const { piece, count, thick, cut, holes } = pattern;
    if (thick === undefined || piece === 'tube wrap') return [];
    const drilled = holes.reduce(
      (sum, { diameter }) => sum + (Math.PI * diameter * diameter) / 4,
      0,
    );
    const [[left, right], [low, high]] = boundsOf(pattern);
    const mass = count * thick * (areaOf(cut[0]!.points) - drilled) * STEEL;
    const legs = pattern.legs && { legs: pattern.legs };
    return [{ of: 'plate', piece, count, thick, ...legs, size: [right - left, high - low], mass }];
  });
  return [
    {
      of: 'tube',
      count: 1,
      diameter: 2 * tube.radius,
      wall: tube.wall,
      length: tube.overall,
      // Cut at any angles through its centreline's ends, it holds what it would cut square there.
      mass: steelArea(tube) * tube.length * STEEL,
    },
    ...plates,
  ];
}

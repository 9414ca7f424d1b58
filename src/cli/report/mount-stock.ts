/** The cut list of the mounts, as lines of a report. */

import { maxOf, minOf } from '../../model/extremes.js';
import { stockOf } from '../../geometry/mounts/stock.js';
import type { StockPiece } from '../../geometry/mounts/stock.js';
import type { MountStanding } from '../../geometry/mounts/standing.js';
import { inMassUnit, massUnit } from '../../model/text/mass.js';
import { degrees, exactTape, tape } from '../../model/text/tape.js';
import type { Units } from '../../model/text/tape.js';
import { name } from '../../words/text.js';
import { unit } from '../../words/words.js';
import type { Telling } from '../../words/words.js';
import { list } from './lines.js';
import type { Line } from './lines.js';

/** Like pieces of all mounts together; with `all`, each mount's own with their masses. */
export function stockLines(
  standings: readonly MountStanding[],
  telling: Telling,
  all: boolean,
): Line[] {
  const { units, look } = telling;
  const made = standings.flatMap(({ mount, pieces, faults }) =>
    pieces && faults.length === 0 ? [{ mount, stock: stockOf(pieces) }] : [],
  );
  if (made.length === 0) return [];
  const every = made.flatMap(({ stock }) => stock);
  const total = `${massWords(sum(every), units)} of steel`;
  if (all) {
    const words = made.flatMap(({ mount, stock }) =>
      stock.map((piece) => {
        const own = `${name(mount.name, look, 24)} ${countWords(piece)} ${sizeWords(piece, units)}`;
        return `${own}, ${massWords(piece.mass, units)}`;
      }),
    );
    return [...list('Cut', [...words, total], '; ', look).lines];
  }
  return [...list('Cut', [...together(every, units), total], '; ', look).lines];
}

/** Like pieces with their number; tubes and gussets of one stock by what tells them apart. */
function together(pieces: readonly StockPiece[], units: Units): string[] {
  const like = new Map<string, StockPiece[]>();
  for (const piece of pieces) {
    const key = `${kindOf(piece)} ${stockWords(piece, units)}`;
    const known = like.get(key);
    if (known) known.push(piece);
    else like.set(key, [piece]);
  }
  return [...like.values()].flatMap((alike) => {
    const [first] = alike;
    const count = alike.reduce((all, piece) => all + piece.count, 0);
    const said = `${countWords(first!, count)} ${stockWords(first!, units)}`;
    if (first!.of === 'tube') {
      const lengths = alike.map((piece) => (piece.of === 'tube' ? piece.length : 0));
      const up = [...new Set(lengths.map((mm) => tape(mm, units, { round: 'up' })))];
      return [`${said}: ${up.join(', ')}${unit(units)}`];
    }
    const corners = alike.flatMap((piece) =>
      piece.of === 'plate' && piece.legs ? [piece.legs.angle] : [],
    );
    if (corners.length === 0) return [said];
    const ends = [minOf(corners), maxOf(corners)].map((angle) => degrees(angle));
    return [said, `their corners ${[...new Set(ends)].join(' to ')} deg`];
  });
}

function sum(pieces: readonly StockPiece[]): number {
  return pieces.reduce((all, { mass }) => all + mass, 0);
}

function kindOf(piece: StockPiece): string {
  return piece.of === 'tube' ? 'tube' : piece.piece;
}

function countWords(piece: StockPiece, count = piece.count): string {
  return `${count} ${kindOf(piece)}${count === 1 ? '' : 's'}`;
}

/** A piece of its own: of a tube its length too, and of a gusset its corner. */
function sizeWords(piece: StockPiece, units: Units): string {
  const stock = stockWords(piece, units);
  if (piece.of === 'tube') {
    return `${stock}, ${tape(piece.length, units, { round: 'up' })}${unit(units)} tip to tip`;
  }
  return piece.legs ? `${stock}, corner ${degrees(piece.legs.angle)} deg` : stock;
}

/** Diameter and wall; or a plate's rectangle, or a gusset's two legs, and thickness. Rounded up: never short. */
function stockWords(piece: StockPiece, units: Units): string {
  const up = (mm: number): string => tape(mm, units, { round: 'up' });
  const own = (mm: number): string => exactTape(mm, units);
  if (piece.of === 'tube') return `${own(piece.diameter)} x ${own(piece.wall)}${unit(units)}`;
  const [w, h] = piece.legs ? [piece.legs.onPlate, piece.legs.onTube] : piece.size;
  return `${up(w)} x ${up(h)} x ${own(piece.thick)}${unit(units)}`;
}

function massWords(kilograms: number, units: Units): string {
  const unitOf = massUnit(units);
  const size = inMassUnit(kilograms, unitOf);
  return `${size.toFixed(size < 1 ? 2 : 1)} ${unitOf}`;
}

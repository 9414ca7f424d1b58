/**
 * Every piece of every mount measured at one position against what must stay clear of it: the file's parts,
 * the passages, and the other mounts. The pieces are put into the bay as parts of the chassis, under rules of
 * their own, so that motions, options and certificates are those of any other gap.
 *
 * What is below an insulator stands with the chassis, and the engine rocks against it; a solid mount holds
 * the engine, which does not rock against that one.
 */

import { pieceSolids, socketSolids } from '../../geometry/mounts/solids.js';
import type { PieceName } from '../../geometry/mounts/solids.js';
import type { MountStanding } from '../../geometry/mounts/standing.js';
import { partNames } from '../../model/options.js';
import type {
  OptionSet,
  Part,
  Passage,
  Rule,
  RuleEnd,
  Scenario,
  Solid,
} from '../../model/scenario.js';
import type { Seat } from '../../model/stance.js';
import { measureAt } from '../measuring/measure.js';

/** One piece of a mount. */
export interface PieceOf {
  readonly mount: string;
  readonly piece: PieceName | 'base socket' | 'upper socket';
  /** Which gusset, or the socket on which bolt of its plate. */
  readonly number?: number;
}

export interface MountGap {
  readonly piece: PieceOf;
  readonly other:
    | { readonly of: 'part' | 'passage'; readonly name: string }
    | ({ readonly of: 'mount' } & PieceOf);
  /** True where the mount is fixed to that part by another piece. */
  readonly isOwn: boolean;
  /** True where it is the room that the part needs to come out. */
  readonly comingOut: boolean;
  /** Millimetres. */
  readonly needed: number;
  /** The least over all motions, certified from below. */
  readonly gap: number;
  readonly atRest: number;
  readonly margin: number;
}

/** How far a plate is from what it is fixed to: 0 where it lies on it, less where it is drawn inside. */
interface MountContact {
  readonly piece: PieceOf;
  readonly part: string;
  readonly gap: number;
}

export interface MountGaps {
  /** Least margin first. */
  readonly gaps: readonly MountGap[];
  readonly contacts: readonly MountContact[];
}

interface Piece {
  readonly part: Part;
  readonly piece: PieceOf;
  readonly standing: MountStanding;
}

/** Between the two words of a name that no file can hold. */
const MARK = '\u0000';

export function mountGaps(
  scenario: Scenario,
  set: OptionSet,
  seat: Seat,
  standings: readonly MountStanding[],
): MountGaps {
  const pieces = standings.flatMap(piecesOf);
  const sockets = standings.flatMap(socketsOf);
  // A bolt is turned with the engine at rest.
  const solid = [...pieces.filter(({ standing }) => !standing.mount.insulator), ...sockets];
  const soft = pieces.filter(({ standing }) => standing.mount.insulator);
  const found = [
    ...measured({ ...scenario, rock: 0, lift: 0 }, set, seat, solid, pieces),
    ...measured(scenario, set, seat, soft, pieces),
  ];
  const gaps = found.filter(({ isContact }) => !isContact).map(({ gap }) => gap);
  const contacts = found.flatMap(({ isContact, gap: { piece, other, atRest } }) =>
    isContact && other.of === 'part' ? [{ piece, part: other.name, gap: atRest }] : [],
  );
  return { gaps: gaps.sort((a, b) => a.margin - b.margin), contacts };
}

function piecesOf(standing: MountStanding): Piece[] {
  const { mount, pieces } = standing;
  if (!pieces) return [];
  return pieceSolids(pieces, mount).map(({ piece, number, solid }) =>
    asPart(standing, solid, {
      mount: mount.name,
      piece,
      ...(number !== undefined && { number }),
    }),
  );
}

function socketsOf(standing: MountStanding): Piece[] {
  const { mount, pieces } = standing;
  if (!pieces) return [];
  return socketSolids(pieces, mount).map(({ end, hole, solid }) =>
    asPart(standing, solid, { mount: mount.name, piece: `${end} socket`, number: hole }),
  );
}

function asPart(standing: MountStanding, solid: Solid, piece: PieceOf): Piece {
  const name = [MARK, piece.mount, piece.piece, piece.number ?? ''].join(MARK);
  const part: Part = {
    name,
    side: 'chassis',
    kind: 'engine mount',
    solids: [solid],
    mirrored: false,
  };
  return { part, piece, standing };
}

function isSocket({ piece }: Piece): boolean {
  return piece.piece.endsWith(' socket');
}

/** Whether two pieces are to be measured against each other: those of two mounts, a socket and its own mount's. */
function isApart(piece: Piece, other: Piece): boolean {
  if (!isSocket(piece)) return other.standing !== piece.standing;
  if (other.standing !== piece.standing) return true;
  const behind =
    piece.piece.piece === 'base socket' ? ['base plate'] : ['upper plate', 'insulator'];
  return !behind.includes(other.piece.piece);
}

interface Found {
  readonly gap: MountGap;
  readonly isContact: boolean;
}

/** What some pieces leave; mount against mount is measured once, by the earlier of the two. */
function measured(
  scenario: Scenario,
  set: OptionSet,
  seat: Seat,
  own: readonly Piece[],
  all: readonly Piece[],
): Found[] {
  if (own.length === 0) return [];
  const { passages = [], gap = 0 } = scenario.mounts ?? {};
  const names = partNames(scenario);
  const rooms = passages.map((passage): Passage => {
    return {
      ...passage,
      part: { ...passage.part, name: `${MARK}passage${MARK}${passage.part.name}` },
    };
  });
  const rules = own.flatMap((piece) => [
    ...names
      .filter((name) => !piece.standing.mount.inPlaceOf.includes(name))
      .map((name) => rule(piece, name, isNear(piece, name) ? 0 : gap)),
    ...(isSocket(piece) ? [] : rooms.map((room) => rule(piece, room.part.name, room.gap))),
    ...all
      .filter(
        (other) =>
          isSocket(piece) || !own.includes(other) || all.indexOf(other) > all.indexOf(piece),
      )
      .filter((other) => isApart(piece, other))
      .map((other) => rule(piece, other.part.name, 0)),
  ]);
  const bay: Scenario = {
    ...scenario,
    parts: [
      ...scenario.parts,
      ...rooms.map(({ part }) => part),
      ...new Set([...all, ...own].map(({ part }) => part)),
    ],
    rules,
    limits: [],
    choices: scenario.choices.map((choice) => ({
      ...choice,
      options: choice.options.map((option) => ({ ...option, rules: [], limits: [] })),
    })),
    measurements: [],
  };
  const byName = new Map([...all, ...own].map((piece) => [piece.part.name, piece]));
  const roomByName = new Map(rooms.map(({ part }, i) => [part.name, passages[i]!.part.name]));
  return measureAt(bay, set, seat).readings.flatMap((reading): Found[] => {
    const both = own.filter(({ part }) => reading.between.includes(part.name));
    const mine = both.find(isSocket) ?? both[0];
    // A part is not drawn out past a socket that is put on for a moment.
    if (!mine || (isSocket(mine) && reading.comingOut)) return [];
    const other = reading.between.find((name) => name !== mine.part.name)!;
    if (mine.standing.mount.inPlaceOf.includes(other)) return [];
    const piece = byName.get(other);
    const room = roomByName.get(other);
    const { needed, gap: least, atRest, margin, comingOut } = reading;
    return [
      {
        gap: {
          piece: mine.piece,
          other: piece
            ? { of: 'mount', ...piece.piece }
            : { of: room === undefined ? 'part' : 'passage', name: room ?? other },
          isOwn: isOwn(mine, other) && !isSocket(mine),
          comingOut,
          needed,
          gap: least,
          atRest,
          margin,
        },
        isContact: isFixedTo(mine, other),
      },
    ];
  });
}

/** Whether a piece lies on that part: the base plate on the frame, the uppermost piece on the boss. */
function isFixedTo({ piece, standing }: Piece, name: string): boolean {
  const { pad, boss, insulator } = standing.mount;
  if (piece.piece === 'base plate') return name === pad.on;
  return piece.piece === (insulator ? 'insulator' : 'upper plate') && name === boss.on;
}

/** Whether a part is one that the mount is fixed to somewhere: its other pieces come as near as its plates are thick. */
function isOwn({ standing }: Piece, name: string): boolean {
  const { pad, boss } = standing.mount;
  return name === pad.on || name === boss.on;
}

/** Whether a piece may come as near to a part as it likes, short of it: no gap is asked of a socket. */
function isNear(piece: Piece, name: string): boolean {
  return isSocket(piece) || isFixedTo(piece, name) || isOwn(piece, name);
}

function rule({ part }: Piece, name: string, gap: number): Rule {
  const end = (one: string): RuleEnd => ({ level: 'part', name: one });
  return {
    between: [end(part.name), end(name)],
    gap,
    measured: 'nearest',
    comingOut: false,
    origin: { from: 'file' },
  };
}

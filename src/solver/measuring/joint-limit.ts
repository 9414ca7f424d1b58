/** Limits on the driveline's joints: angles in space, and by how much two of them differ. */

import { JointModel } from '../../geometry/driveline/joint-model.js';
import type { Enclosure } from '../../geometry/driveline/joint-model.js';
import type { Driveline } from '../../model/fitup/driveline.js';
import type { Limit } from '../../model/scenario.js';
import { boxOf } from '../box.js';
import type { PositionBox } from '../box.js';
import type { Rows } from '../rows.js';

/** Millimetres of row for a radian of joint: rows of a program should weigh alike. */
export const JOINT_LEVER = 500;

type Quantity = Extract<Limit['quantity'], { of: 'joint angle' | 'joint difference' }>;

/** What is limited lies between a line less `under` and the line and `over`. */
type Line = Pick<Enclosure, 'value' | 'slopes' | 'under' | 'over' | 'blame'>;

export class JointLimit {
  readonly kind = 'joint';
  private readonly models: readonly JointModel[];

  constructor(
    readonly limit: Limit,
    quantity: Quantity,
    driveline: Driveline,
  ) {
    const { state } = quantity;
    const joints = quantity.of === 'joint angle' ? [quantity.joint] : (['front', 'rear'] as const);
    this.models = joints.map((joint) => new JointModel(driveline, joint, state));
  }

  /** Radians. */
  value(x: ArrayLike<number>): number {
    const [first, second] = this.models.map((model) => model.at(x));
    return second === undefined ? first! : Math.abs(first! - second);
  }

  /** A lower and an upper bound of the slack anywhere between two positions, radians. */
  slackOver(lo: ArrayLike<number>, hi: ArrayLike<number>): { least: number; most: number } {
    const { mid, half } = boxOf(lo, hi);
    const [first, second] = this.models.map((model) => model.over(mid, half));
    const { min, max } = this.limit;
    if (second === undefined) {
      const [low, high] = [first!.min, first!.max];
      return {
        least: Math.min(low - min, max - high),
        most: Math.min(high - min, max - low),
      };
    }
    const line = differenceOf(first!, second);
    const wide = line.slopes.reduce((sum, slope) => sum + Math.abs(slope), 0);
    const low = Math.max(first!.min - second.max, line.value - wide - line.under);
    const high = Math.min(first!.max - second.min, line.value + wide + line.over);
    const nearest = Math.max(0, low, -high);
    return { least: max - Math.max(high, -low), most: max - nearest };
  }

  /** Whether a joint may be straight somewhere in the box: its angle has a kink there, which no line follows. */
  mayBeStraight({ mid, half }: PositionBox): boolean {
    return this.models.some((model) => model.over(mid, half).over === Infinity);
  }

  /** Hard rows over a box, above the slack everywhere in it; `slack` radians are let go. */
  addRows(box: PositionBox, slack: number, rows: Rows): void {
    for (const { line, way, end } of this.sides(box)) {
      const loose = way > 0 ? line.over : line.under;
      if (loose < Infinity) hardRow(line, way, end, loose, loose + slack, rows);
    }
  }

  /** The same to first order, `pad` millimetres of row inside. */
  addModelRows(box: PositionBox, pad: number, rows: Rows): void {
    for (const { line, way, end } of this.sides(box))
      hardRow(line, way, end, 0, -pad / JOINT_LEVER, rows);
  }

  /** Where the line must stay above an end (way 1), or below it (way -1). */
  private sides({ mid, half }: PositionBox): { line: Line; way: 1 | -1; end: number }[] {
    const [first, second] = this.models.map((model) => model.over(mid, half));
    const { min, max } = this.limit;
    if (second === undefined) {
      const line = first!;
      return [
        ...(min > 0 ? [{ line, way: 1 as const, end: min }] : []),
        ...(max < Infinity ? [{ line, way: -1 as const, end: max }] : []),
      ];
    }
    return [
      { line: differenceFromBelow(first!, second), way: -1, end: max },
      { line: differenceFromBelow(second, first!), way: -1, end: max },
    ];
  }
}

/** A line under a less b; b is taken at its most where it may be straight, for there it has a kink. */
function differenceFromBelow(a: Enclosure, b: Enclosure): Line {
  if (b.over < Infinity) return differenceOf(a, b);
  const loose = b.max - b.value;
  const blame = a.blame.map((part, k) => (part + b.blame[k]!) / 2);
  return { ...a, value: a.value - b.value, under: a.under + loose, over: Infinity, blame };
}

function differenceOf(a: Line, b: Line): Line {
  return {
    value: a.value - b.value,
    slopes: a.slopes.map((slope, k) => slope - b.slopes[k]!),
    under: a.under + b.over,
    over: a.over + b.under,
    blame: a.blame.map((part, k) => (part + b.blame[k]!) / 2),
  };
}

function hardRow(
  { value, slopes, blame }: Line,
  way: 1 | -1,
  end: number,
  loose: number,
  room: number,
  rows: Rows,
): void {
  const row = rows.add(-1, true);
  rows.values[row] = JOINT_LEVER * (way * (value - end) + room);
  for (let k = 0; k < 4; k++) {
    rows.slopes[4 * row + k] = JOINT_LEVER * way * slopes[k]!;
    rows.blame[4 * row + k] = JOINT_LEVER * loose * blame[k]!;
  }
}

/**
 * What a tape and an angle finder read on the engine as it hangs. Plain data: millimetres and radians.
 *
 * An error is how far a reading may be off, either way; more than 0.
 */

import type { Axis, Measure, Vec3 } from '../scenario.js';

/** What a tape may be off where a reading does not say, millimetres: 1/16 in. */
export const TAPE_ERROR = 1.5875;
/** The same of an angle finder, radians: the tenth of a degree that it shows. */
export const ANGLE_ERROR = (0.1 * Math.PI) / 180;

interface Read {
  /** How it is called: as the sheet has it. */
  readonly name: string;
  readonly value: number;
  readonly error: number;
}

export type MeasuredReading =
  /** A gap at rest between a part of the engine and one of the chassis. */
  | (Read & {
      readonly of: 'gap';
      readonly between: readonly [string, string];
      readonly measured: Measure;
    })
  /** Where a point of the engine is along an axis, in the chassis frame; `point` is from the engine datum. */
  | (Read & { readonly of: 'point'; readonly point: Vec3; readonly axis: Axis })
  /** Pitch of the crankshaft line, or roll across it, in the frame's own axes. */
  | (Read & { readonly of: 'angle'; readonly angle: 'pitch' | 'roll' })
  /** Length of an adjuster of the mock-up, from point to point. */
  | (Read & { readonly of: 'adjuster'; readonly adjuster: string });

/** What each kind of reading is called, in files, on sheets and in reports. */
export const READING_NAME = {
  gap: (between: readonly [string, string], measured: Measure): string =>
    `${between.join(' - ')}${measured === 'nearest' ? '' : `, ${measured}`}`,
  point: (datum: string, axis: Axis): string => `${datum}, ${ALONG[axis]}`,
  angle: (angle: 'pitch' | 'roll'): string => `${angle} by angle finder`,
};

const ALONG: Readonly<Record<Axis, string>> = {
  x: 'fore-aft',
  y: 'side-to-side',
  z: 'up-down',
};

/**
 * What the interview asks: one thing a question, in the order the job is done. The engine, its
 * sump and its transmission are chosen first; then the bay is taped, then the engine.
 */

import type { SizeKey } from './sizes.js';
import { SUMPS } from './sizes.js';
import { BAYS, ENGINES, TRANSMISSIONS } from './catalogue.js';

interface Asked {
  /** A few words: what is asked. */
  readonly title: string;
  /** How to hold the tape, or what to go by. */
  readonly how: string;
}

export interface ChoiceQuestion extends Asked {
  readonly key: 'units' | 'engine' | 'sump' | 'transmission' | 'bay' | 'driver';
  readonly options: readonly string[];
}

export interface SizeQuestion extends Asked {
  readonly key: SizeKey;
  readonly from: string;
  readonly to: string;
  /** What a minus means, where there can be one. */
  readonly minus?: string;
}

export type Question = ChoiceQuestion | SizeQuestion;
export type QuestionKey = Question['key'];

export const QUESTIONS: readonly Question[] = [
  {
    key: 'units',
    title: 'Inches or millimetres',
    options: ['in', 'mm'],
    how: 'what your tape reads; a length may still say its own unit, such as 490 mm',
  },
  {
    key: 'engine',
    title: 'The engine',
    options: Object.keys(ENGINES),
    how: 'the nearest one in shape; its sizes come later',
  },
  {
    key: 'sump',
    title: 'Where the deep part of the oil pan is',
    options: SUMPS,
    how: 'the third of the pan that the drain plug is in, mostly',
  },
  {
    key: 'transmission',
    title: 'The transmission',
    options: Object.keys(TRANSMISSIONS),
    how: "short manual: a light car's; long manual: a truck's or an overdrive five-speed",
  },
  {
    key: 'bay',
    title: 'The vehicle',
    options: Object.keys(BAYS),
    how: 'the nearest in kind; van: the engine stands in a box between the seats',
  },
  {
    key: 'driver',
    title: "The driver's side",
    options: ['left', 'right'],
    how: 'as a person sits in it, facing forward',
  },
  {
    key: 'rails front',
    title: 'Rails apart, at the radiator',
    from: 'the inside face of one frame rail',
    to: 'the inside face of the other, level with the radiator',
    how: 'square across the frame, below any lip; where there are no rails, the narrowest sheet metal',
  },
  {
    key: 'rails rear',
    title: 'Rails apart, at the firewall',
    from: 'the inside face of one frame rail',
    to: 'the inside face of the other, level with the firewall',
    how: 'square across the frame; a few inches ahead of the firewall will do',
  },
  {
    key: 'core',
    title: 'Radiator',
    from: 'the front axle centreline',
    to: 'the rear face of the core, forward along the frame',
    minus: 'the core is behind the axle',
    how: 'drop a plumb line from the core to the floor, and one from each wheel centre; vehicle at ride height',
  },
  {
    key: 'firewall',
    title: 'Firewall',
    from: 'the front axle centreline',
    to: 'the foremost face of the firewall, back along the frame',
    how: 'at the height of the heads, not at a recess; plumb line to the floor',
  },
  {
    key: 'hood',
    title: 'Hood',
    from: 'the top of the frame rails',
    to: 'the underside of the shut hood, half way from radiator to firewall',
    how: 'a ball of modelling clay on a stick, hood shut on it; mind the ribs. In a van: the lid',
  },
  {
    key: 'crossmember front',
    title: 'Crossmember, front edge',
    from: 'the front axle centreline',
    to: 'the front edge of the main crossmember, forward along the frame',
    minus: 'the edge is behind the axle',
    how: 'at the middle of the vehicle, where the oil pan passes',
  },
  {
    key: 'crossmember length',
    title: 'Crossmember, front to rear',
    from: 'the front edge of that crossmember',
    to: 'its rear edge, along the frame',
    how: 'the widest it gets under the engine',
  },
  {
    key: 'crossmember top',
    title: 'Crossmember, top',
    from: 'the top of the frame rails',
    to: 'the highest point of that crossmember, down',
    minus: 'it stands above the rails',
    how: 'a straightedge across both rails, and the tape down from it at the middle',
  },
  {
    key: 'tunnel width',
    title: 'Tunnel, width',
    from: 'one inside wall of the transmission tunnel',
    to: 'the other, at the firewall',
    how: 'from below, half way up the walls',
  },
  {
    key: 'tunnel height',
    title: 'Tunnel, height',
    from: 'the top of the frame rails',
    to: "the underside of the tunnel's roof at the firewall, up",
    how: 'a straightedge across the rails, and the tape up from it',
  },
  {
    key: 'steering box',
    title: 'Steering box',
    from: "the inside face of the driver's rail",
    to: 'the part of the steering box that stands furthest in towards the engine',
    how: 'square across the frame; 0 where nothing stands inside the rail',
  },
  {
    key: 'steering shaft',
    title: 'Steering shaft, at the firewall',
    from: "the inside face of the driver's rail",
    to: 'the near side of the shaft where it meets the firewall, towards the engine',
    minus: 'the shaft is outside of that face',
    how: 'plumb line from the shaft, then square across',
  },
  {
    key: 'axle',
    title: 'Axle or arms, at full bump',
    from: 'the top of the frame rails',
    to: 'the highest point that axle or arms reach under the engine, down',
    how: 'on the bump stops, or at ride height less the travel that is left',
  },
  {
    key: 'engine length',
    title: 'Engine, length',
    from: 'the front face of the foremost pulley, without the fan',
    to: 'the rear face of the block, where the bell housing bolts on',
    how: 'along the crankshaft, belts on',
  },
  {
    key: 'engine width',
    title: 'Engine, width',
    from: 'the widest point on one side, headers included',
    to: 'the widest point on the other side',
    how: 'between two straightedges held plumb against the sides',
  },
  {
    key: 'engine height',
    title: 'Engine, height above the crank',
    from: 'the centre of the crank pulley',
    to: 'the carburettor pad, up; without one on top, the top of the intake or of the valve cover',
    how: 'with the engine level; the air cleaner does not count',
  },
  {
    key: 'sump depth',
    title: 'Engine, depth below the crank',
    from: 'the centre of the crank pulley',
    to: 'the lowest point of the oil pan, down',
    how: 'with the engine level',
  },
  {
    key: 'transmission length',
    title: 'Transmission, length',
    from: 'the front face of the bell housing, where it meets the block',
    to: 'the end of the tail, or of the transfer case',
    how: 'along the shaft, with the bell housing on and the yoke out',
  },
  {
    key: 'tail height',
    title: 'Transmission, height of the tail',
    from: 'the top of the tail housing',
    to: 'its bottom',
    how: 'just ahead of the mount; with a transfer case, the height of that case',
  },
];

/** The place of a question in the interview, from 0. */
export function placeOf(key: QuestionKey): number {
  return QUESTIONS.findIndex((question) => question.key === key);
}

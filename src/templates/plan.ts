/** One job drawn from templates: engine, transmission and bay put together at their sizes. */

import type { Kind } from '../model/kinds.js';
import type { Coordinate } from '../model/scenario.js';
import { BAYS, ENGINES, TRANSMISSIONS } from './catalogue.js';
import type { BayName, EngineName, TransmissionName } from './catalogue.js';
import { cylinder, part, tube } from './drawing.js';
import type { DrawnPart, Pair } from './drawing.js';
import type { SizeKey, SizeRange, Sizes, Sump } from './sizes.js';
import type { Contact, EngineTemplate } from './template.js';

/** What the job is, before any size. */
export interface Job {
  readonly driver: 'left' | 'right';
  readonly bay: BayName;
  readonly engine: EngineName;
  readonly sump: Sump;
  readonly transmission: TransmissionName;
}

export interface PlannedOption {
  readonly name: string;
  readonly remove: readonly string[];
  /** On the chassis. */
  readonly add: readonly DrawnPart[];
  readonly hours: number;
  readonly cost: number;
}

export interface PlannedChoice {
  readonly name: string;
  readonly options: readonly PlannedOption[];
}

/** Everything a scenario says, as data. Inches and degrees. */
export interface Plan {
  readonly engine: readonly DrawnPart[];
  readonly chassis: readonly DrawnPart[];
  readonly position: Readonly<Record<Coordinate, Pair>>;
  readonly datums: {
    readonly chassis: Readonly<Record<string, Readonly<Record<string, number>>>>;
    readonly engine: Readonly<Record<string, Readonly<Record<string, number>>>>;
  };
  readonly choices: readonly PlannedChoice[];
  readonly notFitted: readonly Kind[];
  /** Pairs on the engine that touch on purpose; names of parts that are not there may be among them. */
  readonly contacts: readonly Contact[];
}

const OFFSET: Pair = [-2, 2];
/** How far the search may go beyond the fan at the core and the block at the firewall. */
const SPARE = 2;
const STANDS: Omit<PlannedOption, 'name'> = { remove: [], add: [], hours: 0, cost: 0 };

/** The sizes a job is scaled by, each with its usual value and how far its template reaches. */
export function rangesOf(job: Job): Readonly<Record<SizeKey, SizeRange>> {
  return {
    ...BAYS[job.bay].sizes,
    ...ENGINES[job.engine].sizes,
    ...TRANSMISSIONS[job.transmission].sizes,
  };
}

/**
 * Draws a job.
 * @param sizes inches, each within its range of `rangesOf`.
 */
export function planOf(job: Job, sizes: Sizes<SizeKey>): Plan {
  const engine: EngineTemplate = ENGINES[job.engine];
  const transmission = TRANSMISSIONS[job.transmission];
  const bay = BAYS[job.bay];
  const bare = engine.draw(sizes, job.sump);
  const rides = [...bare, ...exhausts(bare, sizes), ...transmission.draw(sizes)];
  const chassis = bay.draw(sizes, job.driver === 'left' ? -1 : 1);
  return {
    engine: rides,
    chassis,
    position: {
      setback: setback(bare, sizes),
      offset: OFFSET,
      height: bay.height,
      pitch: bay.pitch,
    },
    datums: {
      chassis: {
        'front axle': { x: 0 },
        'frame centre': { y: 0 },
        'rail top': { z: 0 },
        'core face': { x: -sizes.core },
        'firewall face': { x: sizes.firewall },
      },
      engine: {
        'block rear face': { x: 0 },
        'pulley face': { x: -sizes['engine length'] },
        [engine.top]: { z: sizes['engine height'] },
      },
    },
    choices: choicesFor(rides, chassis),
    notFitted: [...new Set<Kind>([...bay.lacks, ...engine.lacks, ...transmission.lacks])],
    contacts: [...engine.contacts, ...transmission.contacts, ...JOINTS],
  };
}

/** Where engine, transmission and exhaust meet. */
const JOINTS: readonly Contact[] = [
  ['block', 'bell housing'],
  ['header', 'exhaust'],
  ['left header', 'left exhaust'],
  ['right header', 'right exhaust'],
];

/** A short pipe straight back from the end of each header. */
function exhausts(engine: readonly DrawnPart[], sizes: Sizes<SizeKey>): DrawnPart[] {
  const end = 0.4 * sizes['transmission length'];
  return engine.flatMap((header) => {
    const solid = header.kind === 'header' ? header.solids.at(-1) : undefined;
    if (solid === undefined || !('tube' in solid)) return [];
    const { through, diameter } = solid.tube;
    const [x, y, z] = through.at(-1)!;
    const other = header.mirror?.replace('header', 'exhaust');
    return part(
      header.name.replace('header', 'exhaust'),
      'exhaust',
      tube(diameter, [x, y, z], [end, y, z]),
      { ...(other === undefined ? {} : { mirror: other }), note: 'its first foot' },
    );
  });
}

/** From the pulley at the core to the block at the firewall, and a little beyond either. */
function setback(engine: readonly DrawnPart[], sizes: Sizes<SizeKey>): Pair {
  const atCore = sizes['engine length'] - sizes.core;
  const atFirewall = sizes.firewall;
  return [
    Math.floor(Math.min(atCore, atFirewall) - SPARE),
    Math.ceil(Math.max(atCore, atFirewall) + SPARE),
  ];
}

function choicesFor(engine: readonly DrawnPart[], chassis: readonly DrawnPart[]): PlannedChoice[] {
  const choices: PlannedChoice[] = [];
  if (engine.some(({ name }) => name === 'oil filter')) {
    const remote = { name: 'remote', remove: ['oil filter'], add: [], hours: 1.5, cost: 90 };
    choices.push({ name: 'oil filter', options: [{ name: 'on the block', ...STANDS }, remote] });
  }
  const puller = pullerFan(chassis);
  if (puller !== undefined) {
    const electric = { remove: ['fan'], add: [puller], hours: 2, cost: 180 };
    choices.push({
      name: 'fan',
      options: [
        { name: 'mechanical', ...STANDS },
        { name: 'electric puller', ...electric },
      ],
    });
  }
  return choices;
}

/** An electric fan on the rear of the core, as large as the core is high, and 16 in at most. */
function pullerFan(chassis: readonly DrawnPart[]): DrawnPart | undefined {
  const core = chassis.find(({ kind }) => kind === 'radiator')?.solids[0];
  if (core === undefined || !('box' in core)) return undefined;
  const { x, z } = core.box;
  const diameter = Math.min(16, z[1] - z[0] - 1);
  const depth: Pair = [x[1], x[1] + 3.5];
  return part('puller fan', 'electric fan', cylinder('x', depth, [0, (z[0] + z[1]) / 2], diameter));
}

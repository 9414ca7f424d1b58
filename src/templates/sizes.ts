/** The few sizes that a template is scaled by. All of them inches. */

const BAY_SIZES = [
  'rails front',
  'rails rear',
  'core',
  'firewall',
  'hood',
  'crossmember front',
  'crossmember length',
  'crossmember top',
  'tunnel width',
  'tunnel height',
  'steering box',
  'steering shaft',
  'axle',
] as const;
const ENGINE_SIZES = [
  'engine length',
  'engine width',
  'engine height',
  'sump depth',
] as const;
const TRANSMISSION_SIZES = ['transmission length', 'tail height'] as const;

export type BaySize = (typeof BAY_SIZES)[number];
export type EngineSize = (typeof ENGINE_SIZES)[number];
export type TransmissionSize = (typeof TRANSMISSION_SIZES)[number];
export type SizeKey = BaySize | EngineSize | TransmissionSize;

/** What such a thing usually measures, and what the template can still be drawn at. */
export interface SizeRange {
  readonly usual: number;
  readonly least: number;
  readonly most: number;
}

export type SizeRanges<K extends SizeKey> = Readonly<Record<K, SizeRange>>;
export type Sizes<K extends SizeKey> = Readonly<Record<K, number>>;

export function range(least: number, usual: number, most: number): SizeRange {
  return { least, usual, most };
}

export const SUMPS = ['front', 'middle', 'rear'] as const;
export type Sump = (typeof SUMPS)[number];

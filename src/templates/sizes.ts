/** The few sizes that a template is scaled by. All of them inches. */

export type BaySize =
  | 'rails front'
  | 'rails rear'
  | 'core'
  | 'firewall'
  | 'hood'
  | 'crossmember front'
  | 'crossmember length'
  | 'crossmember top'
  | 'tunnel width'
  | 'tunnel height'
  | 'steering box'
  | 'steering shaft'
  | 'axle';
export type EngineSize = 'engine length' | 'engine width' | 'engine height' | 'sump depth';
export type TransmissionSize = 'transmission length' | 'tail height';
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

/** Every template by the name it is asked for. */

import { COUPE, FOUR_BY_FOUR, PICKUP, VAN } from './bays/bays.js';
import { FLAT_FOUR } from './engines/flat.js';
import { INLINE_FOUR, INLINE_SIX } from './engines/inline.js';
import { OVERHEAD_CAM_V8, PUSHROD_V8, V6 } from './engines/vee.js';
import type { BayTemplate, EngineTemplate, TransmissionTemplate } from './template.js';
import { AUTOMATIC, LONG_MANUAL, SHORT_MANUAL, WITH_TRANSFER_CASE } from './transmissions.js';

export const ENGINES = {
  'inline four': INLINE_FOUR,
  'inline six': INLINE_SIX,
  V6,
  'pushrod V8': PUSHROD_V8,
  'overhead-cam V8': OVERHEAD_CAM_V8,
  'flat four': FLAT_FOUR,
} as const satisfies Record<string, EngineTemplate>;

export const TRANSMISSIONS = {
  'short manual': SHORT_MANUAL,
  'long manual': LONG_MANUAL,
  automatic: AUTOMATIC,
  'with transfer case': WITH_TRANSFER_CASE,
} as const satisfies Record<string, TransmissionTemplate>;

export const BAYS = {
  pickup: PICKUP,
  coupe: COUPE,
  '4x4': FOUR_BY_FOUR,
  van: VAN,
} as const satisfies Record<string, BayTemplate>;

export type EngineName = keyof typeof ENGINES;
export type TransmissionName = keyof typeof TRANSMISSIONS;
export type BayName = keyof typeof BAYS;

/** Which coordinates a view moves the engine along, and which way. */

import { viewOf } from '../../drawings/view.js';
import type { ViewName } from '../../drawings/view.js';
import type { Vec3 } from '../../model/scenario.js';

type Length = 'setback' | 'offset' | 'height';

export interface Way {
  readonly coordinate: Length;
  /** Whether the coordinate grows to the right of the paper, or up it. */
  readonly sign: 1 | -1;
}

const BY_AXIS: readonly Length[] = ['setback', 'offset', 'height'];

export function ways(name: ViewName): { readonly across: Way; readonly up: Way } {
  const { u, v } = viewOf(name);
  return { across: wayOf(u), up: wayOf(v) };
}

function wayOf(along: Vec3): Way {
  const axis = along.findIndex((one) => one !== 0);
  return { coordinate: BY_AXIS[axis]!, sign: along[axis]! > 0 ? 1 : -1 };
}

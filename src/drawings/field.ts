/** What the field of a drawing is drawn from. */

import type { Dimension } from './dimensions.js';
import type { Run } from './edges.js';
import type { Seen } from './seen.js';
import type { Subject } from './subject.js';
import type { View } from './view.js';
import type { Window } from './window.js';

export interface Field {
  readonly subject: Subject;
  readonly view: View;
  readonly window: Window;
  readonly seen: readonly Seen[];
  /** The gaps that this view dimensions. */
  readonly shown: readonly Dimension[];
}

/** A part with its outer edge in the view's plane. */
export interface Edged extends Seen {
  readonly edges: readonly Run[];
}

/** What a sheet tells, as data. */

import type { Drawings } from '../../drawings/drawing.js';
import type { Kind } from '../../model/kinds.js';
import type { PlaceAnswer, Reading } from '../../solver/answer.js';
import type { Again } from '../../solver/measuring/again.js';
import type { Hoist } from '../../solver/measuring/hoist.js';
import type { SetUp } from '../../solver/fitup/set-up.js';
import type { ToTape } from '../../solver/fitup/to-tape.js';
import type { Unruled } from '../../solver/measuring/unruled.js';
import type { DrivelineAnswer } from '../json/driveline.js';
import type { MountsAnswer } from '../json/mounts.js';
import type { Asked } from '../report/next.js';
import type { PaperName } from './style.js';

export interface Sheet {
  readonly answer: PlaceAnswer;
  readonly asked: Asked;
  /** Every rule at the place told, tightest first, each with what the optimum says of its binding. */
  readonly readings: readonly Reading[];
  readonly unruled: Unruled;
  readonly again: readonly Again[];
  readonly notDrawn: readonly Kind[];
  readonly hoist?: Hoist;
  /** Where the file has them. */
  readonly driveline?: DrivelineAnswer;
  readonly mockup?: SetUp;
  readonly mounts?: MountsAnswer;
  /** What to tape once it hangs; the mock-up's adjusters first. */
  readonly toTape: readonly ToTape[];
  /** The file's warnings, one line each. */
  readonly warnings: readonly string[];
  readonly drawings: Drawings;
  /** ISO. */
  readonly date: string;
  readonly paper?: PaperName;
}

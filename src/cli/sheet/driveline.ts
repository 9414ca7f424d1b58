/** The driveline on the sheet: its joints at ride, bump and droop, and what to order the shaft by. */

import type { DrivelineAnswer } from '../driveline-json.js';
import {
  brokenLines,
  DRIVELINE_CAUTION,
  drivelineCells,
  drivelineHeadline,
  drivelineLines,
} from '../report/driveline.js';
import type { Telling } from '../../words/words.js';
import { BLANK, heading, paragraphOf, tableOf, told } from './html.js';

/** With a blank for every true angle and length, to measure again before a shaft is ordered. */
export function drivelinePart(answer: DrivelineAnswer, telling: Telling): string {
  const head = drivelineHeadline(answer);
  const [heads, ...rows] = drivelineCells(answer, telling);
  return [
    heading('Driveline'),
    paragraphOf(`${head.label} ${head.text}`),
    tableOf(
      [...heads!, 'measured'],
      rows.map((row) => [...row, BLANK]),
      'driveline',
    ),
    told([...brokenLines(answer, telling), ...drivelineLines(answer, telling)]),
    paragraphOf(
      'Angles in degrees. Order a shaft by its length measured again, the vehicle at ride height on its wheels.',
    ),
    paragraphOf(DRIVELINE_CAUTION, 'caution'),
  ].join('\n');
}

/** The driveline on the sheet: its joints at ride, bump and droop, and what to order the shaft by. */

import type { DrivelineAnswer } from '../json/driveline.js';
import {
  brokenLines,
  DRIVELINE_CAUTION,
  drivelineCells,
  drivelineHeadline,
  drivelineLines,
} from '../report/driveline.js';
import { checkCells } from '../../words/driveline.js';
import type { Telling } from '../../words/words.js';
import { BLANK, heading, paragraphOf, tableOf, told } from './html.js';

/** Where the cells have what a joint may be: beside its true angle. */
const AFTER_TRUE = 5;

/** With a blank for every true angle and length, to measure again before a shaft is ordered. */
export function drivelinePart(answer: DrivelineAnswer, telling: Telling): string {
  const head = drivelineHeadline(answer);
  const [heads, ...rows] = drivelineCells(answer, telling);
  const may = mayBe(answer, telling);
  return [
    heading('Driveline'),
    paragraphOf(`${head.label} ${head.text}`),
    tableOf(
      [...heads!.toSpliced(AFTER_TRUE, 0, 'may be'), 'measured'],
      rows.map((row, i) => [...row.toSpliced(AFTER_TRUE, 0, may[i]!), BLANK]),
      'driveline',
    ),
    told([...brokenLines(answer, telling), ...drivelineLines(answer, telling)]),
    paragraphOf(
      'Angles in degrees. Order a shaft by its length measured again, the vehicle at ride height on its wheels.',
    ),
    paragraphOf(DRIVELINE_CAUTION, 'caution'),
  ].join('\n');
}

/** For each joint of each state, what it may be: `0.5 to 5.8`, `5.8 at most`; nothing where nothing is asked. */
function mayBe({ standing, checks }: DrivelineAnswer, telling: Telling): string[] {
  return standing.states.flatMap(({ state, rear }) =>
    (rear ? (['front', 'rear'] as const) : (['front'] as const)).map((joint) => {
      const check = checks.find(
        (one) => one.of === 'joint angle' && one.state === state && one.joint === joint,
      );
      return check ? checkCells(check, telling).may.replace(/^may be /, '') : '';
    }),
  );
}

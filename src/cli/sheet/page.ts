/** A sheet to print and take to the vehicle: one HTML file, nothing loaded from elsewhere, no script. */

import { CAUTION } from '../report/answer.js';
import { printedPolicy } from '../writing/policy.js';
import type { Telling } from '../../words/words.js';
import { asBuiltPart } from './asbuilt.js';
import { checkList } from './checklist.js';
import { drivelinePart } from './driveline.js';
import { paragraphOf, safe } from './html.js';
import { mockupCard } from './mockup.js';
import { mountsPart, patternsPart } from './mounts.js';
import { answerPart, bindsPart, optionsPart, proofPart, roomPart, setUpCard } from './sections.js';
import type { Sheet } from './sheet.js';
import { styleFor } from './style.js';

/** What tells a sheet of ours from any other file, so that it may be written over. */
export const SHEET_MARK = '<meta name="generator" content="Berth">';

const CAUTIONS = [
  CAUTION.text,
  'Lifting, cutting, welding, and any work on steering, brakes, fuel or exhaust: by local codes and by who is licensed for it. Support the engine and the vehicle on what is rated for them.',
];

/** The whole page as HTML text. */
export function sheetPage(sheet: Sheet, telling: Telling): string {
  const { scenario } = telling;
  const isCut = sheet.answer.main.options.some((option, c) => {
    return (scenario.choices[c]!.options[option]!.cuts ?? []).length > 0;
  });
  const said = isCut ? [...CAUTIONS, 'Measure every cut again before cutting.'] : CAUTIONS;
  const cautions = said.map((text) => paragraphOf(text)).join('\n');
  const drawings = sheet.drawings.views.map(
    ({ svg }) => `<section class="drawing">\n${svg}</section>`,
  );
  const style = styleFor(sheet.paper);
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${printedPolicy(style)}">
<meta name="viewport" content="width=device-width">
${SHEET_MARK}
<title>${safe(scenario.title)}</title>
<style>${style}</style>
</head>
<body>
<h1>${safe(scenario.title)}</h1>
<p>${safe(`${sheet.date}. Measured from ${scenario.origin}.`)}</p>
${answerPart(sheet, telling)}
${setUpCard(sheet, telling)}
<div class="caution">
${cautions}
</div>
${sheet.mockup ? mockupCard(sheet.mockup, telling) : ''}
${bindsPart(sheet, telling)}
${sheet.driveline ? drivelinePart(sheet.driveline, telling) : ''}
${drawings.join('\n')}
${sheet.mounts ? mountsPart(sheet.mounts, telling) : ''}
${optionsPart(sheet, telling)}
${roomPart(sheet, telling)}
${asBuiltPart(sheet.toTape, telling)}
${checkList(sheet.readings, sheet.drawings.dimensions, telling)}
${proofPart(sheet, telling)}
${sheet.mounts ? patternsPart(sheet.mounts, telling) : ''}
</body>
</html>
`;
}

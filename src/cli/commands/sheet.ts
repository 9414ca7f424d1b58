/** `berth sheet`: the answer as one page to print, drawings among it, or the drawings alone. */

import { join } from 'node:path';
import { drawingsOf } from '../../drawings/drawing.js';
import type { Drawings } from '../../drawings/drawing.js';
import { notDrawn } from '../../model/notdrawn.js';
import { guessedParts } from '../../model/options.js';
import { withCutsOf } from '../../model/trims.js';
import { stanceOf } from '../../model/stance.js';
import { readingsToTape } from '../../solver/fitup/to-tape.js';
import { setUp } from '../../solver/fitup/set-up.js';
import { hoistTo } from '../../solver/measuring/hoist.js';
import { aimAsked, paperAsked } from '../asking/amounts-asked.js';
import { cutsAsked, optionNames } from '../asking/options-asked.js';
import { unitsAsked } from '../asking/asked.js';
import type { Interrupt } from '../running/interrupt.js';
import type { Io } from '../io.js';
import { loadScenario } from '../asking/load.js';
import { drivelineAnswer } from '../json/driveline.js';
import { lookFor } from '../look.js';
import { mountsAnswer } from '../json/mounts.js';
import { held } from '../asking/opened.js';
import { mistake, problemLine } from '../problems.js';
import { makeFolder, putFiles, refuseOther } from '../writing/put.js';
import type { ToPut } from '../writing/put.js';
import { verdict } from '../report/headline.js';
import { shown } from '../report/shown.js';
import { withBinding } from '../report/rules.js';
import { changes } from '../../words/words.js';
import { sheetPage, SHEET_MARK } from '../sheet/page.js';
import { writtenText } from '../writing/told.js';
import { STATUS } from '../status.js';
import { placed } from './place.js';
import type { PlaceOptions } from './place.js';

type SearchOptions = Pick<
  PlaceOptions,
  'units' | 'tolerance' | 'timeLimit' | 'memoryLimit' | 'pin' | 'option' | 'aim' | 'keep'
>;

/** As commander gives them: all text. */
export interface SheetOptions extends SearchOptions {
  readonly output?: string;
  readonly svg?: string;
  readonly paper?: string;
  readonly cut?: readonly string[];
  readonly force?: boolean;
}

/** Nothing is cut to a terminal's width: a page has its own. */
const UNFOLDED = { width: 100_000, plain: false, colour: false };

/** What tells a sheet, and a drawing, of ours from any other file. */
const SHEET = { mark: SHEET_MARK, what: 'sheet' };
const DRAWING = { mark: 'data-berth-drawing', what: 'sheet' };

/**
 * Reads the file, searches, writes what was asked for and returns the exit status.
 * @throws UserError for anything wrong with the file, the options or where to write.
 */
export async function runSheet(
  file: string,
  options: SheetOptions,
  io: Io,
  interrupt: Interrupt,
): Promise<number> {
  const { output, svg } = options;
  if (output === undefined && svg === undefined) {
    throw mistake('sheet needs the name of the page to write, or a folder for drawings', {
      expected: 'berth sheet bay.yaml -o sheet.html, or --svg drawings',
    });
  }
  const aim = aimAsked(options.aim);
  if (aim === 'margin' && options.keep !== undefined) {
    throw mistake('--keep needs --aim centre, low or back: the roomiest place keeps all there is');
  }
  const limit = held(interrupt, options);
  interrupt.keepFor(2);
  optionNames(options.option ?? []);
  const paper = paperAsked(options.paper);
  if (output !== undefined) await refuseOther(output, file, SHEET, options.force);
  const { scenario: drawn, warnings } = await loadScenario(file, io);
  const units = unitsAsked(options.units, drawn);
  const cuts = cutsAsked(options.cut ?? [], units, drawn);
  const scenario = withCutsOf(drawn, cuts, units);
  const kept = new Map([...cuts].map((_, i) => [drawn.choices.length + i, 1] as const));
  const look = lookFor(io, true);
  const done = await placed(scenario, { ...options, aim, limit }, io, interrupt, look, kept);
  const { answer } = done;
  const { options: set } = answer.main;
  const { standing } = shown(answer.main);
  const telling = { scenario, units, look: UNFOLDED, guessed: guessedParts(scenario, set) };
  const readings = withBinding(standing, answer.main.optimum);
  const did = changes(set, telling).map(({ what }) => what);
  const date = io.today();
  const drawings = drawingsOf({
    scenario,
    set,
    standing: { ...standing, readings },
    units,
    options: did.length === 0 ? 'as it stands' : did.join('; '),
    date,
  });
  const files: ToPut[] = [];
  if (output !== undefined) {
    const { position } = standing;
    const hoist = hoistTo(scenario, set, position);
    const { driveline, mockup, mounts } = scenario;
    const page = sheetPage(
      {
        answer,
        asked: done.asked,
        readings,
        unruled: done.unruled,
        again: done.again,
        notDrawn: notDrawn(scenario),
        ...(hoist && { hoist }),
        toTape: readingsToTape(scenario, set, stanceOf(position)),
        ...(driveline && { driveline: drivelineAnswer(driveline, position) }),
        ...(mounts && { mounts: mountsAnswer(scenario, mounts, set, position) }),
        ...(mockup && { mockup: setUp(scenario, mockup, set, stanceOf(position)) }),
        warnings: warnings.map((warning) => problemLine(warning, file, look)),
        drawings,
        date,
        ...(paper && { paper }),
      },
      telling,
    );
    files.push({ path: output, text: page });
  }
  if (svg !== undefined) files.push(...(await drawingFiles(svg, drawings, options.force)));
  await putFiles(files);
  // Texts on the page are plain; where it is, is told as it is.
  for (const { path } of files) io.out(writtenText(path, lookFor(io, false)));
  return STATUS[verdict(answer)];
}

/** The drawings as files of a folder, which is made if it is not there. */
async function drawingFiles(
  folder: string,
  { views }: Drawings,
  force: boolean | undefined,
): Promise<ToPut[]> {
  await makeFolder(folder);
  const files = views.map(({ view, svg }) => ({ path: join(folder, `${view}.svg`), text: svg }));
  for (const { path } of files) await refuseOther(path, undefined, DRAWING, force);
  return files;
}

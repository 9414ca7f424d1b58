/** `berth mounts`: what to make between block and frame, whether all stays open, and what each mount carries. */

import { join } from 'node:path';
import { PATTERN_MARK, patternDrawing } from '../../drawings/pattern.js';
import { patternsOf } from '../../geometry/mounts/patterns.js';
import type { MountStanding } from '../../geometry/mounts/standing.js';
import type { Units } from '../../model/text/tape.js';
import { optionNames } from '../asking/options-asked.js';
import type { Interrupt } from '../running/interrupt.js';
import type { Io } from '../io.js';
import { isMade, mountsAnswer, mountsJson } from '../json/mounts.js';
import { opened, sectionAsked, tellPrograms } from '../asking/opened.js';
import type { CommonOptions } from '../asking/opened.js';
import { DXF_MARK, patternDxf } from '../writing/pattern-dxf.js';
import { makeFolder, putFiles, refuseOther } from '../writing/put.js';
import { mountsReport } from '../report/mounts.js';
import { print } from '../report/lines.js';
import { writtenText } from '../writing/told.js';
import { STATUS } from '../status.js';
import { whereAsked } from '../asking/where-asked.js';
import type { WhereOptions } from '../asking/where-asked.js';

/** As commander gives them: all text. */
export interface MountsOptions extends CommonOptions, WhereOptions {
  readonly output?: string;
  readonly force?: boolean;
  readonly all?: boolean;
}

/**
 * Reads the file, works the mounts out, writes their patterns, prints and returns the exit status.
 * @throws UserError for anything wrong with the file, the options or where to write.
 */
export async function runMounts(
  file: string,
  options: MountsOptions,
  io: Io,
  interrupt: Interrupt,
): Promise<number> {
  optionNames(options.option ?? []);
  const begun = await opened(file, options, io, interrupt);
  interrupt.keepFor(1.5);
  const { scenario, units, look, warnings } = begun;
  const mounts = sectionAsked(scenario.mounts, 'mounts', 'mounts: { ... }');
  const { position, set, found } = await whereAsked(begun, options, io, interrupt);
  const answer = mountsAnswer(scenario, mounts, set, position, found);
  const written =
    options.output === undefined
      ? []
      : await putPatterns(options.output, answer.standings, units, options.force);
  if (options.json === true) {
    tellPrograms(mountsJson({ ...answer, written }, { scenario, units }), warnings, io);
  } else {
    const telling = { scenario, units, look };
    io.out(print(mountsReport(answer, warnings, telling, options.all === true), look));
    for (const path of written) io.out(writtenText(path, look));
  }
  return isMade(answer) ? STATUS.fits : STATUS['does not fit'];
}

/**
 * The patterns of every mount that can be made, each as SVG and DXF, into a folder, which is made if it is
 * not there; returns their paths. Nothing is written where one of them may not be.
 */
async function putPatterns(
  folder: string,
  standings: readonly MountStanding[],
  units: Units,
  force: boolean | undefined,
): Promise<string[]> {
  const files = standings.flatMap(({ mount, pieces, faults }, m) => {
    if (!pieces || faults.length > 0) return [];
    const slug = slugOf(mount.name, m, standings);
    return patternsOf(pieces).flatMap((pattern) => {
      const which = pattern.at ? `-${pattern.at.end}-${pattern.at.numbers[0]!}` : '';
      const path = join(folder, `${slug}-${pattern.piece.replace(/ /g, '-')}${which}`);
      return [
        {
          path: `${path}.svg`,
          text: patternDrawing(pattern, mount.name, units).svg,
          mark: PATTERN_MARK,
        },
        { path: `${path}.dxf`, text: patternDxf(pattern, mount.name, units), mark: DXF_MARK },
      ];
    });
  });
  await makeFolder(folder);
  for (const { path, mark } of files) {
    await refuseOther(path, undefined, { mark, what: 'pattern' }, force);
  }
  await putFiles(files);
  return files.map(({ path }) => path);
}

/** The longest name of a file worth having. */
const LONGEST = 40;

/** A mount's name as part of a file's, its own among the mounts'. */
function slugOf(name: string, m: number, all: readonly MountStanding[]): string {
  const slug = (text: string): string =>
    text
      .normalize('NFKD')
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .slice(0, LONGEST)
      .replace(/^-+|-+$/g, '') || 'mount';
  const own = slug(name);
  const isAlone = all.every(({ mount }, i) => i === m || slug(mount.name) !== own);
  return isAlone ? own : `${own}-${m + 1}`;
}

/** Commands run on a spoilt file in a world in memory: an exit status and words, and never a fault of our own. */

import type { Scenario } from '../../src/model/scenario.js';
import type { Random } from '../../tests/geometry/random.js';
import { berth } from '../../tests/cli/world.js';
import { oneOf } from './pick.js';

const DEGREES = 180 / Math.PI;

/** What no report and no message may hold, unless the file itself does. */
export const SLIPS: readonly RegExp[] = [
  /\bNaN\b/,
  /\bundefined\b/,
  /\[object/,
  /\bInfinity\b/,
  /\n\s+at .*:\d+:\d+/,
];

/** One command line that may well be typed for such a file. */
function commandFor({ position, units, choices }: Scenario, random: Random): string[] {
  const unit = units === 'in' ? 25.4 : 1;
  const { setback, offset, height, pitch } = position;
  const middle = ({ min, max }: { min: number; max: number }, by: number) =>
    String(Number(((min + max) / 2 / by).toFixed(4)));
  const at = `setback=${middle(setback, unit)}, offset=${middle(offset, unit)}, height=${middle(height, unit)}, pitch=${middle(pitch, 1 / DEGREES)}`;
  const limit = ['--time-limit', '1'];
  const option =
    choices.length === 0 ? 'offset=0' : `${choices[0]!.name}=${choices[0]!.options.at(-1)!.name}`;
  return oneOf(random, [
    ['check'],
    ['gaps', '--at', at],
    ['gaps', '--at', at, '--json'],
    ['gaps', '--at', `${at}, roll=1, yaw=-1`],
    ['place', ...limit],
    ['place', ...limit, '--json'],
    ['place', ...limit, '--all', '--plain'],
    ['place', ...limit, '--guaranteed'],
    ['driveline', '--at', at],
    ['mockup', '--at', at],
    ['mounts', '--at', at, '--all'],
    ['mounts', '--at', at, '--json'],
    ['blockers', '--want', option, ...limit],
    ['trim', '--want', 'offset=0', ...limit],
    ['slide', '--along', 'pitch', '--steps', '4', ...limit],
    ['compare', ...limit],
    ['compare', '--frontier', ...limit],
  ]);
}

/** What is wrong with what a command made of a file, if anything. */
export async function commandFaults(
  text: string,
  scenario: Scenario | undefined,
  random: Random,
): Promise<{ faults: string[]; status: number; command: string }> {
  const [name, ...rest] = scenario ? commandFor(scenario, random) : ['check'];
  const argv = [name!, '-', ...rest];
  // Time is counted in looks at the clock, so that a search stops alike on every machine.
  const { status, out, err } = await berth(argv, { stdin: text, tick: 40 });
  const faults: string[] = [];
  const typed = `berth ${argv.join(' ')}`;
  if (![0, 1, 2, 3].includes(status))
    faults.push(`${typed}: exit status ${status}: ${err.slice(0, 300)}`);
  for (const slip of SLIPS) {
    const found = slip.exec(out) ?? slip.exec(err);
    if (found && !text.includes(found[0].trim())) {
      const around = (out + err).slice(Math.max(0, found.index - 80), found.index + 80);
      faults.push(`${typed}: says ${JSON.stringify(found[0])} in ${JSON.stringify(around)}`);
    }
  }
  if (status === 2 && err.trim() === '' && out.trim() === '')
    faults.push(`${typed}: bad input, and not a word`);
  return { faults, status, command: name! };
}

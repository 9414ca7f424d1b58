/** Command lines that contradict themselves, the file or the bay: an exit status and words, and no fault of ours. */

import { berth } from '../../tests/cli/world.js';
import type { Random } from '../../tests/geometry/random.js';
import { fileOf } from '../../tests/support/doc.js';
import { plant } from '../../tests/support/planted.js';
import { SLIPS } from '../mutated/commands.js';
import { below, oneOf } from '../mutated/pick.js';
import type { Notes } from '../subject.js';
import { tied } from '../tied.js';

const PLAIN: readonly string[] = [
  'offset=0', 'offset>=1; offset<=2', 'offset<=-1', 'setback>=0', 'setback<=0', 'height=0', 'pitch=0', 'margin>=1/2', 'margin>=2', 'margin>=-1',
  'knob 1=moved', 'knob 1=stays', 'height>=1', 'height<=1',
]; // prettier-ignore
const WISHES: readonly string[] = [
  'offset=0', 'offset=99', 'offset>=1; offset<=-1', 'setback>=999', 'setback<=-999', 'height=0', 'height=3 ft', 'pitch=3', 'pitch>=90', 'pitch=-45',
  'margin>=1', 'margin>=-1', 'margin>=99', 'margin=1', 'margin<=1', 'knob 1=moved', 'knob 1=stays', 'knob 2=moved', 'knob 3=moved', 'knob 1=gone',
  'knob 9=moved', 'roll=1', 'yaw=0', '', ';', '=', '>=', 'offset', 'offset=', 'offset=wide', 'offset=0=0', 'offset=1e999', 'offset=NaN', 'setback=1 above nothing',
  'knob 1=moved; knob 1=stays', 'knob 1>=moved', 'OFFSET=0', 'offset=0; offset=0', 'height>=1;height<=1',
]; // prettier-ignore

export async function linesCase(notes: Notes, random: Random): Promise<string> {
  const planted = plant({
    random,
    pitch: 'pinned',
    choices: 1 + below(random, 3),
    play: [-0.5, 3],
  });
  const { doc } = tied(planted, random, 0.8);
  const limits = random() < 0.4 ? [{ quantity: 'offset', min: 99 }] : [];
  const file = fileOf(random() < 0.3 ? { ...doc, limits } : doc);
  const wish = () => oneOf(random, random() < 0.9 ? PLAIN : WISHES);
  const some = (flag: string) =>
    Array.from({ length: 1 + below(random, 2) }, () => [flag, wish()]).flat();
  const argv = oneOf(random, [
    ['blockers', '-', ...some('--want')],
    ['blockers', '-', '--want', `${wish()};${wish()}`, '--all'],
    ['trim', '-', ...some('--want')],
    ['compare', '-', '--case', `one: ${wish()}`, '--case', `two: ${wish()}; ${wish()}`],
    ['place', '-', ...some('--pin')],
    ['place', '-', ...some('--option')],
    ['place', '-', ...some('--option'), ...some('--pin'), '--json'],
    ['gaps', '-', '--at', `${wish()}, ${wish()}`],
    [
      'slide',
      '-',
      '--along',
      'offset',
      '--from',
      oneOf(random, ['5', '-5', '999', 'x']),
      '--to',
      oneOf(random, ['-5', '5', '0']),
    ],
  ]);
  const typed = `berth ${argv.map((word) => (/^[\w-]+$/.test(word) ? word : `'${word}'`)).join(' ')}`;
  const { status, out, err } = await berth(argv, { stdin: file, tick: 5 });
  notes.count(`status ${status}`);
  notes.hold(
    [0, 1, 2, 3].includes(status),
    `${typed}: exit status ${status}: ${err.slice(0, 300)}`,
  );
  notes.hold(
    status === 2 ? err !== '' : out !== '',
    `${typed}: exit status ${status} without a word`,
  );
  for (const slip of SLIPS) {
    const found = slip.exec(out) ?? slip.exec(err);
    notes.hold(
      !found || typed.includes(found[0]),
      () => `${typed}: says ${JSON.stringify(found![0])}`,
    );
  }
  return JSON.stringify({ typed, file: JSON.parse(file) as unknown }, null, 1);
}

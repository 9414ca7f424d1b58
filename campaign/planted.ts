/** Bays whose best margin under every option set is known by construction. */

import type { PlaceAnswer, Placement } from '../src/solver/answer.js';
import { between } from '../tests/geometry/random.js';
import type { Random } from '../tests/geometry/random.js';
import { fileOf, mirrored, renamed, scaled, scenarioOf } from '../tests/support/doc.js';
import type { BayDoc } from '../tests/support/doc.js';
import { plant } from '../tests/support/planted.js';
import type { PlantRequest } from '../tests/support/planted.js';
import { isDoubtful, wantedOf } from '../tests/support/planted-answers.js';
import type { Wanted } from '../tests/support/planted-answers.js';
import { solve, TOLERANCE } from '../tests/support/solve.js';
import { atLeast, Notes } from './subject.js';
import type { Case, Result, Subject } from './subject.js';

/** Millimetres: rounding of sums of a dozen lengths, and of the printed position. */
const ROUNDING = 1e-6;
const PITCHES: readonly PlantRequest['pitch'][] = ['pinned', 'free', 'tilted'];

export const PLANTED: Subject = {
  claim:
    'place finds and proves the best margin that was planted, with the options and the work that it takes, whichever way the bay is written',
  runs: 2000,
  shortRuns: 20,
  seconds: 120,
  memory: 1024,
  open: async () => plantedCase,
  judge: (counts, cases) =>
    atLeast(counts, cases, {
      'main judged': 55,
      'as it stands judged': 55,
      'least work judged': 35,
      fits: 40,
      short: 3,
      pinned: 20,
      free: 20,
      tilted: 20,
    }),
};

function plantedCase({ random }: Case): Result {
  const notes = new Notes();
  const pitch = PITCHES[Math.floor(3 * random())]!;
  const many = random() < 0.15;
  const request: PlantRequest = {
    random,
    pitch,
    choices: many ? 1 : Math.floor(5 * random()),
    decoys: Math.floor(5 * random()),
    play: many ? [0.5, 4] : [-1, 4],
    worth: between(random, 0.05, 0.5),
    ...(many && { pieces: { engine: 2 + 2 * Math.floor(4 * random()), chassis: 2 } }),
  };
  const planted = plant(request);
  const { doc, scale, how } = rewritten(planted.doc, random);
  notes.count(pitch);
  notes.count(how);
  const wanted = scaledWanted(wantedOf(planted), scale);
  const answer = solve(scenarioOf(doc));
  notes.count('boxes', answer.effort.boxes);
  judge(notes, answer, wanted);
  return notes.result({ ending: 'json', text: fileOf(doc) });
}

/** The same bay written another way, and what its lengths were multiplied by. */
function rewritten(doc: BayDoc, random: Random): { doc: BayDoc; scale: number; how: string } {
  const roll = random();
  if (roll < 0.3) return { doc, scale: 1, how: 'as planted' };
  if (roll < 0.5) return { doc: mirrored(doc), scale: 1, how: 'mirrored' };
  if (roll < 0.65) return { doc: renamed(doc, random), scale: 1, how: 'renamed' };
  if (roll < 0.8) return { doc: { ...scaled(doc, 25.4), units: 'mm' }, scale: 1, how: 'in mm' };
  const scale = between(random, 0.8, 2);
  return { doc: scaled(doc, scale), scale, how: 'scaled' };
}

function scaledWanted(wanted: Wanted, by: number): Wanted {
  if (by === 1) return wanted;
  const one = <T extends { readonly margin: number }>(of: T): T => ({
    ...of,
    margin: by * of.margin,
  });
  return {
    ...wanted,
    best: by * wanted.best,
    asItStands: one(wanted.asItStands),
    main: one(wanted.main),
    least: wanted.least && one(wanted.least),
    // Sets that were clear of each other before may not be so once they are nearer.
    mainIsClear: wanted.mainIsClear && by >= 1,
    leastIsClear: wanted.leastIsClear && by >= 1,
  };
}

function judge(notes: Notes, answer: PlaceAnswer, wanted: Wanted): void {
  notes.hold(
    answer.bestBound >= wanted.best - ROUNDING,
    `bound ${answer.bestBound} under the best planted, ${wanted.best}`,
  );
  notes.hold(
    answer.bestBound <= wanted.best + TOLERANCE,
    `bound ${answer.bestBound} far over the best planted, ${wanted.best}`,
  );
  if (!isDoubtful(wanted.asItStands.margin)) {
    notes.count('as it stands judged');
    holdPlanted(notes, 'as it stands', answer.asItStands, wanted.asItStands.margin);
  }
  if (wanted.mainIsClear && !isDoubtful(wanted.main.margin)) {
    notes.count('main judged');
    notes.count(wanted.main.margin > 0 ? 'fits' : 'short');
    holdPlanted(notes, 'main', answer.main, wanted.main.margin);
    holdWork(notes, 'main', answer.main, wanted.main);
    notes.hold(answer.cheaperUndecided.length === 0, 'cheaper sets are left undecided');
  }
  if (!wanted.leastIsClear) return;
  notes.hold(
    (answer.leastWork === undefined) === (wanted.least === undefined),
    'least work: there, or not',
  );
  notes.hold(answer.anyFits === (wanted.least ? 'yes' : 'no'), `anything fits: ${answer.anyFits}`);
  if (!wanted.least || !answer.leastWork || isDoubtful(wanted.least.margin)) return;
  notes.count('least work judged');
  holdPlanted(notes, 'least work', answer.leastWork, wanted.least.margin);
  holdWork(notes, 'least work', answer.leastWork, wanted.least);
}

/** One placement against the margin planted: neither side of the truth by more than allowed. */
function holdPlanted(
  notes: Notes,
  which: string,
  found: Placement | undefined,
  planted: number,
): void {
  if (!found) return notes.hold(false, `${which}: no answer`);
  const { best, bound, fits, optimum, setting } = found;
  const said = `${which}: margin ${optimum.margin}, bound ${bound}, planted ${planted} mm`;
  notes.hold(best === 'proved', `${said}: not proved`);
  notes.hold(optimum.margin <= planted + ROUNDING, `${said}: more than there is`);
  notes.hold(
    setting.margin <= planted + ROUNDING,
    `${said}: the setting's ${setting.margin} is more than there is`,
  );
  notes.hold(bound >= planted - ROUNDING, `${said}: a bound under the truth`);
  notes.hold(optimum.margin >= planted - TOLERANCE, `${said}: less than the tolerance allows`);
  notes.hold(bound >= optimum.margin, `${said}: a bound under its own margin`);
  notes.hold(fits === (planted > 0 ? 'yes' : 'no'), `${said}: fits ${fits}`);
}

function holdWork(
  notes: Notes,
  which: string,
  found: Placement,
  wanted: { readonly hours: number; readonly cost: number },
): void {
  const same =
    Math.abs(found.hours - wanted.hours) < 1e-9 && Math.abs(found.cost - wanted.cost) < 1e-9;
  notes.hold(
    same,
    `${which}: ${found.hours} h and ${found.cost}, planted ${wanted.hours} h and ${wanted.cost}`,
  );
}

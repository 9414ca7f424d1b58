/** Wishes that contradict each other, the file, or the bay: a typed answer always, and reasons that are the reasons. */

import { linesCase } from './wishes/lines.js';
import { plantedCase } from './wishes/planted.js';
import { reasonsCase } from './wishes/reasons.js';
import { loadHighs } from '../tests/support/highs.js';
import { atLeast, Notes } from './subject.js';
import type { Subject } from './subject.js';

export const WISHES: Subject = {
  claim:
    'a wish that cannot be had is refused with every smallest reason, each confirmed by highs, and every smallest cure, each planted; contradictions are told as mistakes',
  runs: 3000,
  shortRuns: 40,
  seconds: 120,
  memory: 1024,
  open: async () => {
    const highs = await loadHighs();
    return async ({ random }) => {
      const notes = new Notes();
      const roll = random();
      const text =
        roll < 0.4
          ? reasonsCase(notes, random, highs)
          : roll < 0.65
            ? plantedCase(notes, random)
            : await linesCase(notes, random);
      return notes.result({ ending: 'json', text });
    };
  },
  judge: (counts, cases) =>
    atLeast(counts, cases, {
      reasons: 15,
      'reasons of several': 1,
      'reasons with a limit': 1,
      complete: 10,
      'cures judged': 5,
      cures: 3,
      'options that cannot go together': 0.5,
      'status 2': 3,
      'status 1': 3,
      'status 0': 2,
    }),
};

/**
 * Geometry at its edges: faces in one plane, solids that touch, needles and plates, coordinates as far out as a
 * million inches, points drawn twice, faces all but parallel; and whole bays made of such parts.
 */

import { openOracle } from '../tests/geometry/oracle.js';
import { bayCase } from './degenerate/bays.js';
import { pairCase } from './degenerate/pairs.js';
import { atLeast, Notes } from './subject.js';
import type { Subject } from './subject.js';

export const DEGENERATE: Subject = {
  claim:
    'gaps of degenerate solids are brackets that hold the true gap, the same either way round and wherever both are moved; bays of such parts are proved',
  runs: 20_000,
  shortRuns: 300,
  seconds: 120,
  memory: 1024,
  open: async () => {
    const oracle = await openOracle();
    return ({ random }) => {
      const notes = new Notes();
      const text = random() < 0.05 ? bayCase(notes, random) : pairCase(notes, random, oracle);
      return notes.result({ ending: 'json', text });
    };
  },
  judge: (counts, cases) =>
    atLeast(counts, cases, {
      boxes: 15,
      round: 10,
      'near flat': 10,
      leaning: 10,
      modelled: 2,
      touching: 8,
      overlapping: 10,
      apart: 20,
      far: 8,
      'bays proved': 2,
    }),
};

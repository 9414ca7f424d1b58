/** From a question to the search that answers it, as a generator that its caller drives. */

import { asItStands } from '../model/asked/cases.js';
import { domainsByName } from '../model/asked/options-by-name.js';
import type { OptionSet, Scenario } from '../model/scenario.js';
import { stanceOf } from '../model/stance.js';
import type { Stance } from '../model/stance.js';
import { parseWants } from '../model/asked/wants.js';
import type { Progress } from '../solver/answer.js';
import type { Signal } from '../solver/asked.js';
import { compareCases } from '../solver/explaining/compare.js';
import { slide } from '../solver/explaining/slide.js';
import { why } from '../solver/explaining/why.js';
import { asBuilt } from '../solver/fitup/as-built.js';
import { setUp } from '../solver/fitup/set-up.js';
import { readingsToTape } from '../solver/fitup/to-tape.js';
import { place } from '../solver/place.js';
import { cutScenario } from './live.js';
import type { Answers, Question } from './protocol.js';
import type { Place } from './state.js';

/** Millimetres between margin and bound at which an answer counts as proved: 1/64 in. */
const TOLERANCE = 25.4 / 64;

export type Solving = Generator<Progress, Answers[Question['kind']], Signal>;

/** The search for a question, or why there is none. */
export function solvingOf(
  scenario: Scenario,
  question: Question,
): Solving | { readonly message: string } {
  /** What is worked out at a place in one go, its cuts made. */
  function* atOnce<A extends Answers[Question['kind']]>(
    at: Place,
    work: (s: Scenario, set: OptionSet, meant: Stance) => A,
  ): Generator<Progress, A, Signal> {
    const cut = cutScenario(scenario, at);
    return work(cut.scenario, cut.set, stanceOf(at.position));
  }
  switch (question.kind) {
    case 'best': {
      const { allowed } = question;
      return place(scenario, { aim: 'margin', keep: 0, tolerance: TOLERANCE, pins: {}, allowed });
    }
    case 'why': {
      const { wants, problems } = parseWants([question.want], scenario.units, scenario);
      const options = problems.length > 0 ? [] : domainsByName(scenario, wants.options).problems;
      const wrong = [...problems, ...options][0];
      return wrong ? { message: wrong.message } : why(scenario, { wants, tolerance: TOLERANCE });
    }
    case 'compare': {
      const cases = question.cases.map((one) => ({ ...asItStands(scenario), ...one }));
      return compareCases(scenario, cases, { tolerance: TOLERANCE });
    }
    case 'slide': {
      const { along, allowed, steps } = question;
      const range = scenario.position[along];
      if (range.min === range.max) {
        return { message: `the file pins ${along}: there is nothing to slide along` };
      }
      return slide(scenario, { tolerance: TOLERANCE, allowed, along, range, steps });
    }
    case 'mock-up': {
      const { mockup } = scenario;
      if (!mockup) return { message: 'this file has no mock-up' };
      return atOnce(question.place, (s, set, meant) => setUp(s, mockup, set, meant));
    }
    case 'to tape':
      return atOnce(question.place, readingsToTape);
    case 'as built': {
      const { readings, place: meant } = question;
      return atOnce(meant, (s, set, at) => asBuilt(s, set, at, readings));
    }
  }
}

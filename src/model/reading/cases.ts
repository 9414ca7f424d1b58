/** The cases that a file keeps for comparing: the same wishes as on a command line. */

import { caseProblems } from '../asked/cases.js';
import type { Problem } from '../text/problem.js';
import type { NamedWants, Path, Scenario } from '../scenario.js';
import type { RawLength, RawScenario } from '../schema.js';
import { parseWants } from '../asked/wants.js';
import type { Reading } from './reading.js';

/** One wish of a case: its terms as a command line has them, and where the file says it. */
interface Wish {
  readonly terms: readonly string[];
  readonly path: Path;
}

/** Reads every case in the file's order. @param s the scenario, its choices known to go together. */
export function readCases(c: Reading, raw: RawScenario, s: Scenario): readonly NamedWants[] {
  return c.entries(raw.cases, ['cases']).flatMap(([name, given]) => {
    const path = ['cases', name];
    if (c.faulty(path)) return [];
    const wishes: Wish[] =
      typeof given === 'string'
        ? [{ terms: [given], path }]
        : c.entries(given, path).map(([left, value]) => wishOf(left, value, [...path, left]));
    const before = c.problems.length;
    for (const { terms, path: at } of wishes) {
      const { wants, problems } = parseWants(terms, c.units, s);
      sayAll(c, at, [...problems, ...caseProblems(s, wants, c.units)]);
    }
    const terms = wishes.flatMap((wish) => wish.terms);
    if (c.problems.length > before) return [];
    const { wants, problems } = parseWants(terms, c.units, s);
    sayAll(c, path, problems.length > 0 ? problems : caseProblems(s, wants, c.units));
    return [{ name, ...wants }];
  });
}

/** `offset: 0` is `offset=0`, `setback: '>= 26'` as it says, `[26, 30]` both ends; a margin is the least. */
function wishOf(
  left: string,
  value: RawLength | readonly [RawLength, RawLength],
  path: Path,
): Wish {
  if (typeof value === 'object') {
    return { terms: [`${left}>=${value[0]}`, `${left}<=${value[1]}`], path };
  }
  const text = String(value).trim();
  const sign = left.trim().toLowerCase() === 'margin' ? '>=' : '=';
  return { terms: [/^(>=|<=|≥|≤)/.test(text) ? `${left}${text}` : `${left}${sign}${text}`], path };
}

function sayAll(c: Reading, path: Path, problems: readonly Problem[]): void {
  for (const { code, message, read, expected, nearest } of problems) {
    const at = code === 'unknown name' && read === path.at(-1) ? 'key' : 'value';
    c.say(code, path, message, {
      at,
      ...(read !== undefined && { read }),
      ...(expected !== undefined && { expected }),
      ...(nearest !== undefined && { nearest }),
    });
  }
}

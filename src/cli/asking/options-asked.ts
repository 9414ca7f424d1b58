/** Options, cases and cuts as typed, looked up in the scenario. */

import { caseOf, caseProblems, optionCases } from '../../model/asked/cases.js';
import type { Case } from '../../model/asked/cases.js';
import { domainsByName, optionSetByName } from '../../model/asked/options-by-name.js';
import { parseWants } from '../../model/asked/wants.js';
import type { OptionDomains } from '../../model/options.js';
import type { OptionRef, OptionSet, Scenario } from '../../model/scenario.js';
import { nearestName } from '../../model/text/nearest.js';
import type { Problem } from '../../model/text/problem.js';
import { exactTape } from '../../model/text/tape.js';
import type { Units } from '../../model/text/tape.js';
import { mistake, refuse, UserError } from '../problems.js';
import { lengthAsked } from './amounts-asked.js';

/** `choice=option` texts as names; the first `=` parts them. */
export function optionNames(texts: readonly string[]): OptionRef[] {
  return texts.map((text) => {
    const at = text.indexOf('=');
    if (at < 0) {
      throw mistake(`--option: '${text}' does not name an option`, {
        code: 'bad option',
        read: text,
        expected: '"choice=option", such as "oil filter=remote"',
      });
    }
    return { choice: text.slice(0, at).trim(), option: text.slice(at + 1).trim() };
  });
}

/** The options still open in each choice. */
export function domainsAsked(scenario: Scenario, names: readonly OptionRef[]): OptionDomains {
  const { domains, problems } = domainsByName(scenario, names);
  refuse(problems);
  return domains;
}

/** One option set: those named, and otherwise the bay as it stands. */
export function optionSetAsked(scenario: Scenario, names: readonly OptionRef[]): OptionSet {
  const found = optionSetByName(scenario, names);
  if ('problems' in found) throw new UserError(found.problems);
  return found.set;
}

/**
 * The cases to compare, `name: wishes` each, or the wishes alone for their own name; without any, those
 * of the file; without those, every option by itself.
 */
export function casesAsked(texts: readonly string[], units: Units, scenario: Scenario): Case[] {
  if (texts.length === 0) {
    const kept = scenario.cases.map(({ name, ...wants }) => caseOf(scenario, name, wants));
    const all = kept.length > 0 ? kept : optionCases(scenario);
    if (all.length > 0) return all;
    throw mistake('there is nothing to compare: this file has no other option and no case', {
      code: 'missing',
      expected: '--case "name: wishes", such as --case "centred: offset=0"',
    });
  }
  const problems: Problem[] = [];
  const cases: Case[] = [];
  for (const text of texts) {
    const [, called, wishes] = /^([^:=<>]*):(.*)$/s.exec(text) ?? [undefined, text, text];
    const name = called.trim();
    const { wants, problems: wrong } = parseWants([wishes], units, scenario);
    const own = wrong.length > 0 ? wrong : caseProblems(scenario, wants, units);
    for (const one of own) problems.push({ ...one, message: `--case ${name}: ${one.message}` });
    if (cases.some((one) => one.name === name)) {
      problems.push(twice(name));
    }
    if (own.length === 0) cases.push(caseOf(scenario, name, wants));
  }
  refuse(problems);
  return cases;
}

function twice(name: string): Problem {
  const message = `two cases are called '${name}'`;
  return { code: 'duplicate', severity: 'error', message, path: [], read: name };
}

/**
 * Trims to carry out, `part=depth` each, by the trim's index; `part way=depth` where a part has several.
 */
export function cutsAsked(
  texts: readonly string[],
  units: Units,
  { trims }: Scenario,
): ReadonlyMap<number, number> {
  const cuts = new Map<number, number>();
  for (const text of texts) {
    const at = text.lastIndexOf('=');
    const named = (at < 0 ? text : text.slice(0, at)).trim();
    const found = trims.flatMap(({ part, cut }, t) =>
      named === part || named === `${part} ${cut}` ? [t] : [],
    );
    const names = trims.flatMap(({ part, cut }) => [part, `${part} ${cut}`]);
    const nearest = nearestName(named, names);
    if (at < 0 || found.length !== 1) {
      const several = found.length > 1;
      throw mistake(
        several ? `--cut: '${named}' is several trims` : `--cut: the file has no trim '${named}'`,
        {
          code: 'bad option',
          read: text,
          expected: '"part=depth", such as "firewall=1", of the trims in the file',
          ...(nearest === undefined || several ? {} : { nearest }),
        },
      );
    }
    const trim = found[0]!;
    const depth = lengthAsked('--cut', text.slice(at + 1), units, 'over 0');
    if (depth > trims[trim]!.upTo + 1e-9) {
      const most = exactTape(trims[trim]!.upTo, units);
      throw mistake(`--cut: ${named} may be cut ${most} ${units} at most`, {
        code: 'bad length',
        read: text,
      });
    }
    if (cuts.has(trim)) throw mistake(`--cut: '${named}' is there twice`, { read: text });
    cuts.set(trim, depth);
  }
  return cuts;
}

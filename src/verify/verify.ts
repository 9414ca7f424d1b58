/**
 * Checks a certificate against a scenario. It shares nothing with what wrote it but the model of the
 * scenario: boxes, rows, witnesses and multipliers are taken for what they are written to be, and what they
 * claim is worked out again, every number rounded outward.
 */

import type { Certificate, Claim } from '../model/certificate.js';
import { isCompatible } from '../model/options.js';
import type { OptionDomains } from '../model/options.js';
import { COORDINATES } from '../model/scenario.js';
import type { Scenario } from '../model/scenario.js';
import { hasErrors, worstCase } from '../model/errors/worst.js';
import type { Range4 } from './box.js';
import { Pairs } from './pairs.js';
import { faultOfPlace } from './place.js';
import { faultOfClaim } from './tree.js';
import type { Gone } from './tree.js';

/** What a certificate proves of a scenario. */
export interface Verified {
  /** By claim: what no position leaves more than, millimetres. */
  readonly claims: readonly Pick<Claim, 'about' | 'most'>[];
  /** Millimetres that every rule is kept by, or broken by below 0, at the place and at its setting. */
  readonly place: number;
  readonly setting: number;
  /** Whether all of it is of the worst case of the file's measuring errors. */
  readonly guaranteed: boolean;
  readonly gone: Gone;
  /** Coordinates that were held narrower than the file's ranges, and choices of which not all options were open. */
  readonly narrower: readonly string[];
}

/** Where and why it proves nothing. */
export interface NotProved {
  readonly fault: string;
  /** True where it was not gone through to the end: nothing is said against it. */
  readonly unchecked?: true;
}

/** What is said of a certificate that was not gone through to its end. */
const UNCHECKED: NotProved = {
  fault: 'it was stopped before all of it was checked',
  unchecked: true,
};

/**
 * Goes through the whole certificate.
 * @param scenario as read from the file; the worst case of its errors is taken where that was asked.
 * @param keepOn asked at every leaf, pair and halving of a box; once false, nothing is proved.
 */
export function verify(
  scenario: Scenario,
  certificate: Certificate,
  keepOn: () => boolean = () => true,
): Verified | NotProved {
  const gone: Gone = { leaves: 0, rows: 0 };
  const { asked, answer, claims, pairs: named } = certificate;
  const box: Range4 = { lo: asked.from, hi: asked.to };
  const outside = faultOfAsked(scenario, certificate);
  if (outside !== undefined) return { fault: outside };
  const searched = asked.guaranteed ? worstCase(heldTo(scenario, box)) : scenario;
  const pairs = new Pairs(searched);
  const domains: OptionDomains = asked.allowed;
  for (const [i, claim] of claims.entries()) {
    const chosen = answer.options;
    const within = claim.about === 'these options' ? chosen.map((option) => [option]) : domains;
    const checking = {
      scenario: searched,
      pairs,
      named,
      claim,
      chosen,
      gone,
      keepOn,
    };
    const fault = faultOfClaim(checking, box, within);
    if (!keepOn()) return UNCHECKED;
    if (fault) {
      const where = `claim ${i + 1} (${claim.about}), ${fault.where}`;
      return { fault: `${where}: ${fault.why}` };
    }
  }
  for (const which of ['place', 'setting'] as const) {
    const place = answer[which];
    if (!place.at.every((x, k) => x >= box.lo[k]! && x <= box.hi[k]!)) {
      return { fault: `the ${which} lies outside the ranges` };
    }
    const fault = faultOfPlace(place, answer.options, pairs, named, keepOn);
    if (!keepOn()) return UNCHECKED;
    if (fault !== undefined) return { fault: `the ${which}: ${fault}` };
  }
  return {
    claims: claims.map(({ about, most }) => ({ about, most })),
    place: answer.place.margin,
    setting: answer.setting.margin,
    guaranteed: asked.guaranteed,
    gone,
    narrower: narrowerThan(scenario, certificate),
  };
}

/** What was asked must be something that the scenario has. */
function faultOfAsked(s: Scenario, { asked, answer, claims }: Certificate): string | undefined {
  const { from, to, allowed, guaranteed } = asked;
  const inside = COORDINATES.every((coordinate, k) => {
    const { min, max } = s.position[coordinate];
    return from[k]! >= min && to[k]! <= max && from[k]! <= to[k]!;
  });
  if (!inside) return "its ranges are not inside the file's";
  if (allowed.length !== s.choices.length || answer.options.length !== s.choices.length) {
    return "its choices are not the file's";
  }
  const known = s.choices.every(({ options }, c) => {
    const ok = (o: number): boolean => Number.isInteger(o) && o >= 0 && o < options.length;
    const open = allowed[c]!;
    const isOnce = new Set(open).size === open.length;
    return isOnce && open.every(ok) && open.includes(answer.options[c]!);
  });
  if (!known) return "its options are not the file's";
  if (!isCompatible(s, answer.options)) return 'the options of its answer do not go together';
  if (guaranteed && !hasErrors(s)) return 'the file has no measuring errors';
  if (!claims.some(({ about }) => about === 'all options'))
    return 'it claims nothing of all options';
  return undefined;
}

/** The scenario with its position held to what was searched. */
function heldTo(s: Scenario, { lo, hi }: Range4): Scenario {
  const at = (k: number) => ({ min: lo[k]!, max: hi[k]! });
  const position = { setback: at(0), offset: at(1), height: at(2), pitch: at(3) };
  return { ...s, position, drawn: s.drawn ?? s };
}

function narrowerThan(s: Scenario, { asked }: Certificate): string[] {
  const coordinates = COORDINATES.filter((coordinate, k) => {
    const { min, max } = s.position[coordinate];
    return asked.from[k]! > min || asked.to[k]! < max;
  });
  const choices = s.choices.filter(({ options }, c) => asked.allowed[c]!.length < options.length);
  return [...coordinates, ...choices.map(({ name }) => name)];
}

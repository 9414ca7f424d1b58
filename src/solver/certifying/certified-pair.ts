/** How a certificate names a pair of parts, and the solids of a contact. */

import type { CertifiedPair } from '../../model/certificate.js';
import { partUnder } from '../../model/options.js';
import type { OptionDomains } from '../../model/options.js';
import type { Scenario } from '../../model/scenario.js';
import type { Group } from '../measuring/bay.js';

export function pairOfGroup({ between, measured, withdrawn }: Group): CertifiedPair {
  return { parts: between, measured, ...(withdrawn !== undefined && { out: withdrawn }) };
}

/** Which solid of either part a contact is of. */
export function solidsOf(
  s: Scenario,
  { combos, choices, between }: Group,
  id: number,
  domains: OptionDomains,
): readonly [number, number] {
  const combo = combos.find(({ contacts }) => contacts.includes(id))!;
  const set = domains.map((domain) => domain[0]!);
  choices.forEach((choice, i) => (set[choice] = combo.options[i]!));
  const many = partUnder(s, between[1], set)!.part.solids.length;
  const at = combo.contacts.indexOf(id);
  return [Math.floor(at / many), at % many];
}

/** What can stand in the way of a wish: rules, limits, and the ends of the file's ranges. */

import { choicesOfLoad } from '../../model/fitup/loads-under.js';
import { choicesTouching } from '../../model/options.js';
import { COORDINATES } from '../../model/scenario.js';
import type { Coordinate, OptionSet, Range } from '../../model/scenario.js';
import type { Bay, FixedGroup, Group } from '../measuring/bay.js';
import { isOpen } from '../measuring/view.js';

export type Member =
  /** A pair of parts on opposite sides, in one measure. */
  | { readonly kind: 'rule'; readonly group: Group }
  /** A pair of one side, which no position changes. */
  | { readonly kind: 'one side'; readonly group: FixedGroup }
  | { readonly kind: 'limit'; readonly of: Bay['limits'][number] }
  | { readonly kind: 'end'; readonly coordinate: Coordinate; readonly end: keyof Range };

/** Everything of a bay that can stand in the way, numbered alike for every option set. */
export class Members {
  readonly all: readonly Member[];

  constructor(private readonly bay: Bay) {
    const ends = COORDINATES.flatMap((coordinate) =>
      (['min', 'max'] as const).map((end): Member => ({ kind: 'end', coordinate, end })),
    );
    this.all = [
      ...bay.groups.map((group): Member => ({ kind: 'rule', group })),
      ...bay.fixed.map((group): Member => ({ kind: 'one side', group })),
      ...bay.limits.map((of): Member => ({ kind: 'limit', of })),
      ...ends,
    ];
  }

  /** The numbers of those that hold under a complete option set; rules first, ends last. */
  under(set: OptionSet): number[] {
    return this.all.flatMap((member, id) => (this.holds(member, set) ? [id] : []));
  }

  private holds(member: Member, set: OptionSet): boolean {
    switch (member.kind) {
      case 'rule':
        return (member.group.combos[member.group.comboOf(set)]?.contacts.length ?? 0) > 0;
      case 'one side':
        return fixedCombo(member.group, set)?.holds === true;
      case 'limit': {
        const { when } = member.of;
        return when === undefined || set[when.choice] === when.option;
      }
      case 'end':
        return true;
    }
  }

  /** The choices that decide what a member asks. */
  choicesOf(member: Member): readonly number[] {
    switch (member.kind) {
      case 'rule':
      case 'one side':
        return member.group.choices;
      case 'limit': {
        const { limit, when } = member.of;
        const { quantity } = limit;
        const { scenario } = this.bay;
        const part = quantity.of === 'height above' && 'part' in quantity.what;
        const loads = quantity.of === 'front axle load' ? (scenario.weight?.in ?? []) : [];
        return [
          ...(when ? [when.choice] : []),
          ...loads.flatMap((load) => choicesOfLoad(scenario, load)),
          ...(part ? choicesTouching(scenario, Object.values(quantity.what)[0]!) : []),
        ];
      }
      case 'end':
        return [];
    }
  }
}

/** What a pair of one side comes to under a complete option set. */
export function fixedCombo(
  group: FixedGroup,
  set: OptionSet,
): FixedGroup['combos'][number] | undefined {
  const domains = set.map((option) => [option]);
  return group.combos.find((combo) => isOpen(group.choices, combo.options, domains));
}

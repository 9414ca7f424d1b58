/** Small scenarios for tests of the model, with everything a test does not speak of left plain. */

import type {
  Choice,
  Option,
  Part,
  Rule,
  RuleEnd,
  Scenario,
  Side,
} from '../../src/model/scenario.js';

export function bay(over: Partial<Scenario> = {}): Scenario {
  const pinned = { min: 0, max: 0 };
  return {
    title: 'sample',
    units: 'mm',
    driver: 'left',
    origin: 'front axle centreline',
    datums: { chassis: [], engine: [] },
    rake: 0,
    position: { setback: pinned, offset: pinned, height: pinned, pitch: pinned },
    rock: 0,
    lift: 0,
    together: [],
    parts: [],
    groups: [],
    rulebook: 'none',
    rules: [],
    limits: [],
    choices: [],
    trims: [],
    worth: 0,
    notFitted: [],
    cases: [],
    measurements: [],
    ...over,
  };
}

export function part(name: string, side: Side, over: Partial<Part> = {}): Part {
  const unit = { min: 0, max: 1 };
  return {
    name,
    side,
    solids: [{ shape: 'box', x: unit, y: unit, z: unit }],
    mirrored: false,
    ...over,
  };
}

export function option(name: string, over: Partial<Option> = {}): Option {
  return {
    name,
    remove: [],
    add: [],
    replace: [],
    move: [],
    rules: [],
    limits: [],
    needs: [],
    rulesOut: [],
    hours: 0,
    cost: 0,
    ...over,
  };
}

export function choice(name: string, ...options: Option[]): Choice {
  return { name, options };
}

/** An end as `level:name`. */
function end(text: string): RuleEnd {
  const [level, name] = text.split(':') as [RuleEnd['level'], string];
  return { level, name };
}

export function rule(one: string, other: string, gap: Rule['gap'], over: Partial<Rule> = {}): Rule {
  return {
    between: [end(one), end(other)],
    gap,
    ...(gap === 'ignore' ? {} : { measured: 'nearest' as const }),
    comingOut: false,
    origin: { from: 'file' },
    ...over,
  };
}

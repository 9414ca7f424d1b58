/** What a person wants of the place: `offset=0; setback>=26; margin>=1/4; oil filter=remote`. */

import { LENGTH_EXPECTED, parseLength } from '../text/length.js';
import { nearestName } from '../text/nearest.js';
import { leanRefused, parseCoordinate } from './pins.js';
import type { Problem } from '../text/problem.js';
import { COORDINATES } from '../scenario.js';
import type { Coordinate, OptionRef, Range, Scenario } from '../scenario.js';

/** Wishes, all to be had at once. */
export interface Wants {
  /** Millimetres and radians; an end that nobody asked for is infinite. */
  readonly ranges: Readonly<Partial<Record<Coordinate, Range>>>;
  /** Options by name, not yet looked up. */
  readonly options: readonly OptionRef[];
  /** Millimetres that every rule must leave; 0 unless asked for. */
  readonly margin?: number;
}

const WANT_EXPECTED =
  "a wish such as 'offset=0', 'setback>=26', 'margin>=1/4' or 'oil filter=remote'; ';' parts several";

type Sign = '=' | '>=' | '<=';
const TERM = /^([^=<>≤≥]*)(>=|<=|=|≥|≤)(.*)$/s;
const SIGNS: Readonly<Record<string, Sign>> = {
  '=': '=',
  '>=': '>=',
  '<=': '<=',
  '≥': '>=',
  '≤': '<=',
};

/**
 * Reads wishes, `;` between them. A coordinate takes `=`, `>=` and `<=`, and a length, an angle or a
 * place from a chassis datum; `margin` takes `>=`; anything else before a `=` is a choice.
 * Problems: a text that is no wish, a value that cannot be read, wishes that contradict each other, a
 * name that is neither coordinate nor choice (with the nearest one). Options are not looked up here.
 */
export function parseWants(
  texts: readonly string[],
  unit: 'in' | 'mm',
  scenario: Scenario,
): { readonly wants: Wants; readonly problems: readonly Problem[] } {
  const reader = new WantReader(unit, scenario);
  const terms = texts.flatMap((text) => text.split(';')).map((term) => term.trim());
  for (const term of terms) if (term !== '') reader.read(term);
  if (!terms.some((term) => term !== '')) reader.say('bad wish', 'no wish is given', {});
  return { wants: reader.wants(), problems: reader.problems };
}

class WantReader {
  readonly problems: Problem[] = [];
  private readonly ranges: Partial<Record<Coordinate, Range>> = {};
  private readonly options: OptionRef[] = [];
  private margin: number | undefined;

  constructor(
    private readonly unit: 'in' | 'mm',
    private readonly scenario: Scenario,
  ) {}

  wants(): Wants {
    const { ranges, options, margin } = this;
    return { ranges, options, ...(margin !== undefined && { margin }) };
  }

  say(code: Problem['code'], message: string, rest: Partial<Problem>): void {
    this.problems.push({ code, severity: 'error', message, path: [], ...rest });
  }

  read(term: string): void {
    const [, left, sign, right] = TERM.exec(term) ?? [];
    if (left === undefined || sign === undefined || right === undefined) {
      this.say('bad wish', `'${term}' is not a wish`, { read: term, expected: WANT_EXPECTED });
      return;
    }
    const name = left.trim();
    const value = right.trim();
    const coordinate = COORDINATES.find((one) => one === name.toLowerCase());
    const refused = this.scenario.choices.some((one) => one.name === name)
      ? undefined
      : leanRefused(name);
    if (refused !== undefined) this.say('bad wish', refused.message, { read: term, ...refused });
    else if (coordinate !== undefined) this.coordinate(coordinate, SIGNS[sign]!, value);
    else if (name.toLowerCase() === 'margin') this.least(SIGNS[sign]!, value, term);
    else this.option(name, SIGNS[sign]!, value, term);
  }

  private coordinate(name: Coordinate, sign: Sign, value: string): void {
    const parsed = parseCoordinate(name, value, this.unit, this.scenario.datums);
    if ('message' in parsed) {
      const { message, ...rest } = parsed;
      this.say('bad wish', `${name}: ${message}`, { read: value, ...rest });
      return;
    }
    const at = parsed.value;
    const before = this.ranges[name] ?? { min: -Infinity, max: Infinity };
    const min = sign === '<=' ? before.min : Math.max(before.min, at);
    const max = sign === '>=' ? before.max : Math.min(before.max, at);
    if (min > max) this.say('excluded', `no ${name} meets both wishes`, { read: value });
    else this.ranges[name] = { min, max };
  }

  private least(sign: Sign, value: string, term: string): void {
    if (sign !== '>=') {
      const expected = 'margin>=1/4: at least so much to spare';
      this.say('bad wish', 'a margin is wished for from below', { read: term, expected });
      return;
    }
    const length = parseLength(value, this.unit);
    if ('problem' in length) {
      const rest = { read: value, expected: LENGTH_EXPECTED };
      this.say('bad wish', `margin: ${length.problem}`, rest);
    } else this.margin = Math.max(this.margin ?? -Infinity, length.mm);
  }

  private option(name: string, sign: Sign, value: string, term: string): void {
    const choices = this.scenario.choices.map((choice) => choice.name);
    if (!choices.includes(name)) {
      const nearest = nearestName(name, [...COORDINATES, 'margin', ...choices]);
      const expected = [...COORDINATES, 'margin', ...choices].join(', ');
      const rest = { read: name, expected, ...(nearest !== undefined && { nearest }) };
      this.say('unknown name', `'${name}' is neither a coordinate nor a choice`, rest);
    } else if (sign !== '=') {
      const expected = `${name}=...`;
      this.say('bad wish', `a choice takes '='`, { read: term, expected });
    } else this.options.push({ choice: name, option: value });
  }
}

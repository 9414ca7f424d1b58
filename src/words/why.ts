/** Why a wish cannot be had, and what would remedy it, a sentence each. */

import { isStructural } from '../model/kinds.js';
import { partUnder } from '../model/options.js';
import { exactTape, tape } from '../model/text/tape.js';
import type {
  Coordinate,
  Cut,
  Limit,
  OptionSet,
  Position,
  Range,
  Trim,
} from '../model/scenario.js';
import { COORDINATES } from '../model/scenario.js';
import type { Wants } from '../model/asked/wants.js';
import type { Placement, Reading, Standing } from '../solver/answer.js';
import { DECISION_SLACK } from '../solver/decision.js';
import type { RangeEnd, Reason } from '../solver/explaining/blockers.js';
import type { Remedy } from '../solver/explaining/asking.js';
import type { WhyAnswer } from '../solver/explaining/why.js';
import { name } from './text.js';
import { coordinateWords } from './where.js';
import { quantityWords } from './joints.js';
import { pairWords, spare, unit, wantsWords, workWords } from './words.js';
import type { Telling } from './words.js';

/** The setting where it has what is wished for, else the place between the marks that has it. */
export function placeOf({ setting, optimum }: Placement, margin: number): Standing {
  const kept = setting.margin >= margin - DECISION_SLACK;
  return kept && setting.limits.every((limit) => limit.met) ? setting : optimum;
}

/** What a place leaves; where rounding to what is printed took the last of the wish, the wish. */
export function leftWords(placement: Placement, margin: number, { units }: Telling): string {
  return spare(Math.max(margin, placeOf(placement, margin).margin), units);
}

/** `on centre`, `25 1/2 or more back of front axle`, `at least 1/4 to spare`, `oil filter: remote`. */
export function wantedWords(wants: Wants, telling: Telling): string[] {
  const { units, look } = telling;
  const said = COORDINATES.flatMap((coordinate) => {
    const range = wants.ranges[coordinate];
    return range === undefined ? [] : [rangeWords(coordinate, range, telling)];
  });
  const margin = wants.margin ?? 0;
  said.push(
    margin === 0 ? 'every rule met' : `every rule met with ${spare(margin, units)} or more`,
  );
  for (const { choice, option } of wants.options)
    said.push(`${name(choice, look)}: ${name(option, look)}`);
  return said;
}

function rangeWords(coordinate: Coordinate, { min, max }: Range, telling: Telling): string {
  const at = (value: number) => coordinateWords(coordinate, value, telling);
  if (min === max) return at(min);
  if (max === Infinity) return `${at(min)} or ${FURTHER[coordinate][0]}`;
  if (min === -Infinity) return `${at(max)} or ${FURTHER[coordinate][1]}`;
  return `${at(min)} to ${at(max)}`;
}

const FURTHER: Readonly<Record<Coordinate, readonly [string, string]>> = {
  setback: ['further back', 'further forward'],
  offset: ['further right', 'further left'],
  height: ['higher', 'lower'],
  pitch: ['more tail-down', 'less tail-down'],
};

/** One sentence: what is in the way, by how much, and what each rule wants. */
export function reasonWords(reason: Reason, telling: Telling): string {
  const { look, units } = telling;
  const { parts, limits, short, beyond, rules } = reason;
  const names = [
    ...parts.map((part) => name(part, look)),
    ...limits.map((limit) => limitName(limit, telling)),
  ];
  if (beyond !== undefined) {
    const by =
      beyond.coordinate === 'pitch'
        ? `${((beyond.by * 180) / Math.PI).toFixed(1)} deg`
        : tape(beyond.by, units, { round: 'up' }) + unit(units);
    const ends = reason.ends.map((end) => endWords(end, telling));
    return `${[...names, ...(names.length > 0 ? [] : ends)].join(' and ')}, ${by} short of the wish`;
  }
  const what = names.length > 0 ? names.join(' and ') : ownWords(rules, telling);
  if (short === undefined) return `${what}: no place that is wanted keeps it`;
  const missing = `short ${tape(short.most, units, { round: 'up' })}${unit(units)}`;
  const said = tellingRules(rules).map((reading) => pullWords(reading, telling));
  const sure = reason.smallest ? '' : ' (perhaps not all of this is needed)';
  return `${what}, ${missing}: ${said.join('; ')}${sure}`;
}

/** A rule between parts of one side names both; nothing on the other side is in the way. */
function ownWords(rules: readonly Reading[], { look }: Telling): string {
  return (rules[0]?.between ?? []).map((part) => name(part, look)).join(' and ');
}

/** The tightest rule against each part, and whatever else is missed by half as much as the worst. */
function tellingRules(rules: readonly Reading[]): readonly Reading[] {
  const worst = rules[0]?.margin ?? 0;
  const seen = new Set<string>();
  return rules.filter(({ margin, between: [, part] }) => {
    const first = !seen.has(part);
    seen.add(part);
    return first || margin < Math.min(0, worst / 2) || margin <= worst + DECISION_SLACK;
  });
}

function pullWords(reading: Reading, telling: Telling): string {
  const pair = pairWords(reading, telling);
  if (reading.fixed) return `${pair}, which no position changes`;
  const way = wantsWords(freeSlope(reading, telling), telling.scenario)
    .replace(/driver|passenger/, 'to $&')
    .replace(', ', ' and ');
  return way === '' ? pair : `${pair} wants the engine ${way}`;
}

/** The way a rule wants the engine to go, but for what the file pins: that is not to be had. */
function freeSlope({ slope }: Reading, { scenario: { position } }: Telling): Position | undefined {
  if (slope === undefined) return undefined;
  const free = (c: Coordinate) => (position[c].max > position[c].min ? slope[c] : 0);
  return {
    setback: free('setback'),
    offset: free('offset'),
    height: free('height'),
    pitch: free('pitch'),
  };
}

function limitName({ quantity, why }: Limit, { look }: Telling): string {
  const what =
    quantity.of === 'height above'
      ? name(Object.values(quantity.what)[0]!, look)
      : quantityWords(quantity);
  return `the limit on ${what}${why === undefined ? '' : ` (${name(why, look)})`}`;
}

function endWords({ coordinate, end, at }: RangeEnd, { units }: Telling): string {
  const value =
    coordinate === 'pitch'
      ? `${((at * 180) / Math.PI).toFixed(1)} deg`
      : exactTape(at, units) + unit(units);
  return `the file lets ${coordinate} go ${end === 'min' ? 'down' : 'up'} to ${value} only`;
}

/** What to change, the work of it, and the place that it gives, as it is set on the tape's marks. */
export function remedyWords(
  remedy: Remedy,
  { set, wish }: Pick<WhyAnswer, 'set' | 'wish'>,
  telling: Telling,
): string {
  const { look, scenario } = telling;
  const changed = remedy.options.flatMap((option, c) => {
    const choice = scenario.choices[c]!;
    return option === set[c]
      ? []
      : [`${name(choice.name, look)}: ${name(choice.options[option]!.name, look)}`];
  });
  const cuts = remedy.cuts.map((cut) => cutWords(cut, remedy.options, telling));
  const work = workWords(remedy.hours, remedy.cost);
  const { placement } = remedy;
  const place = placeOf(placement, wish.margin);
  const at = COORDINATES.slice(0, 3).map((coordinate) =>
    coordinateWords(coordinate, place.position[coordinate], telling),
  );
  const open = placement.best === 'proved' ? '' : ' so far';
  const deep = remedy.shallowest ? '' : '; perhaps less deep would do';
  return `${[...changed, ...cuts].join(' + ')}${work === '' ? '' : ` (${work})`}: ${leftWords(placement, wish.margin, telling)}${open}, ${at.join(', ')}${deep}`;
}

/** `notch front crossmember 3/8 down (measure this again before cutting)`. */
function cutWords({ trim, depth }: Cut, set: OptionSet, telling: Telling): string {
  const part = name(trim.part, telling.look);
  const how = trim.over === undefined ? 'cut' : 'notch';
  return `${how} ${part} ${depthWords(depth, telling)} ${wayWords(trim, telling)} (${beforeCutting(trim, set, telling)})`;
}

/** Never more than it is: a cut must not go deeper than the file allows. */
export function depthWords(depth: number, { units }: Telling): string {
  return exactTape(depth, units) + unit(units);
}

/** Which way the face goes, and over which stretch where that is all that tells two trims apart. */
export function wayWords(trim: Trim, { scenario, units }: Telling): string {
  const alike = scenario.trims.filter(({ part, cut }) => part === trim.part && cut === trim.cut);
  if (alike.length < 2) return trim.cut;
  const over = Object.entries(trim.over ?? {}).map(
    ([axis, { min, max }]) =>
      `${axis} ${exactTape(min, units)} to ${exactTape(max, units)}${unit(units)}`,
  );
  return over.length === 0 ? trim.cut : `${trim.cut} over ${over.join(' and ')}`;
}

/** What stands beside every cut. */
export function beforeCutting({ part }: Trim, set: OptionSet, { scenario }: Telling): string {
  const structural = isStructural(partUnder(scenario, part, set)?.part.kind);
  return `measure this again before cutting${structural ? '; structural: have it reviewed' : ''}`;
}

/** Room to set it, as a builder says it: how far the engine may be off its setting and still fit. */

import { degrees, tape } from '../../model/text/tape.js';
import { COORDINATES } from '../../model/scenario.js';
import type { Coordinate, Scenario } from '../../model/scenario.js';
import type { Slack, SlackSide } from '../../solver/answer.js';
import { list, paragraph, whole } from './lines.js';
import type { Line, Section } from './lines.js';
import { quantityWords } from '../../words/joints.js';
import { pairWords, sides, unit } from '../../words/words.js';
import type { Telling } from '../../words/words.js';

/** `anywhere within 3/16 either side, 1/4 up, 1/8 down, half a degree either way`. */
export function slackSection(slack: Slack | undefined, telling: Telling): Section {
  if (slack === undefined) return whole([]);
  const { look, units } = telling;
  const told = COORDINATES.filter((coordinate) => !isPinned(slack, coordinate));
  const pieces = told.flatMap((coordinate) => within(slack, coordinate, telling));
  const none = told.filter((coordinate) => {
    return [slack.down, slack.up].every((way) => sizeOf(way[coordinate], coordinate, units) === '');
  });
  if (told.length === 0) return whole([]);
  if (pieces.length === 0) return whole(paragraph('Slack', 'none that a tape shows', look));
  pieces[0] = `anywhere within ${pieces[0]!}`;
  if (none.length > 0) pieces.push(`keep ${none.join(' and ')} as set`);
  return list('Slack', pieces, ', ', look, { least: 2, yields: 9 });
}

/** What stops each side, where every rule is asked for. */
export function slackStops(slack: Slack | undefined, telling: Telling): Line[] {
  if (slack === undefined) return [];
  const pieces = COORDINATES.filter((coordinate) => !isPinned(slack, coordinate)).flatMap(
    (coordinate) =>
      ([slack.down, slack.up] as const).map((way, up) => {
        const side = way[coordinate];
        const said = sizeOf(side, coordinate, telling.units) || '0';
        return `${said} ${ways(coordinate, telling.scenario)[up]!}: ${stopWords(side, telling)}`;
      }),
  );
  return pieces.length === 0 ? [] : [...list('Slack to', pieces, ' | ', telling.look).lines];
}

function isPinned({ down, up }: Slack, coordinate: Coordinate): boolean {
  return [down, up].every((way) => {
    const { room, stop } = way[coordinate];
    return room === 0 && stop.by === 'range';
  });
}

/** One coordinate in one piece where both ways are alike, else in one a way; none where neither tells. */
function within(slack: Slack, coordinate: Coordinate, telling: Telling): string[] {
  const told = [slack.down, slack.up].map((way, up) => {
    const side = way[coordinate];
    const end = ENDS[side.stop.by];
    const size = sizeOf(side, coordinate, telling.units);
    return { size, end, way: ways(coordinate, telling.scenario)[up]! };
  });
  const [down, up] = told as [(typeof told)[0], (typeof told)[0]];
  if (down.size === '' && up.size === '') return [];
  if (down.size === up.size && down.end === up.end) {
    return [`${up.size} ${BOTH[coordinate]}${up.end}`];
  }
  const first = up.size === '' ? [down, up] : [up, down];
  return first.map(({ size, end, way }) => {
    // After `0.9 deg tail up`, the other way needs no tail.
    return size === '' ? `none ${way.replace('tail ', '')}${end}` : `${size} ${way}${end}`;
  });
}

/** What is said of a side that no rule stops. */
const ENDS = {
  rule: '',
  limit: ' (limit)',
  range: ' (end of range)',
  effort: ' at least',
} as const;

const BOTH: Readonly<Record<Coordinate, string>> = {
  setback: 'forward or back',
  offset: 'either side',
  height: 'up or down',
  pitch: 'of pitch either way',
};

function ways(coordinate: Coordinate, scenario: Scenario): readonly [string, string] {
  const [right, left] = sides(scenario);
  const words: Record<Coordinate, readonly [string, string]> = {
    setback: ['forward', 'back'],
    offset: [`to ${left}`, `to ${right}`],
    height: ['down', 'up'],
    pitch: ['tail up', 'tail down'],
  };
  return words[coordinate];
}

/** Rounded down to what a tape or an angle finder shows; empty where that is nothing. */
function sizeOf({ room }: SlackSide, coordinate: Coordinate, units: Telling['units']): string {
  if (coordinate === 'pitch') {
    const angle = degrees(room, 'down');
    if (angle === '0.5') return 'half a degree';
    return Number(angle) === 0 ? '' : `${angle} deg`;
  }
  const length = tape(room, units, { round: 'down' });
  return length === '0' ? '' : length + unit(units);
}

function stopWords({ stop }: SlackSide, telling: Telling): string {
  switch (stop.by) {
    case 'rule':
      return pairWords(stop.rule, telling);
    case 'limit':
      return `limit on ${
        stop.limit.quantity.of === 'height above'
          ? stop.limit.quantity.of
          : quantityWords(stop.limit.quantity)
      }`;
    case 'range':
      return 'end of the range';
    case 'effort':
      return 'looked no further';
  }
}

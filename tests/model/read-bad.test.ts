import { describe, expect, it } from 'vitest';
import { readScenario } from '../../src/model/read.js';
import { ORCHARD } from './orchard.js';

/** Puts one text for another, once; `@@` marks the place where the problem must be said. */
function spoilt(changes: readonly (readonly [string, string])[]) {
  let text = ORCHARD;
  for (const [good, bad] of changes) {
    expect(text).toContain(good);
    text = text.replace(good, () => bad);
  }
  const places: string[] = [];
  for (let at = text.indexOf('@@'); at >= 0; at = text.indexOf('@@')) {
    const before = text.slice(0, at).split('\n');
    places.push(`${before.length}:${before.at(-1)!.length + 1}`);
    text = text.replace('@@', '');
  }
  return { text, places };
}

const placeOf = (one: { line?: number; column?: number }) => `${one.line}:${one.column}`;
const BOX = 'box: { x: [-22, 0], y: [-10, 10], z: [-4, 8] }';
const CROSS = 'profile: [[-4, -9], [4, -9], [4, -5], [-4, -5]]';
const RULE = '  - { between: [engine, chassis], gap: 1/2 }';
const LIMIT = '  - { quantity: pitch, min: 2, max: 4, why: driveline }';
const REMOTE = 'remote: { remove: [oil filter], hours: 1.5, cost: 90 }';
const PLATE = 'motor plate: { move: { fan: { x: -3/8 } }, hours: 3, cost: 160 }';
const TRIM = '  - { part: front crossmember, cut: down,';
const RADIATOR = '  radiator: { kind: radiator,';

type Case = readonly [title: string, code: string, good: string, bad: string, more?: object];

const STRUCTURE: readonly Case[] = [
  [
    'an unknown key',
    'unknown key',
    'driver: left',
    'driver: left\n@@drvier: x',
    { nearest: 'driver' },
  ],
  ['a misspelt needed key', 'unknown key', 'driver:', '@@drivr:', { nearest: 'driver' }],
  [
    'a misspelt key of a solid',
    'unknown key',
    'diameter: 17',
    '@@daimeter: 17',
    { nearest: 'diameter' },
  ],
  ['a misspelt shape', 'unknown key', BOX, '@@bx: { x: [-22, 0] }', { nearest: 'box' }],
  ['no units', 'missing', 'units: in  ', '#', { path: ['units'] }],
  ['unknown units', 'unknown name', 'units: in  ', 'units: @@inch'],
  ['no such format', 'wrong type', 'berth: 1 ', 'berth: @@2 '],
  ['no driver', 'missing', 'driver: left', '', { path: ['driver'] }],
  ['a coordinate left out', 'missing', '  offset: [-2, 2]\n', '', { path: ['position', 'offset'] }],
  ['a solid left out', 'missing', BOX, '', { path: ['engine', 'block'] }],
  ['half a range', 'wrong type', 'setback: [20, 32]', 'setback: @@[20]'],
  ['a list for parts', 'wrong type', `block: { kind: block, ${BOX} }`, 'block: @@[1, 2]'],
  [
    'an unknown kind',
    'unknown name',
    'kind: mechanical fan',
    'kind: @@mecanical fan',
    { nearest: 'mechanical fan' },
  ],
  ['a number as a name', 'wrong type', '{ headers: [left header,', '{ headers: [@@350,'],
  [
    'a key with nothing',
    'wrong type',
    'groups: { headers: [left header, right header] }',
    'groups:@@',
  ],
];

const NUMBERS: readonly Case[] = [
  ['NaN', 'bad number', 'diameter: 17', 'diameter: @@.nan'],
  ['infinity', 'bad number', 'setback: [20, 32]', 'setback: @@[20, .inf]'],
  ['a number out of reach', 'bad number', 'diameter: 17', 'diameter: @@1e999'],
  ['no length', 'bad length', 'diameter: 3 3/4', 'diameter: @@3 3/0'],
  ['an expression', 'bad length', 'diameter: 17', 'diameter: @@10 + 7'],
  ['an unknown unit', 'bad length', 'diameter: 17', 'diameter: @@17 hands'],
  ['a date', 'bad length', 'diameter: 17', 'diameter: @@2024-01-01'],
  ['no angle', 'bad number', 'rake: 0 ', 'rake: @@1 in '],
  ['rock both ways already', 'bad number', 'rock: 2 ', 'rock: @@-2 '],
  ['a pitch past all slopes', 'bad range', 'pitch: [0, 5]', 'pitch: @@[0, 60]'],
  ['hours below 0', 'bad number', 'hours: 1.5', 'hours: @@-1.5'],
  ['worth below 0', 'bad length', 'worth: 1/8', 'worth: @@-1/8'],
  ['a swapped position', 'bad range', 'setback: [20, 32]', 'setback: @@[32, 20]'],
  ['a swapped box', 'bad range', 'x: [-22, 0]', 'x: @@[0, -22]'],
  ['a swapped sweep', 'bad range', 'sweep: { x: [0, 1/2] }', 'sweep: { x: @@[1/2, 0] }'],
  ['a swapped cylinder', 'bad range', 'from: -30, to: -28', 'from: @@-28, to: -30'],
];

const SOLIDS: readonly Case[] = [
  ['no thickness', 'bad solid', 'x: [-22, 0]', 'x: @@[0, 0]'],
  ['no length', 'bad solid', 'from: -30, to: -28', 'from: -30, to: @@-30'],
  ['diameter 0', 'bad solid', 'diameter: 17', 'diameter: @@0'],
  ['a negative diameter', 'bad solid', 'diameter: 3 }', 'diameter: @@-3 }'],
  [
    'two shapes',
    'bad solid',
    BOX,
    `${BOX}, ball: { center: [0, 0, 0], diameter: 1 }`,
    { path: ['engine', 'block'] },
  ],
  [
    'a profile that is not convex',
    'bad solid',
    CROSS,
    'profile: @@[[0, 0], [8, 0], [8, 8], [6, 1]]',
  ],
  [
    'a profile that crosses itself',
    'bad solid',
    CROSS,
    'profile: @@[[0, 0], [8, 8], [8, 0], [0, 8]]',
  ],
  ['a star', 'bad solid', CROSS, 'profile: @@[[0, 5], [3, -4], [-5, 2], [5, 2], [-3, -4]]'],
  ['a profile that runs back', 'bad solid', CROSS, 'profile: @@[[0, 0], [8, 0], [4, 0], [4, 4]]'],
  ['a flat profile', 'bad solid', CROSS, 'profile: @@[[0, 0], [4, 0], [8, 0]]'],
  ['a profile of two', 'bad solid', CROSS, 'profile: @@[[0, 0], [8, 0]]'],
  ['a hull of three', 'bad solid', BOX, 'hull: { points: @@[[0, 0, 0], [1, 0, 0], [0, 1, 0]] }'],
  [
    'a flat hull',
    'bad solid',
    BOX,
    'hull: { points: @@[[0, 0, 0], [1, 0, 0], [0, 1, 0], [1, 1, 0]] }',
  ],
  [
    'a leg without length',
    'bad solid',
    '[-8, -14, 0], [-2, -14, -8]',
    '[-8, -14, 0], @@[-8, -14, 0]',
  ],
  [
    'a tube of one point',
    'bad solid',
    '[[-16, -12, 6], [-8, -14, 0], [-2, -14, -8]]',
    '@@[[0, 0, 0]]',
  ],
  ['a shape beside a list', 'bad solid', BOX, `@@${BOX}, solids: [{ ${BOX} }]`],
  ['an empty list of solids', 'missing', BOX, 'solids: @@[]'],
  ['a sweep of nothing', 'missing', 'sweep: { x: [0, 1/2] }', 'sweep: @@{}'],
];

const PANEL_CORNERS = '[[0, 0, 0], [9, 0, 0], [9, 9, 0], [0, 9, 0]]';
const panel = (corners: string, more = 'thick: 1/8') => `panel: { corners: ${corners}, ${more} }`;
const rail = (...stations: string[]) => `rail: { stations: [${stations.join(', ')}] }`;
const station = (x: string, more = 'inside: 12, outside: 14, top: 0, bottom: -5') =>
  `{ x: ${x}, ${more} }`;
const SHEETS: readonly Case[] = [
  ['a panel of two corners', 'bad solid', BOX, panel('@@[[0, 0, 0], [9, 0, 0]]')],
  [
    'a panel of two corners, one of them twice',
    'bad solid',
    BOX,
    panel('@@[[0, 0, 0], [9, 0, 0], [9, 0, 0]]'),
  ],
  ['a panel along a line', 'bad solid', BOX, panel('@@[[0, 0, 0], [4, 0, 4], [9, 0, 9]]')],
  [
    'a corner twice in a row',
    'bad solid',
    BOX,
    panel('@@[[0, 0, 0], [9, 0, 0], [9, 0, 0], [9, 9, 0], [0, 9, 0]]'),
  ],
  [
    'corners across one another',
    'bad solid',
    BOX,
    panel('@@[[0, 0, 0], [9, 9, 0], [9, 0, 0], [0, 9, 0]]'),
  ],
  [
    'corners across one another, uneven',
    'bad solid',
    BOX,
    panel('@@[[0, 0, 0], [9, 9, 0], [9, 0, 0], [0, 5, 0]]'),
  ],
  [
    'a corner that goes in',
    'bad solid',
    BOX,
    panel('@@[[0, 0, 0], [9, 0, 0], [2, 2, 0], [0, 9, 0]]'),
  ],
  [
    'corners far from a plane',
    'bad solid',
    BOX,
    panel('@@[[0, 0, 0], [9, 0, 4], [9, 9, 0], [0, 9, 4]]'),
  ],
  ['a panel of no thickness', 'bad solid', BOX, panel(PANEL_CORNERS, 'thick: @@0')],
  ['a panel without thickness', 'missing', BOX, `panel: { corners: ${PANEL_CORNERS} }`],
  ['a back along the panel', 'bad solid', BOX, panel(PANEL_CORNERS, 'thick: 1/8, behind: @@left')],
  [
    'a back to no side',
    'unknown name',
    BOX,
    panel(PANEL_CORNERS, 'thick: 1/8, behind: @@blow'),
    { nearest: 'below' },
  ],
  [
    'a corner from no datum',
    'unknown name',
    BOX,
    panel('[[0, 0, 0], [9, 0, 0], [9, 9, @@2 below carb pda]]'),
    { nearest: 'carb pad' },
  ],
  ['a rail of one station', 'bad solid', BOX, `rail: { stations: @@[${station('0')}] }`],
  ['stations the wrong way round', 'bad solid', BOX, rail(station('9'), station('@@0'))],
  ['one station twice', 'bad solid', BOX, rail(station('9'), station('@@9'))],
  [
    'a rail inside out',
    'bad solid',
    BOX,
    rail(station('0'), station('9', 'inside: @@14, outside: 12, top: 0, bottom: -5')),
  ],
  [
    'a rail upside down',
    'bad solid',
    BOX,
    rail(station('0', 'inside: 12, outside: 14, top: @@-5, bottom: 0'), station('9')),
  ],
  [
    'a rail of no height at one end',
    'bad solid',
    BOX,
    rail(station('0'), station('9', 'inside: 12, outside: 14, top: @@-5, bottom: -5')),
  ],
  [
    'a rail of no width at one end',
    'bad solid',
    BOX,
    rail(station('0'), station('9', 'inside: 14, outside: @@14, top: 0, bottom: -5')),
  ],
  [
    'a rail that changes sides',
    'bad solid',
    BOX,
    rail(station('0'), `@@${station('9', 'inside: -12, outside: -14, top: 0, bottom: -5')}`),
  ],
  [
    'a station without its top',
    'missing',
    BOX,
    rail(station('0'), station('9', 'inside: 12, outside: 14, bottom: -5')),
    { path: ['engine', 'block', 'rail', 'stations', 1, 'top'] },
  ],
];

const EDGE = '[-12, -9]';
const AXLE = 'front axle: { x: 0 }';
const PLACES: readonly Case[] = [
  ['a word of another axis', 'bad length', EDGE, '[-12, @@9 below rail top]'],
  [
    'an unknown datum',
    'unknown name',
    EDGE,
    '[-12, @@9 ahead of front axel]',
    { nearest: 'front axle' },
  ],
  ['a datum of the other side', 'unknown name', EDGE, '[-12, @@9 ahead of pulley face]'],
  ['a datum that does not fix the axis', 'bad length', EDGE, '[-12, @@9 ahead of rail top]'],
  ['a place of no distance', 'bad length', EDGE, '[-12, @@ahead of front axle]'],
  ['a place of no length', 'bad length', EDGE, '[-12, @@9 hands ahead of front axle]'],
  ['a place with a sign', 'bad length', EDGE, '[-12, @@-9 ahead of front axle]'],
  ['a place from nowhere', 'unknown name', EDGE, '[-12, @@9 ahead of]'],
  ['a guessed size', 'bad length', 'diameter: 17', 'diameter: @@17 guess'],
  ['a guess of no sort', 'wrong type', BOX, `${BOX}, guess: @@maybe`],
  ['a guessed solid', 'unknown key', BOX, `solids: [{ ${BOX}, @@guess: true }]`],
  ['a size as a place', 'bad length', 'diameter: 17', 'diameter: @@17 ahead of pulley face'],
  ['a move as a place', 'bad length', 'x: -3/8', 'x: @@3/8 ahead of pulley face'],
  ['a swapped range of places', 'bad range', EDGE, '@@[9 ahead of front axle, -12]'],
  ['a position from the engine', 'unknown name', '[20, 32]', '[20, @@32 behind pulley face]'],
  ['a position along another axis', 'bad length', '[20, 32]', '[20, @@32 above rail top]'],
  [
    'a limit from no datum',
    'unknown name',
    LIMIT,
    '  - { quantity: height, min: @@2 above rail tpo }',
    { nearest: 'rail top' },
  ],
  [
    'a cut from no datum',
    'unknown name',
    'over: { y: [4, 10] }',
    'over: { y: [@@4 right of frame center, 10] }',
    { nearest: 'frame centre' },
  ],
  ['a datum from itself', 'bad length', AXLE, 'front axle: { x: @@3 behind front axle }'],
  [
    'datums from one another',
    'bad length',
    AXLE,
    'front axle: { x: @@3 behind cowl }, cowl: { x: 2 ahead of front axle }',
  ],
  ['a datum from no datum', 'unknown name', AXLE, 'front axle: { x: @@3 behind cowl }'],
];

const ERRORS: readonly Case[] = [
  ['an error that is no length', 'bad length', 'diameter: 17', 'diameter: @@17 +- some'],
  ['an error of nothing', 'bad length', 'diameter: 17', 'diameter: @@17 +-'],
  ['an error with a sign', 'bad length', 'diameter: 17', 'diameter: @@17 +- -1/8'],
  ['an error of no length', 'bad length', 'diameter: 17', 'diameter: @@+- 1/8'],
  ['an error with its own error', 'bad length', 'diameter: 17', 'diameter: @@17 +- 1/4 +- 1/8'],
  ['an error of an angle', 'bad number', 'rake: 0 ', 'rake: @@0 +- 1 '],
  ['an error of a move', 'bad length', 'x: -3/8', 'x: @@-3/8 +- 1/16'],
  ['an error of a sweep', 'bad length', 'x: [0, 1/2]', 'x: [0, @@1/2 +- 1/16]'],
  ['an error of a gap', 'bad length', 'gap: 2,', 'gap: @@2 +- 1/8,'],
  ['an error of a range', 'bad length', '[20, 32]', '[@@20 +- 1/8, 32]'],
  ['an error of a place in a range', 'bad length', '[20, 32]', '[@@20 +- 1 behind front axle, 32]'],
  ['an error of a limit', 'bad length', LIMIT, '  - { quantity: height, min: @@2 +- 1/8 }'],
  ['an error of a cut', 'bad length', 'y: [4, 10]', 'y: [@@4 +- 1/8, 10]'],
  ['a file’s error with a sign', 'bad length', 'rake: 0 ', 'measuring error: @@-1/16\nrake: 0 '],
  ['a file’s error of no length', 'bad length', 'rake: 0 ', 'measuring error: @@some\nrake: 0 '],
  ['an error as a key', 'unknown key', BOX, `${BOX}, @@+-: 1/8`],
];

const NAMES: readonly Case[] = [
  [
    'a rule without parts',
    'unknown name',
    RULE,
    `${RULE}\n  - { between: [fan, @@radiater], gap: 1 }`,
    { nearest: 'radiator' },
  ],
  [
    'a kind nothing is of',
    'bad rule',
    RULE,
    `${RULE}\n  - { between: @@[starter, chassis], gap: 1 }`,
  ],
  [
    'one side with itself',
    'bad rule',
    RULE,
    `${RULE}\n  - { between: @@[engine, engine], gap: 1 }`,
  ],
  ['a part with itself', 'bad rule', RULE, `${RULE}\n  - { between: @@[fan, fan], gap: 1 }`],
  [
    'a kind with its own side',
    'bad rule',
    RULE,
    `${RULE}\n  - { between: @@[mechanical fan, engine], gap: 1 }`,
  ],
  [
    'a forced end of no name',
    'unknown name',
    RULE,
    `${RULE}\n  - { between: [{ group: @@header }, chassis], gap: 1 }`,
    { nearest: 'headers' },
  ],
  [
    'two names for one end',
    'bad rule',
    RULE,
    `${RULE}\n  - { between: [@@{ part: fan, kind: hose }, chassis], gap: 1 }`,
  ],
  ['a gap below 0', 'bad rule', RULE, `${RULE}\n  - { between: [fan, chassis], gap: @@-1 }`],
  [
    'ignore without why',
    'missing',
    RULE,
    `${RULE}\n  - { between: [fan, chassis], gap: ignore }`,
    { path: ['rules', 2, 'why'] },
  ],
  [
    'a side without its measure',
    'bad rule',
    'gap: 2, measured: fore-aft, side: ahead',
    'gap: 2, side: @@ahead',
  ],
  [
    'a side across the measure',
    'bad rule',
    'measured: fore-aft, side: ahead',
    'measured: fore-aft, side: @@above',
  ],
  [
    'nothing comes out',
    'bad rule',
    RULE,
    `${RULE}\n  - { between: [fan, radiator], gap: 1, coming out: @@true }`,
  ],
  [
    'rules that tie',
    'tie',
    RULE,
    `${RULE}\n  - @@{ between: [radiator, fan], gap: 3, measured: fore-aft, side: behind }`,
  ],
  [
    'rules that tie by group',
    'tie',
    RULE,
    `${RULE}\n  - { between: [headers, radiator], gap: 1 }\n  - @@{ between: [{ group: headers }, radiator], gap: 2 }`,
  ],
  [
    'a side that is not clear',
    'side unclear',
    RULE,
    `${RULE}\n  - @@{ between: [left header, front crossmember], gap: 1, measured: fore-aft }`,
  ],
  [
    'an unknown part in a group',
    'unknown name',
    'headers: [left header, right header]',
    'headers: [left header, @@right hedaer]',
    { nearest: 'right header' },
  ],
  [
    'a part in a group twice',
    'duplicate',
    'headers: [left header, right header]',
    'headers: [left header, @@left header]',
  ],
  ['one name on both sides', 'duplicate', RADIATOR, `  @@fan: { ${BOX} }\n${RADIATOR}`],
  [
    'the name of a mirror image',
    'duplicate',
    'kind: oil filter,',
    'kind: oil filter, mirror: @@fan,',
  ],
  [
    'the same key twice',
    'duplicate',
    RADIATOR,
    `  radiator: { ${BOX} }\n  @@radiator: { kind: radiator,`,
  ],
];

const LIMITS: readonly Case[] = [
  ['min over max', 'bad limit', 'min: 2, max: 4', 'min: @@4, max: 2'],
  ['a limit of nothing', 'missing', 'pitch, min: 2, max: 4', 'pitch'],
  ['outside the range', 'bad limit', LIMIT, '  - @@{ quantity: pitch, min: 6 }'],
  [
    'two that contradict',
    'bad limit',
    LIMIT,
    '  - { quantity: pitch, max: 2 }\n  - @@{ quantity: pitch, min: 3 }',
  ],
  ['no such quantity', 'unknown name', 'quantity: pitch', 'quantity: @@pich', { nearest: 'pitch' }],
  [
    'height of nothing',
    'missing',
    LIMIT,
    '  - { quantity: height above, above: floor, min: 8 }',
    { path: ['limits', 0, 'of'] },
  ],
  [
    'height of an unknown part',
    'unknown name',
    LIMIT,
    '  - { quantity: height above, of: @@blok, above: floor, min: 8 }',
    { nearest: 'block' },
  ],
  [
    'height of a chassis part',
    'bad limit',
    LIMIT,
    '  - { quantity: height above, of: @@radiator, above: floor, min: 8 }',
  ],
  [
    'height above no height',
    'bad limit',
    LIMIT,
    '  - { quantity: height above, of: block, above: @@front axle, min: 8 }',
  ],
  [
    'height above no datum',
    'unknown name',
    LIMIT,
    '  - { quantity: height above, of: block, above: @@flor, min: 8 }',
    { nearest: 'floor' },
  ],
  ['of with a plain quantity', 'bad limit', 'pitch, min: 2', 'pitch, of: @@fan, min: 2'],
];

const OPTIONS: readonly Case[] = [
  [
    'removing nothing known',
    'unknown name',
    REMOTE,
    'remote: { remove: [@@oil fliter] }',
    { nearest: 'oil filter' },
  ],
  [
    'moving nothing known',
    'unknown name',
    'move: { fan: {',
    'move: { fam: @@{',
    { nearest: 'fan' },
  ],
  ['moving by nothing', 'missing', 'move: { fan: { x: -3/8 } }', 'move: { fan: @@{} }'],
  [
    'replacing nothing known',
    'unknown name',
    REMOTE,
    `remote: { replace: { @@oil fliter: { ${BOX} } } }`,
    { nearest: 'oil filter' },
  ],
  [
    'adding what is there',
    'duplicate',
    REMOTE,
    `remote: { add: { engine: { @@fan: { ${BOX} } } } }`,
  ],
  [
    'needing no such choice',
    'unknown name',
    PLATE,
    'motor plate: { needs: { @@oil fliter: remote } }',
    { nearest: 'oil filter' },
  ],
  [
    'needing no such option',
    'unknown name',
    PLATE,
    'motor plate: { needs: { oil filter: @@remot } }',
    { nearest: 'remote' },
  ],
  [
    'needing what it rules out',
    'excluded',
    PLATE,
    'motor plate: { needs: { oil filter: @@remote }, rules out: { oil filter: remote } }',
  ],
  [
    'needing another of its own',
    'excluded',
    PLATE,
    'motor plate: { needs: { front plate: @@none } }',
  ],
  [
    'no options at all',
    'missing',
    '    none: {}\n    motor plate: { move: { fan: { x: -3/8 } }, hours: 3, cost: 160 }',
    '    {}',
    { path: ['choices', 'front plate'] },
  ],
  [
    'a limit outside the range',
    'bad limit',
    PLATE,
    'motor plate: { limits: [@@{ quantity: offset, min: 3 }] }',
  ],
  [
    'a limit against the file’s',
    'bad limit',
    PLATE,
    'motor plate: { limits: [@@{ quantity: pitch, min: 4.5 }] }',
  ],
  [
    'an unknown effect',
    'unknown key',
    REMOTE,
    'remote: { @@remov: [oil filter] }',
    { nearest: 'remove' },
  ],
];

const TRIMS: readonly Case[] = [
  [
    'of nothing known',
    'unknown name',
    TRIM,
    '  - { part: @@front crosmember, cut: down,',
    { nearest: 'front crossmember' },
  ],
  ['of the engine', 'bad trim', TRIM, '  - { part: @@block, cut: down,'],
  ['by nothing', 'bad trim', 'up to: 1,', 'up to: @@0,'],
  ['over nothing', 'bad trim', 'over: { y: [4, 10] }', 'over: { y: @@[4, 4] }'],
  ['beside the part', 'bad trim', 'over: { y: [4, 10] }', 'over: { y: @@[14, 20] }'],
  [
    'beside it along one of two',
    'bad trim',
    'over: { y: [4, 10] }',
    'over: { y: [4, 10], x: @@[-9, -4] }',
  ],
  [
    'outward from both sides',
    'bad trim',
    'cut: down',
    'cut: @@outward',
    { expected: 'left or right' },
  ],
  ['no such way', 'unknown name', 'cut: down', 'cut: @@donw', { nearest: 'down' }],
  ['per nothing', 'bad trim', 'per: 1 in', 'per: @@0'],
];

const STOP = '{ setback: 10, offset: 0, height: 40, pitch: 15 }';
const ROCK = 'rock: 2 ';
/** A hoist path with one key of it, spoilt, before the rest. */
const hoist = (spoilt: string, through = `[${STOP}]`) =>
  `hoist path: { ${spoilt}through: ${through} }\n${ROCK}`;

const HOIST: readonly Case[] = [
  ['a list for a path', 'wrong type', ROCK, `hoist path: @@[]\n${ROCK}`],
  ['no positions', 'missing', ROCK, `@@hoist path: { gap: 1 }\n${ROCK}`],
  ['an empty list of positions', 'missing', ROCK, hoist('', '@@[]')],
  ['an empty list of what is off', 'missing', ROCK, hoist('off: @@[], ')],
  ['an empty list of what comes later', 'missing', ROCK, hoist('without: @@[], ')],
  ['a misspelt key', 'unknown key', ROCK, hoist('@@of: [radiator], '), { nearest: 'off' }],
  ['nothing known off', 'unknown name', ROCK, hoist('off: [@@radiatr], '), { nearest: 'radiator' }],
  ['a whole side off', 'unknown name', ROCK, hoist('off: [@@chassis], ')],
  ['an engine part off', 'bad path', ROCK, hoist('off: [radiator, @@block], ')],
  ['a group of the engine off', 'bad path', ROCK, hoist('off: [@@headers], ')],
  ['a kind off that no part has', 'bad path', ROCK, hoist('off: [@@hood], ')],
  ['a kind of the engine off', 'bad path', ROCK, hoist('off: [@@header], ')],
  ['a chassis part put on later', 'bad path', ROCK, hoist('without: [@@radiator], ')],
  ['a gap under 0', 'bad path', ROCK, hoist('gap: @@-1, ')],
  ['no length for a gap', 'bad length', ROCK, hoist('gap: @@wide, ')],
  ['half a position', 'missing', ROCK, hoist('', '[@@{ setback: 1, offset: 0, height: 2 }]')],
  ['a number for a position', 'wrong type', ROCK, hoist('', '[@@7]')],
  ['no such place', 'unknown name', ROCK, hoist('', `[${STOP.replace('10', '@@1 behind axel')}]`)],
  ['too steep', 'bad range', ROCK, hoist('', `[${STOP.replace('15', '@@60')}]`)],
  ['an error on the way', 'bad length', ROCK, hoist('', `[${STOP.replace('40', '@@40 +- 1')}]`)],
];

/** The block with a turn. */
const turning = (turn: string) => `${BOX}, turn: ${turn}`;
const TURN = 'about: x, at: [0, 0, 2], by: [-3, 3]';
const ROCKER = 'at: fan, by: 1/2';

const MOTIONS: readonly Case[] = [
  ['a number for a turn', 'wrong type', BOX, turning('@@5')],
  ['a turn about nothing', 'missing', BOX, turning('{ at: [0, 0, 2], by: [-3, 3] }')],
  ['a turn about no axis', 'unknown name', BOX, turning(`{ ${TURN.replace('x', '@@w')} }`)],
  [
    'a turn at no point',
    'wrong type',
    BOX,
    turning(`{ ${TURN.replace('[0, 0, 2]', '@@[0, 0]')} }`),
  ],
  ['a turn by one angle', 'wrong type', BOX, turning(`{ ${TURN.replace('[-3, 3]', '@@3')} }`)],
  ['a turn by no angle', 'bad number', BOX, turning(`{ ${TURN.replace('-3', '@@1 in')} }`)],
  [
    'a turn by an angle that errs',
    'bad number',
    BOX,
    turning(`{ ${TURN.replace('-3', '@@-3 +- 1')} }`),
  ],
  [
    'a misspelt key of a turn',
    'unknown key',
    BOX,
    turning(`{ ${TURN}, @@att: 1 }`),
    { nearest: 'at' },
  ],
  [
    'a turn at no datum',
    'unknown name',
    BOX,
    turning(`{ ${TURN.replace('2]', '@@2 below carb pda]')} }`),
    { nearest: 'carb pad' },
  ],
  ['a swapped turn', 'bad range', BOX, turning(`{ ${TURN.replace('[-3, 3]', '@@[3, -3]')} }`)],
  [
    'a turn of half a turn',
    'bad range',
    BOX,
    turning(`{ ${TURN.replace('[-3, 3]', '@@[-90, 90]')} }`),
  ],
  [
    'a turn that goes nowhere',
    'bad motion',
    BOX,
    turning(`{ ${TURN.replace('[-3, 3]', '@@[3, 3]')} }`),
  ],
  ['a turn of one solid', 'unknown key', BOX, `solids: [{ ${BOX}, @@turn: { ${TURN} } }]`],
  ['lift down', 'bad length', ROCK, `lift: @@-1\n${ROCK}`],
  ['lift by no length', 'bad length', ROCK, `lift: @@high\n${ROCK}`],
  ['lift that errs', 'bad length', ROCK, `lift: @@1 +- 1/8\n${ROCK}`],
  ['a list for lift', 'wrong type', ROCK, `lift: @@[0, 1]\n${ROCK}`],
  ['lift in a part', 'unknown key', BOX, `${BOX}, @@lift: 1 in`],
  ['lift among the parts', 'wrong type', '  block:', '  lift: @@1 in\n  block:'],
  ['a name for together', 'wrong type', ROCK, `together: @@fan\n${ROCK}`],
  ['one list of names for together', 'wrong type', ROCK, `together: [@@radiator]\n${ROCK}`],
  ['together alone', 'missing', ROCK, `together: [@@[radiator]]\n${ROCK}`],
  [
    'together with nothing known',
    'unknown name',
    ROCK,
    `together: [[radiator, @@radiatro]]\n${ROCK}`,
    { nearest: 'radiator' },
  ],
  [
    'together with what stands still',
    'bad motion',
    ROCK,
    `together: [[radiator, @@front crossmember]]\n${ROCK}`,
  ],
  ['together with itself', 'duplicate', ROCK, `together: [[radiator, @@radiator]]\n${ROCK}`],
  ['together in a part', 'unknown key', BOX, `${BOX}, @@together: [fan]`],
  ['rock in inches alone', 'bad number', ROCK, 'rock: @@1/2 in '],
  ['rock in words', 'bad number', ROCK, 'rock: @@1/2 in at fan '],
  ['rock in metres at a part', 'bad number', ROCK, 'rock: @@1 m at fan '],
  ['rock that errs', 'bad number', ROCK, 'rock: @@2 +- 1 '],
  ['a list for rock', 'wrong type', ROCK, 'rock: @@[1, 2] '],
  ['rock at no part', 'missing', ROCK, 'rock: { by: 1/2 } ', { path: ['rock', 'at'] }],
  [
    'a misspelt key of rock',
    'unknown key',
    ROCK,
    `rock: { ${ROCKER}, @@byy: 1 } `,
    { nearest: 'by' },
  ],
  [
    'rock at an unknown part',
    'unknown name',
    ROCK,
    `rock: { ${ROCKER.replace('fan', '@@fann')} } `,
    { nearest: 'fan' },
  ],
  [
    'rock at a chassis part',
    'bad motion',
    ROCK,
    `rock: { ${ROCKER.replace('fan', '@@radiator')} } `,
  ],
  [
    'rock by more than the part reaches',
    'bad motion',
    ROCK,
    `rock: { ${ROCKER.replace('1/2', '@@12')} } `,
  ],
  ['rock by nearly that', 'bad range', ROCK, `rock: @@{ ${ROCKER.replace('1/2', '10')} } `],
  ['rock by nothing', 'bad length', ROCK, `rock: { ${ROCKER.replace('1/2', '@@0')} } `],
  [
    'rock by a length that errs',
    'bad length',
    ROCK,
    `rock: { ${ROCKER.replace('1/2', '@@1/2 +- 1/8')} } `,
  ],
];

describe.each<readonly [string, readonly Case[]]>([
  ['structure', STRUCTURE],
  ['numbers', NUMBERS],
  ['solids', SOLIDS],
  ['panels and rails', SHEETS],
  ['places', PLACES],
  ['measuring errors', ERRORS],
  ['names and rules', NAMES],
  ['limits', LIMITS],
  ['choices', OPTIONS],
  ['trims', TRIMS],
  ['the hoist path', HOIST],
  ['motions', MOTIONS],
])('one mistake gives one problem: %s', (_, cases) => {
  const named = cases.map(([title, code, good, bad, more = {}]) => ({
    title,
    code,
    good,
    bad,
    more,
  }));
  it.each(named)('$title', ({ code, good, bad, more }) => {
    const { text, places } = spoilt([[good, bad]]);
    const { scenario, problems } = readScenario(text, 'yaml');
    expect(scenario).toBeUndefined();
    expect(problems.map((one) => `${one.code}: ${one.message}`)).toHaveLength(1);
    expect(problems[0]).toMatchObject({ code, severity: 'error', ...more });
    if (places.length > 0) expect(placeOf(problems[0]!)).toBe(places[0]);
    expect(problems[0]!.line).toBeGreaterThan(0);
  });
});

describe('warnings leave a scenario', () => {
  const onlyNamed = [RULE, ''] as const;
  it.each<[string, string, readonly (readonly [string, string])[], string[]]>([
    [
      'parts that no rule covers',
      'uncovered',
      [onlyNamed, ['rulebook: common practice', 'rulebook: none'], ['  block:', '  @@block:']],
      ['block', 'oil filter', 'left header', 'right header', 'front crossmember'],
    ],
    [
      'an option that can never be chosen',
      'excluded',
      [
        [REMOTE, '@@remote: { needs: { front plate: none } }'],
        [PLATE, PLATE.replace('{ move', '{ needs: { oil filter: on the block }, move')],
        ['none: {}', 'none: { rules out: { oil filter: remote } }'],
      ],
      ['remote'],
    ],
    [
      'first options that do not go together',
      'excluded',
      [['on the block: {}', 'on the block: { needs: { front plate: motor plate } }']],
      ['the bay as it stands'],
    ],
    [
      'a side that is never so',
      'bad rule',
      [
        [
          RULE,
          `${RULE}\n  - { between: [block, radiator], gap: 1, measured: fore-aft, side: behind }`,
        ],
      ],
      ['always ahead'],
    ],
    [
      'a kind that is drawn and not fitted',
      'duplicate',
      [['not fitted: [brake booster]', 'not fitted: [@@radiator]']],
      ['radiator'],
    ],
    [
      'a turn that leaves out the part',
      'bad range',
      [[BOX, `${BOX}, turn: { about: x, at: [0, 0, 2], by: @@[2, 8] }`]],
      ['turn'],
    ],
    [
      'a turn about the axis that the part is round about',
      'bad motion',
      [
        [
          'center: [0, 3], diameter: 17 }',
          'center: [0, 3], diameter: 17 }, turn: @@{ about: x, at: [9, 0, 3], by: [-9, 9] }',
        ],
      ],
      ["'fan' is round about its axis"],
    ],
    [
      'lift with nothing to be checked against',
      'uncovered',
      [[ROCK, `lift: @@1\n${ROCK}`]],
      ['checked against nothing'],
    ],
    [
      'a sweep that leaves out the part',
      'bad range',
      [['sweep: { x: [0, 1/2] }', 'sweep: { x: @@[1/4, 1/2] }']],
      ['sweep'],
    ],
  ])('%s', (_, code, changes, words) => {
    const { text, places } = spoilt(changes);
    const { scenario, problems } = readScenario(text, 'auto');
    expect(problems.map(({ message }) => message)).toHaveLength(words.length);
    problems.forEach((one, i) => {
      expect(one).toMatchObject({ code, severity: 'warning' });
      expect(one.message).toContain(words[i]);
    });
    if (places.length > 0) expect(placeOf(problems[0]!)).toBe(places[0]);
    expect(scenario).toBeDefined();
  });
});

it('refuses a file without any rule: nothing could be measured', () => {
  const { text } = spoilt([
    ['rulebook: common practice', 'rulebook: none'],
    [ORCHARD.slice(ORCHARD.indexOf('rules:\n'), ORCHARD.indexOf('limits:\n')), ''],
  ]);
  expect(readScenario(text, 'auto').problems).toMatchObject([
    { code: 'uncovered', severity: 'error', expected: 'rulebook: common practice, or rules' },
  ]);
});

it('says options that cannot go together at all', () => {
  const { text } = spoilt([
    ['none: {}', 'none: { rules out: { oil filter: remote }, needs: { oil filter: remote } }'],
    [PLATE, 'motor plate: { rules out: { oil filter: remote } }'],
    ['on the block: {}', 'on the block: { rules out: { front plate: motor plate } }'],
  ]);
  const { problems } = readScenario(text, 'yaml');
  expect(problems.map(({ code }) => code)).toEqual(['excluded', 'excluded']);
});

it.each([
  'steering valve',
  'steering box',
  'steering shaft',
  'steering linkage',
  'brake booster',
  'brake line',
  'fuel line',
  'fuel pump',
  'suspension',
  'spring',
  'axle',
])('never cuts a %s', (kind) => {
  const { text } = spoilt([
    ['kind: crossmember', `kind: ${kind}`],
    ['not fitted: [brake booster]', ''],
  ]);
  const { problems } = readScenario(text, 'yaml');
  expect(problems).toMatchObject([{ code: 'bad trim', path: ['trims', 0, 'part'] }]);
});

describe('a cut that goes right through', () => {
  const deep = (upTo: string) => {
    const { text, places } = spoilt([['up to: 1,', `up to: @@${upTo},`]]);
    return { ...readScenario(text, 'yaml'), places };
  };

  it('is a warning where nothing is left of the part', () => {
    const { scenario, problems, places } = deep('4');
    expect(scenario?.trims[0]?.upTo).toBe(4 * 25.4);
    expect(problems.map((one) => [one.code, one.severity, placeOf(one)])).toEqual([
      ['bad trim', 'warning', places[0]],
    ]);
    expect(problems[0]!.message).toContain('right through');
  });

  it('is nothing to say where something is left', () => {
    expect(deep('3 15/16').problems).toEqual([]);
  });

  it('is nothing to say of sheet metal, which is cut out for a recess', () => {
    const { text } = spoilt([
      ['up to: 1,', 'up to: 4,'],
      ['kind: crossmember', 'kind: firewall'],
    ]);
    expect(readScenario(text, 'yaml').problems.filter(({ path }) => path[0] === 'trims')).toEqual(
      [],
    );
  });
});

it('cuts a part outward that stands on one side of the centre', () => {
  const { text } = spoilt([
    ['from: -14, to: 14', 'from: 0, to: 14'],
    ['cut: down', 'cut: outward'],
  ]);
  const { scenario, problems } = readScenario(text, 'yaml');
  expect(problems).toEqual([]);
  expect(scenario!.trims[0]!.cut).toBe('outward');
});

it('says several mistakes at once, in the order of the file', () => {
  const { text, places } = spoilt([
    ['driver: left', 'driver: @@middle'],
    ['setback: [20, 32]', 'setback: @@[32, 20]'],
    ['diameter: 17', 'diameter: @@0'],
    [CROSS, 'profile: @@[[0, 0], [8, 8], [8, 0], [0, 8]]'],
    ['headers: [left header, right header]', 'headers: [left header, @@rihgt header]'],
    ['[fan, radiator]', '[@@fann, radiator]'],
    ['min: 2, max: 4', 'min: @@4, max: 2'],
    ['remove: [oil filter]', 'remove: [@@oil filtre]'],
    ['up to: 1,', 'up to: @@-1,'],
    ['not fitted: [brake booster]', 'not fitted: [@@brake boster]'],
  ]);
  const { problems } = readScenario(text, 'yaml');
  expect(problems.map(placeOf)).toEqual(places);
  expect(places).toHaveLength(10);
  expect(problems[0]).toMatchObject({ read: 'middle', expected: 'left or right' });
  expect(problems.at(-1)).toMatchObject({ read: 'brake boster', nearest: 'brake booster' });
});

it('says of a turn that it is refused, not also that the part does not move', () => {
  const { text, places } = spoilt([
    [BOX, turning(`{ ${TURN.replace('[-3, 3]', '@@[3, -3]')} }`)],
    [ROCK, `together: [[block, left header]]\n${ROCK}`],
    ['mirror: right header,', 'mirror: right header, sweep: { z: [0, 1] },'],
  ]);
  const { problems } = readScenario(text, 'yaml');
  expect(problems.map(placeOf)).toEqual(places);
  expect(problems).toMatchObject([{ code: 'bad range' }]);
});

it('refuses rock at what is round about the crankshaft, and parts in step on both sides', () => {
  const balancer =
    'balancer: { cylinder: { axis: x, from: -24, to: -22, center: [0, 0], diameter: 7 } }';
  const { text, places } = spoilt([
    ['  block:', `  ${balancer}\n  block:`],
    [ROCK, 'rock: { by: 1/8, at: @@balancer }\ntogether: [[radiator, @@block]] '],
    [BOX, turning(`{ ${TURN} }`)],
  ]);
  const { problems } = readScenario(text, 'yaml');
  expect(problems.map(placeOf)).toEqual(places);
  expect(problems.map(({ code }) => code)).toEqual(['bad motion', 'bad motion']);
  expect(problems.map(({ expected }) => expected)).toContain('a part of the chassis');
});

it.each([
  ['nothing', '', 'missing'],
  ['a comment', '# only\n', 'missing'],
  ['a list', '- 1\n', 'wrong type'],
  ['a word', 'hello', 'wrong type'],
  ['broken YAML', 'berth: [1', 'syntax'],
])('a file that holds %s', (_, text, code) => {
  expect(readScenario(text, 'auto')).toMatchObject({ problems: [{ code, line: 1 }] });
});

it('says every top key that is missing from an empty map', () => {
  const { problems } = readScenario('{}', 'auto');
  expect(problems.map(({ path }) => path[0])).toEqual(
    expect.arrayContaining(['berth', 'units', 'driver', 'position', 'engine', 'chassis']),
  );
});

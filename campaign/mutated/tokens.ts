/** What a slip of the hand, a wrong program or bad will may put into a file. */

/** In place of a number, or where one is expected. */
export const NUMBERS: readonly string[] = [
  '-1', '0', '-0', '+3', '1e308', '-1e308', '1e999', '1e-320', '.inf', '-.inf', '.nan', 'NaN', 'Infinity',
  '0x1F', '0o17', '017', '0b11', '1_000', '1,000', '2026-01-01', '12:30', '1/0', '0/0', '3/8', '- 3', '3 -',
  '999999999999999999999', '1e6', '1e15', '0.1e1', '.5', '5.', '1.5.2', '1..2', '--3', '3 1/2', '3-1/2', '-3 5/8',
  '3 1/2 in', '3 ft', '3 ft 2', '2 ft 3 in', '490 mm', '49 cm', '3 furlongs', '5 kg', '3 lb', '12 deg', '3°',
  '\u0663', '\u00bd', '3\u00bd', '1\u00a01/2', '\u22123', '3\u20443', "3'", "'3\"'", '3 +- 1/8', '3 +- -1', '3 +-',
  '+- 3', '~', 'null', '', 'true', 'no', 'off', '[]', '{}', '[1, 2]', '{ x: 1 }', '"7"', "'7'", '! 7', '7 # 8',
  '9 ahead of front axle', '9 behind axle', '1 above rail top', '1 left of nothing', 'ahead of', '>= 3',
]; // prettier-ignore

/** Anywhere at all. */
export const TOKENS: readonly string[] = [
  '{', '}', '[', ']', ':', ': ', ',', '\n', '\r', '\r\n', '- ', '? ', '| ', '|\n', '>-\n', '&a ', '*a', '*a ', '&a [*a]', '!x ',
  '!!str ', '!!int ', '!!float ', '!!binary ', '!!timestamp ', '!!set ', '!!omap ', '!<tag:x> ', '"', "'", '#', ' # ', '-', '/0',
  '~', 'true', '<<: ', '<<: *a', '<<: { x: 1 }', '__proto__: ', '__proto__: { x: 1 }', 'constructor: ', 'toString: ', 'hasOwnProperty',
  'prototype', ' ahead of front axle', '+-', '\t', '\0', '\u0007', '\u001b[31m', '\ud800', '\udfff', '\ufeff', '\u200f', '\u202e',
  '\u200d', '\u2028', '\u2029', '\u0085', '\u00a0', '\u{1f527}', 'e\u0301', '\\', '\\n', '%', '%YAML 1.1\n---\n', '---\n', '\n---\n',
  '\n...\n', '@', '`', 'block', 'engine', 'chassis', '0', '-1', '{{', '$(x)', '<script>', 'null', 'ignore', 'nearest',
]; // prettier-ignore

/** Keys of the format, some as they are, some nearly. */
export const KEYS: readonly string[] = [
  'box', 'cylinder', 'hull', 'points', 'ball', 'tube', 'through', 'panel', 'rail', 'prism', 'profile', 'solids', 'tilt',
  'mirror', 'turn', 'sweep', 'comes out', 'kind', 'guess', 'gap', 'between', 'measured', 'side', 'why', 'x', 'y', 'z', 'axis',
  'from', 'to', 'center', 'centre', 'diameter', 'radius', 'min', 'max', 'of', 'above', 'remove', 'add', 'replace', 'move',
  'needs', 'rules out', 'hours', 'cost', 'rules', 'limits', 'Box', 'gap ', 'Setback', 'set back', 'unit', 'comes  out', 'at', 'up to',
]; // prettier-ignore

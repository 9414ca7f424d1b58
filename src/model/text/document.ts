/**
 * From the text of a file to plain values, keeping where each one stands.
 *
 * YAML 1.2 with its core schema, of which JSON is a part: `3/8`, `4:30`, `yes` and dates stay text.
 * Refused, for they hide what a file says: several documents, merge keys, tags, keys that are not
 * plain words, aliases without end.
 */

import { Composer, Lexer, LineCounter, Parser, YAMLParseError } from 'yaml';
import { isAlias, isMap, isPair, isSeq } from 'yaml';
import type { Document as YamlDocument, Node } from 'yaml';
import { jsonFault } from './json-fault.js';
import type { Problem, ProblemCode } from './problem.js';
import { Converter, MAX_DEPTH, isNode, keyOf } from '../reading/values.js';
import type { Place } from '../reading/values.js';
import type { Path } from '../scenario.js';

/** A scenario of 400 parts takes about 100 kB. */
export const MAX_FILE_BYTES = 1_000_000;

export interface SourceDocument {
  /** Maps, lists, strings, numbers, booleans and nulls; undefined when there is no reading it. */
  readonly value: unknown;
  readonly problems: readonly Problem[];
  /** Where a value stands, or its key; of what is not in the file, the nearest thing around it. */
  locate(path: Path, what?: 'key' | 'value'): Place | undefined;
  /** The value at a path as the file writes it, shortened; undefined when it is not there. */
  source(path: Path): string | undefined;
  /** The names in a map in the file's order, which an object does not keep for names like 350. */
  keys(path: Path): readonly string[];
}

/**
 * Reads YAML or JSON; every mistake of the notation is in `problems`, and nothing is thrown.
 * @param format `json` refuses what JSON itself does not allow; otherwise it is read as YAML.
 */
export function readDocument(
  text: string,
  format: 'yaml' | 'json' | 'auto' = 'auto',
): SourceDocument {
  if (byteLength(text) > MAX_FILE_BYTES) {
    return unreadable({
      code: 'too large',
      message: 'the file is too large for a scenario',
      read: `${(byteLength(text) / 1e6).toFixed(1)} MB`,
      expected: `at most ${MAX_FILE_BYTES / 1e6} MB`,
    });
  }
  const lines = new LineCounter();
  const parsed = parse(text, lines);
  if (parsed === undefined) {
    return unreadable({ code: 'syntax', message: 'the file is nested too deeply to read' });
  }
  const place = (offset: number): Place => {
    const { line, col } = lines.linePos(offset);
    return { line: Math.max(1, line), column: Math.max(1, col) };
  };
  // Who writes JSON is told of JSON: YAML's complaint of the same text would speak of another notation.
  const fault = format === 'json' ? jsonFault(text) : undefined;
  if (fault !== undefined) {
    const { offset, message, ...expected } = fault;
    const read = shortened(lineAt(text, offset));
    const said = { message: `this is not JSON: ${message}`, ...place(offset), read, ...expected };
    return unreadable({ code: 'syntax', ...said });
  }
  const problems = syntaxProblems(parsed, text, place);
  if (problems.length > 0) {
    return { value: undefined, problems, ...NOWHERE };
  }
  const converter = new Converter(place);
  const value = converter.convert(parsed.contents, []);
  return {
    value: converter.stopped ? undefined : value,
    problems: converter.problems,
    locate: (path, what = 'value') => {
      const offset = offsetOf(parsed, path, what);
      return offset === undefined ? undefined : place(offset);
    },
    source: (path) => {
      const range = nodeAt(parsed, path)?.range;
      return range ? shortened(text.slice(range[0], range[1])) : undefined;
    },
    keys: (path) => {
      const node = nodeAt(parsed, path);
      const map = isAlias(node) ? node.resolve(parsed) : node;
      return isMap(map) ? map.items.map((item) => keyOf(item.key)) : [];
    },
  };
}

/**
 * Parses the first document and complains of a second. Undefined when collections nest deeper than
 * `MAX_DEPTH`: what comes after recurses, and a full stack can end the process rather than throw.
 */
function parse(text: string, lines: LineCounter): YamlDocument.Parsed | undefined {
  const parser = new Parser(lines.addNewLine);
  lines.addNewLine(0);
  let deepest = 0;
  function* tokens() {
    for (const lexeme of new Lexer().lex(text)) {
      yield* parser.next(lexeme);
      deepest = Math.max(deepest, parser.stack.length);
      if (deepest > MAX_DEPTH) return;
    }
    yield* parser.end();
  }
  const composer = new Composer({
    schema: 'core',
    version: '1.2',
    stringKeys: true,
    prettyErrors: false,
    resolveKnownTags: false,
    // Checked below: the parser compares every key with every other.
    uniqueKeys: false,
  });
  const documents = composer.compose(tokens(), true, text.length);
  const first = documents.next().value as YamlDocument.Parsed;
  const second = documents.next();
  if (deepest > MAX_DEPTH) return undefined;
  if (second.done !== true) {
    const said = SYNTAX_WORDS['MULTIPLE_DOCS']!;
    const { range } = second.value;
    first.errors.push(new YAMLParseError([range[0], range[2]], 'MULTIPLE_DOCS', said));
  }
  return first;
}

const MAX_SOURCE = 60;

function shortened(text: string): string {
  const line = text.replace(/\s+/g, ' ').trim();
  return line.length > MAX_SOURCE ? `${line.slice(0, MAX_SOURCE - 3)}...` : line;
}

function byteLength(text: string): number {
  // A text longer than the limit in letters is too long in bytes, whatever the letters.
  return text.length > MAX_FILE_BYTES ? text.length : new TextEncoder().encode(text).length;
}

function unreadable(
  said: { code: ProblemCode; message: string } & Partial<Problem>,
): SourceDocument {
  const problem: Problem = { severity: 'error', path: [], line: 1, column: 1, ...said };
  return { value: undefined, problems: [problem], ...NOWHERE };
}

const NOWHERE = { locate: () => undefined, source: () => undefined, keys: () => [] };

/** The first thing the parser says, where it can be read no further: the rest follow from it. */
function syntaxProblems(
  parsed: YamlDocument.Parsed,
  text: string,
  place: (offset: number) => Place,
): Problem[] {
  return parsed.errors.slice(0, 1).map((error) => {
    const line = lineAt(text, error.pos[0]);
    return {
      code: 'syntax',
      severity: 'error',
      message: SYNTAX_WORDS[error.code] ?? lowerFirst(error.message),
      path: [],
      ...place(error.pos[0]),
      read: shortened(line),
      ...(error.code === 'BLOCK_AS_IMPLICIT_KEY' ? unquoted(line) : {}),
    };
  });
}

/** `title: Swap: V8 in`: the commonest slip. The second colon would make the text a map of its own. */
function unquoted(line: string): { message: string; expected: string } | undefined {
  const [, key, text] =
    /^(?:\s*- )?\s*([^:'"{[]+):\s+([^'"{[|>&*\s].*:(?:\s.*|))$/.exec(line) ?? [];
  if (key === undefined || text === undefined) return undefined;
  return {
    message: "text that holds ': ' must be in quotes",
    expected: shortened(`${key.trim()}: '${text.trim().replaceAll("'", "''")}'`),
  };
}

const SYNTAX_WORDS: Readonly<Record<string, string>> = {
  MULTIPLE_DOCS: 'the file holds several documents; one file is one scenario',
  TAB_AS_INDENT: 'lines are indented with spaces, not tabs',
  NON_STRING_KEY: 'a name must be plain words',
  RESOURCE_EXHAUSTION: 'the file is nested too deeply to read',
  BLOCK_AS_IMPLICIT_KEY: 'this line is indented further than the one it belongs with',
};

function lowerFirst(message: string): string {
  return message.charAt(0).toLowerCase() + message.slice(1);
}

function lineAt(text: string, offset: number): string {
  const from = text.lastIndexOf('\n', Math.max(0, offset - 1)) + 1;
  const to = text.indexOf('\n', offset);
  return text.slice(from, to < 0 ? text.length : Math.max(from, to));
}

/** The child of a node under one key, aliases followed. */
function child(parsed: YamlDocument.Parsed, node: unknown, key: string | number) {
  const at = isAlias(node) ? node.resolve(parsed) : node;
  if (isSeq(at)) return { value: at.items[Number(key)], key: undefined };
  if (!isMap(at)) return undefined;
  // The first of two equal keys is the one that was converted.
  const pair = at.items.filter(isPair).find((item) => keyOf(item.key) === String(key));
  return pair && { value: pair.value, key: pair.key };
}

function nodeAt(parsed: YamlDocument.Parsed, path: Path): Node | undefined {
  let node: unknown = parsed.contents;
  for (const key of path) node = child(parsed, node, key)?.value;
  return isNode(node) ? node : undefined;
}

function offsetOf(
  parsed: YamlDocument.Parsed,
  path: Path,
  what: 'key' | 'value',
): number | undefined {
  let node: unknown = parsed.contents;
  let offset = isNode(node) ? node.range?.[0] : undefined;
  for (const [index, key] of path.entries()) {
    const found = child(parsed, node, key);
    if (found === undefined) return offset;
    const ofKey = isNode(found.key) ? found.key.range?.[0] : undefined;
    const ofValue = isNode(found.value) ? found.value.range?.[0] : undefined;
    const wanted = index < path.length - 1 || what === 'key' ? ofKey : ofValue;
    offset = wanted ?? ofKey ?? ofValue ?? offset;
    node = found.value;
  }
  return offset;
}

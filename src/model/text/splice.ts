/** Where to cut a scenario's text open to put a case in, and what to put there. */

import { isMap, isScalar, isSeq } from 'yaml';
import type { Pair, YAMLMap } from 'yaml';
import { isNode, keyOf } from '../reading/values.js';

/** The letters from `from` to before `to` give way to `put`. */
export interface Edit {
  readonly from: number;
  readonly to: number;
  readonly put: string;
}

export interface NewCase {
  readonly name: string;
  readonly wants: string;
}

/** Spaces a level where the file shows none. */
const STEP = 2;

/**
 * Ways to put a case into a text, the best first: not every one says what it should in every file, so each
 * is to be read again. None where the top of the file, or its `cases`, is no map.
 */
export function splices(text: string, root: unknown, added: NewCase): readonly (readonly Edit[])[] {
  if (!isMap(root)) return [];
  const pair = pairOf(root, 'cases');
  if (pair !== undefined && !isEmpty(pair.value) && !isMap(pair.value)) return [];
  const writer = new Writer(text, root, added);
  if (pair === undefined) {
    return isFlow(root)
      ? [writer.sectionInFlow(root)]
      : [writer.section(root, true), writer.section(root, false)];
  }
  const { value: cases } = pair;
  if (!isMap(cases)) return [isFlow(root) ? writer.firstInFlow(pair) : writer.first(root, pair)];
  const old = pairOf(cases, added.name);
  if (isFlow(cases))
    return [old ? writer.insteadInFlow(old) : writer.inFlow(cases, writer.entry(true))];
  return [old ? writer.instead(old) : writer.last(cases)];
}

class Writer {
  private readonly newline: string;
  /** Whether the whole file is as JSON has it. */
  private readonly json: boolean;

  constructor(
    private readonly text: string,
    root: YAMLMap,
    private readonly added: NewCase,
  ) {
    this.newline = text.includes('\r\n') ? '\r\n' : '\n';
    this.json = isFlow(root);
  }

  entry(flow = false): string {
    return `${this.word(this.added.name)}: ${this.wants(flow)}`;
  }

  /** A section of its own at the end of the file, after an empty line or not. */
  section(root: YAMLMap, apart: boolean): Edit[] {
    const { text, newline } = this;
    const end = this.lineEnd(endOf(root));
    const mark = /^\.\.\.(?:\s|$)/m.exec(text.slice(end));
    const at = mark ? end + mark.index : text.length;
    const indent = this.indentOf(root);
    const before = `${this.endsLine(at) ? '' : newline}${apart ? newline : ''}`;
    const inner = indent + this.step(root);
    const lines = [`${indent}cases:`, `${inner}${this.entry()}`];
    return [put(at, `${before}${lines.join(newline)}${newline}`)];
  }

  /** The first case under `cases:` with nothing in it. */
  first(root: YAMLMap, pair: Pair): Edit[] {
    const colon = this.afterColon(pair);
    const value = isNode(pair.value) ? pair.value.range : undefined;
    const empty = value && value[1] > value[0] ? [{ from: colon, to: value[1], put: '' }] : [];
    const at = this.lineEnd(Math.max(colon, value?.[1] ?? colon));
    return [...empty, this.line(at, this.indentOf(root) + this.step(root))];
  }

  /** Under the last case. */
  last(cases: YAMLMap): Edit[] {
    return [this.line(this.lineEnd(endOf(cases)), this.indentOf(cases))];
  }

  /** In the place of the case of that name; a comment beside its name stays. */
  instead(old: Pair): Edit[] {
    const colon = this.afterColon(old);
    const put = ` ${this.wants(false)}`;
    const { value } = old;
    if (!isNode(value) || !value.range) return [{ from: colon, to: colon, put }];
    const end = endOf(value);
    const ownLine = this.text.indexOf('\n', colon);
    if (isMap(value) && !isFlow(value) && ownLine >= 0 && ownLine < value.range[0]) {
      return [
        { from: colon, to: colon, put },
        { from: ownLine + 1, to: this.lineEnd(end), put: '' },
      ];
    }
    const taken = this.text.slice(colon, end).replace(/\s+$/, '');
    return [{ from: colon, to: colon + taken.length, put }];
  }

  insteadInFlow(old: Pair): Edit[] {
    const { value } = old;
    const wants = this.wants(true);
    if (isNode(value) && value.range && value.range[1] > value.range[0]) {
      return [{ from: value.range[0], to: value.range[1], put: wants }];
    }
    const key = endOf(old.key);
    const colon = /^\s*:/.exec(this.text.slice(key));
    return [put(key + (colon?.[0].length ?? 0), colon ? ` ${wants}` : `: ${wants}`)];
  }

  firstInFlow({ key, value }: Pair): Edit[] {
    const cases = `{ ${this.entry(true)} }`;
    if (isNode(value) && value.range && value.range[1] > value.range[0]) {
      return [{ from: value.range[0], to: value.range[1], put: cases }];
    }
    return [put(endOf(key), `: ${cases}`)];
  }

  /** A section of its own before the end of a map in braces, over lines where the others are. */
  sectionInFlow(root: YAMLMap): Edit[] {
    const lead = this.leadOf(root);
    const key = this.word('cases');
    if (lead === undefined) return this.inFlow(root, `${key}: { ${this.entry(true)} }`);
    const { newline } = this;
    return this.inFlow(
      root,
      `${key}: {${newline}${lead}${lead}${this.entry(true)}${newline}${lead}}`,
    );
  }

  /** One more entry before the end of a map in braces. */
  inFlow(map: YAMLMap, entry: string): Edit[] {
    const last = map.items.at(-1);
    if (last === undefined) {
      const [from, to] = map.range!;
      const bare = to - from === 2;
      return [put(from + 1, bare ? ` ${entry} ` : ` ${entry}`)];
    }
    const end = Math.max(endOf(last.key), isNode(last.value) ? endOf(last.value) : 0);
    const lead = this.leadOf(map);
    const gap = lead === undefined ? ' ' : this.newline + lead;
    const comma = /^\s*,/.exec(this.text.slice(end));
    if (comma) return [put(end + comma[0].length, `${gap}${entry},`)];
    return [put(end, `,${gap}${entry}`)];
  }

  private line(at: number, indent: string): Edit {
    const before = this.endsLine(at) ? '' : this.newline;
    return put(at, `${before}${indent}${this.entry()}${this.newline}`);
  }

  private word(text: string): string {
    if (this.json) return JSON.stringify(text);
    const plain = /^[A-Za-z](?:[\w -]*\w)?$/.test(text) && !/^(?:true|false|null)$/i.test(text);
    return plain ? text : `'${text.replaceAll("'", "''")}'`;
  }

  private wants(flow: boolean): string {
    const { wants } = this.added;
    return this.json && flow ? JSON.stringify(wants) : `'${wants.replaceAll("'", "''")}'`;
  }

  private afterColon({ key }: Pair): number {
    return this.text.indexOf(':', endOf(key)) + 1;
  }

  /** Where the line after this place begins; the place itself where a line begins there. */
  private lineEnd(at: number): number {
    if (this.endsLine(at)) return at;
    const end = this.text.indexOf('\n', at);
    return end < 0 ? this.text.length : end + 1;
  }

  private endsLine(at: number): boolean {
    return at === 0 || this.text[at - 1] === '\n';
  }

  private indentOf(map: YAMLMap): string {
    return this.leadOf(map) ?? '';
  }

  /** The white space before the last key of a map, where nothing else is on its line before it. */
  private leadOf(map: YAMLMap): string | undefined {
    const key = map.items.at(-1)?.key;
    if (!isNode(key) || !key.range) return undefined;
    const line = this.text.slice(this.text.lastIndexOf('\n', key.range[0] - 1) + 1, key.range[0]);
    return /^\ufeff?[ \t]*$/.test(line) ? line.replace('\ufeff', '') : undefined;
  }

  /** How much further the file indents what is under a section. */
  private step(root: YAMLMap): string {
    const section = root.items.find(
      ({ value }) => isMap(value) && !isFlow(value) && value.items[0],
    );
    const inner = section && isMap(section.value) ? this.leadOf(section.value) : undefined;
    const step = (inner?.length ?? 0) - this.indentOf(root).length;
    return ' '.repeat(step > 0 ? step : STEP);
  }
}

function put(at: number, text: string): Edit {
  return { from: at, to: at, put: text };
}

function pairOf(map: YAMLMap, name: string): Pair | undefined {
  return map.items.find(({ key }) => keyOf(key) === name);
}

function isFlow(map: YAMLMap): boolean {
  return map.flow === true;
}

function isEmpty(value: unknown): boolean {
  return value === null || (isScalar(value) && value.value === null);
}

/** Where a node's own letters end, without the comments and empty lines after it. */
function endOf(node: unknown): number {
  if (!isNode(node)) return 0;
  if (isMap(node) && !isFlow(node)) {
    const last = node.items.at(-1);
    if (last) return Math.max(endOf(last.key), endOf(last.value));
  }
  if (isSeq(node) && node.flow !== true && node.items.length > 0) return endOf(node.items.at(-1));
  return node.range?.[1] ?? 0;
}

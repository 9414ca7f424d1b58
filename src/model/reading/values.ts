/** From the nodes of a parsed file to plain values, with a guard against aliases without end. */

import { isAlias, isMap, isScalar, isSeq } from 'yaml';
import type { Alias, Node, Pair, Scalar, YAMLMap, YAMLSeq } from 'yaml';
import type { Problem, ProblemCode } from '../text/problem.js';
import type { Path } from '../scenario.js';

/** Values in a file once every alias is followed. */
const MAX_VALUES = 300_000;
/** Lists within lists, and the notation's own layers between them; the format needs about 20. */
export const MAX_DEPTH = 80;

/** One-based. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

/** Turns nodes into values; the parser's own conversion would follow an alias into itself. */
export class Converter {
  readonly problems: Problem[] = [];
  stopped = false;
  private values = 0;
  private readonly open = new Set<Node>();
  private readonly anchors = new Map<string, Node>();
  /** How many aliases deep; only at 0 does an anchor stand at its own place. */
  private following = 0;
  private followed = false;

  constructor(private readonly place: (offset: number) => Place) {}

  convert(node: unknown, path: Path): unknown {
    if (this.stopped || !isNode(node)) return node ?? null;
    if (++this.values > MAX_VALUES) {
      const code = this.followed ? 'alias' : 'too large';
      return this.stop(code, 'the file unfolds to far more values than a scenario has', node);
    }
    if (path.length > MAX_DEPTH) return this.stop('syntax', 'the file is nested too deeply', node);
    if (isAlias(node)) return this.follow(node, path);
    if (node.anchor !== undefined && this.following === 0) this.anchors.set(node.anchor, node);
    if (hasForeignTag(node)) {
      this.say('syntax', `tags are not read: ${String(node.tag)}`, node, path);
    }
    if (isScalar(node)) return typeof node.value === 'bigint' ? Number(node.value) : node.value;
    this.open.add(node);
    const value = isSeq(node)
      ? node.items.map((item, index) => this.convert(item, [...path, index]))
      : this.map(isMap(node) ? node.items : [], path);
    this.open.delete(node);
    return value;
  }

  private follow(node: Alias, path: Path): unknown {
    const target = this.anchors.get(node.source);
    if (target === undefined) {
      this.say('alias', 'this alias has no anchor above it', node, path);
      return null;
    }
    if (this.open.has(target)) return this.stop('alias', 'this alias holds itself', node);
    this.followed = true;
    this.following++;
    const value = this.convert(target, path);
    this.following--;
    return value;
  }

  private map(items: readonly Pair[], path: Path): Record<string, unknown> {
    const entries: Record<string, unknown> = {};
    for (const { key, value } of items) {
      const name = keyOf(key);
      if (name === '<<') {
        this.say('syntax', 'merge keys are not read; write the values out', key, path);
      } else if (name === '__proto__') {
        this.say('unknown key', `'${name}' cannot be a name`, key, path);
      } else if (Object.hasOwn(entries, name)) {
        this.say('duplicate', `'${name}' is given twice here`, key, [...path, name]);
      } else {
        entries[name] = this.convert(value, [...path, name]);
      }
    }
    return entries;
  }

  private stop(code: ProblemCode, message: string, node: Node): undefined {
    this.stopped = true;
    this.say(code, message, node, []);
    return undefined;
  }

  private say(code: ProblemCode, message: string, node: unknown, path: Path): void {
    const at = isNode(node) && node.range ? this.place(node.range[0]) : {};
    this.problems.push({ code, severity: 'error', message, path, ...at });
  }
}

const OWN_TAG = /^tag:yaml\.org,2002:(str|int|float|bool|null|map|seq)$/;

function hasForeignTag(node: Node): boolean {
  return node.tag !== undefined && !OWN_TAG.test(node.tag);
}

export function isNode(value: unknown): value is Scalar | YAMLMap | YAMLSeq | Alias {
  return isScalar(value) || isMap(value) || isSeq(value) || isAlias(value);
}

export function keyOf(key: unknown): string {
  const name: unknown = isScalar(key) ? key.value : undefined;
  return typeof name === 'string' ? name : '';
}

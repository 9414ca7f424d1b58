/** A file spoilt in one to three places. */

import { stringify } from 'yaml';
import type { Random } from '../../tests/geometry/random.js';
import { below, oneOf } from './pick.js';
import { TEXT_CHANGES } from './text.js';
import { spoiltTree, TREE_CHANGES } from './tree.js';

export interface SpoiltFile {
  readonly text: string;
  readonly format: 'yaml' | 'json' | 'auto';
  /** The changes by name. */
  readonly how: readonly string[];
  /** What it says, where that is known. */
  readonly tree?: unknown;
  /** A key that the format does not have. */
  readonly foreign?: readonly (string | number)[];
}

const TEXT = Object.entries(TEXT_CHANGES);
const TREE = Object.entries(TREE_CHANGES);

export function spoilt(file: { text: string; tree: unknown }, random: Random): SpoiltFile {
  const count = random() < 0.75 ? 1 : 2 + below(random, 2);
  if (random() < 0.5) {
    let { text } = file;
    const how: string[] = [];
    for (let n = 0; n < count; n++) {
      const [name, change] = oneOf(random, TEXT);
      how.push(name);
      if (text.length > 0) text = change(text, random);
    }
    return { text, format: random() < 0.9 ? 'yaml' : 'auto', how };
  }
  let { tree } = file;
  let foreign: SpoiltFile['foreign'];
  const how: string[] = [];
  for (let n = 0; n < count; n++) {
    const [name, change] = oneOf(random, TREE);
    how.push(name);
    const done = spoiltTree(tree, change, random);
    tree = done.tree;
    // A later change may take the foreign key away again.
    foreign = count === 1 ? done.foreign : undefined;
  }
  const said = { tree, how, ...(foreign && { foreign }) };
  if (random() < 0.5) return { text: stringify(tree), format: 'yaml', ...said };
  // JSON has no word for some numbers, and says null instead.
  const text = JSON.stringify(tree, null, random() < 0.5 ? 1 : 0) ?? 'null';
  return {
    ...said,
    text,
    format: random() < 0.5 ? 'json' : 'auto',
    tree: JSON.parse(text) as unknown,
  };
}

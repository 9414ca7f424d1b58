/** What no output may hold, whatever the names in a file are. */

import { expect } from 'vitest';

/** What a terminal acts on, what turns or hides text, and half letters; only a new line may stand. */
const RAW = /(?!\n)[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/u;

/** Expects text for a person or a program to show itself as it is. */
export function expectPlainText(text: string, what: string): void {
  const found = RAW.exec(text);
  const near = found && JSON.stringify(text.slice(Math.max(0, found.index - 40), found.index + 40));
  expect(near, what).toBe(null);
}

/** Expects markup that has elements and attributes of ours alone, each quoted and closed. */
export function expectOwnMarkup(text: string, elements: ReadonlySet<string>, what: string): void {
  expectPlainText(text, what);
  const tag = /<(?:!doctype html|\/?([a-z][\w-]*)((?: [\w:-]+="[^"<>]*")*) ?\/?)>/gi;
  const styles = text.replace(/<style>[^<]*<\/style>/g, '<style></style>');
  for (const [, name, attributes] of styles.matchAll(tag)) {
    if (name === undefined) continue;
    expect(elements, what).toContain(name);
    expect(attributes, what).not.toMatch(/ (?:on\w+|style|href|src|xlink:href)="(?!data:,)/i);
  }
  // No angle is left once the tags are gone.
  expect(styles.replace(tag, ''), what).not.toMatch(/[<>]/);
  expect(styles, what).not.toMatch(/&(?!amp;|lt;|gt;|quot;|#39;)/);
}

/** Expects nothing to have been put where every object would find it. */
export function expectCleanPrototypes(): void {
  for (const one of [Object, Array, Function, String, Map]) {
    expect(Object.keys(one.prototype), one.name).toEqual([]);
  }
  expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
}

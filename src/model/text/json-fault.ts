/** Where a text stops being JSON (RFC 8259), since the words of a parser differ from one to the next. */

export interface JsonFault {
  /** Of the first letter that cannot stand there; the end of the text where it ends too early. */
  readonly offset: number;
  readonly message: string;
  readonly expected?: string;
}

const TOKEN =
  /"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[\da-fA-F]{4}))*"|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?(?![\w.])|(?:true|false|null)(?!\w)|[{}[\],:]/y;
const SPACE = /[ \t\r\n]*/y;

/** What may come next: a value, a value or the end of a list, a name, what follows either, the end. */
type State = 'value' | 'first item' | 'name' | 'first name' | 'colon' | 'after' | 'end';

const EXPECTED: Readonly<Record<State, string>> = {
  value: 'a value',
  'first item': "a value, or ']'",
  name: 'a name in double quotes',
  'first name': "a name in double quotes, or '}'",
  colon: "':' after the name",
  after: "',' or the closing bracket",
  end: 'nothing more',
};

/** The first fault; undefined where the text is JSON. */
export function jsonFault(text: string): JsonFault | undefined {
  const open: string[] = [];
  let state: State = 'value';
  let at = matchAt(SPACE, text, 0).length;
  while (at < text.length) {
    const token = matchAt(TOKEN, text, at);
    const next: State | undefined = token === '' ? undefined : step(state, token, open);
    if (next === undefined) return faultAt(text, at, state);
    state = next;
    at += token.length;
    at += matchAt(SPACE, text, at).length;
  }
  if (state === 'end') return undefined;
  return { offset: text.length, message: 'it ends too early', expected: EXPECTED[state] };
}

/** The state after a token, brackets kept in `open`; undefined where the token cannot stand. */
function step(state: State, token: string, open: string[]): State | undefined {
  const isName = state === 'name' || state === 'first name';
  const isValue = state === 'value' || state === 'first item';
  if (token === '}' || token === ']') {
    const isEmpty = state === (token === '}' ? 'first name' : 'first item');
    if (!isEmpty && state !== 'after') return undefined;
    if (open.pop() !== (token === '}' ? '{' : '[')) return undefined;
    return open.length === 0 ? 'end' : 'after';
  }
  if (token === ',') {
    if (state !== 'after') return undefined;
    return open.at(-1) === '{' ? 'name' : 'value';
  }
  if (token === ':') return state === 'colon' ? 'value' : undefined;
  if (isName) return token.startsWith('"') ? 'colon' : undefined;
  if (!isValue) return undefined;
  if (token === '{' || token === '[') {
    open.push(token);
    return token === '{' ? 'first name' : 'first item';
  }
  return open.length === 0 ? 'end' : 'after';
}

function faultAt(text: string, offset: number, state: State): JsonFault {
  const message = /^(?:\/[/*]|#)/.test(text.slice(offset, offset + 2))
    ? 'JSON has no comments'
    : text[offset] === '"' && state !== 'after' && state !== 'end'
      ? 'this text has no end, or a letter that must be escaped'
      : `'${text.slice(offset, offset + 1)}' cannot stand here`;
  return { offset, message, expected: EXPECTED[state] };
}

function matchAt(pattern: RegExp, text: string, at: number): string {
  pattern.lastIndex = at;
  return pattern.exec(text)?.[0] ?? '';
}

/** The page of `berth explore`, as it was built, with a scenario put in. */

import { readFile } from 'node:fs/promises';

/** Beside the bundled command; where the source itself runs, where the build puts it. */
const BUILT = new URL(
  import.meta.url.endsWith('.ts') ? '../../../dist/page.html' : './page.html',
  import.meta.url,
);

/** What the page begins with. */
export interface Start {
  /** What the file is called, for the reader. */
  readonly name: string;
  readonly text: string;
  /** Whether a server stands behind the page, to say when the file changes and to save. */
  readonly live: boolean;
}

export interface Page {
  readonly html: string;
  /** The content security policy, as in the page itself. */
  readonly policy: string;
}

const NO_NETWORK = "connect-src 'none'";
const OWN_SERVER = "connect-src 'self'";
const POLICY = /(<meta http-equiv="Content-Security-Policy" content=")([^"]+)(">)/;
const START = /(<script type="application\/json" id="berth-start">)null(<\/script>)/;

/** A mark by which a page of ours is known. */
export const MARK = '<script type="application/json" id="berth-start">';

/** The page as it was built, before anything is put in. */
export function builtPage(): Promise<string> {
  return readFile(BUILT, 'utf8');
}

/** Puts a scenario into the page as data that no script element ends or runs. */
export function pageWith(built: string, start: Start): Page {
  const policy = POLICY.exec(built)?.[2];
  if (policy === undefined || !START.test(built)) throw new Error('the page was not built whole');
  const allowed = start.live ? policy.replace(NO_NETWORK, OWN_SERVER) : policy;
  // Replaced by functions: what a scenario holds must not be read as a pattern of a replacement.
  const html = built
    .replace(POLICY, (_all, before: string, _old, after: string) => before + allowed + after)
    .replace(START, (_all, before: string, after: string) => before + inert(start) + after);
  return { html, policy: allowed };
}

/** JSON that means nothing to a reader of HTML, nor to one that ends lines at U+2028. */
function inert(start: Start): string {
  return JSON.stringify(start).replace(
    /[<>&\u2028\u2029]/g,
    (letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}

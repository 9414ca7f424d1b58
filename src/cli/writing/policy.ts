/** What a page that we write may do in a browser. */

import { createHash } from 'node:crypto';

/**
 * The content security policy of a page to print: its one style, known by its hash, and nothing else: no
 * script, no request, no frame, no form.
 * @param style the style element's text, as it stands in the page.
 */
export function printedPolicy(style: string): string {
  const hash = createHash('sha256').update(style, 'utf8').digest('base64');
  return `default-src 'none'; style-src 'sha256-${hash}'; base-uri 'none'; form-action 'none'`;
}

/**
 * Builds the page of `berth explore` as one text: markup, style and script inlined, and a content
 * security policy that allows those by their hashes and nothing else. `src/cli/explore/page.ts` puts the
 * scenario in, and lets the served page reach its own server.
 */
import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { build } from 'esbuild';

const SOURCE = 'src/page';

/** What would end a script element early, or begin one within it. */
const ENDS_SCRIPT = /<\/script|<script|<!--/i;
const ENDS_STYLE = /<\/style/i;

/**
 * One script for the page and for its worker, for both read scenarios and solve: two would hold most of it
 * twice. Where there is no document it is the worker.
 */
const ENTRY = `if (typeof document === 'undefined') import('./worker.js'); else import('./main.js');`;

/** What every script of the page is built with. */
const COMMON = {
  bundle: true,
  platform: 'browser',
  target: 'es2022',
  charset: 'ascii',
  legalComments: 'none', // the notices file carries the licences whole
  write: false,
  logLevel: 'warning',
};

/** The page, and what the bundler knows of the packages in it. */
export async function buildPage(root) {
  // In two steps: what is chosen at run time is kept whole, so first leave out all that nothing uses.
  const { outputFiles, metafile } = await build({
    ...COMMON,
    absWorkingDir: root,
    entryPoints: { main: `${SOURCE}/main.ts`, worker: `${SOURCE}/worker.ts` },
    // Before anything else: zod tries whether it may compile code, which the policy would report.
    inject: ['tools/no-compiling.mjs'],
    plugins: [oneLanguage],
    outdir: 'page',
    splitting: true,
    format: 'esm',
    metafile: true,
  });
  const pieces = new Map(outputFiles.map(({ path, text }) => [basename(path), text]));
  const { outputFiles: joined } = await build({
    ...COMMON,
    stdin: { contents: ENTRY },
    plugins: [fromMemory(pieces)],
    minify: true,
    format: 'iife',
  });
  const css = await build({
    absWorkingDir: root,
    entryPoints: [`${SOURCE}/page.css`],
    bundle: true,
    minify: true,
    charset: 'utf8',
    write: false,
    logLevel: 'warning',
  });
  const style = css.outputFiles[0].text.trim();
  if (ENDS_STYLE.test(style)) throw new Error('the style would end its own element');
  const markup = await readFile(join(root, SOURCE, 'page.html'), 'utf8');
  return { text: put(markup, style, inert(joined[0].text)), metafile };
}

/** Leaves out the messages of zod in forty languages: English is loaded by itself, and ours replace it. */
const oneLanguage = {
  name: 'one-language',
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /\/locales\/index\.js$/ }, () => ({ path: 'none', namespace: 'none' }));
    onLoad({ filter: /.*/, namespace: 'none' }, () => ({ contents: 'export {};' }));
  },
};

/** Finds the pieces of the first step by name. */
function fromMemory(pieces) {
  return {
    name: 'from-memory',
    setup({ onResolve, onLoad }) {
      onResolve({ filter: /^\.\// }, ({ path }) => ({ path: basename(path), namespace: 'memory' }));
      onLoad({ filter: /.*/, namespace: 'memory' }, ({ path }) => ({ contents: pieces.get(path) }));
    },
  };
}

/** A script that may stand in a script element: the same program, its angles written otherwise. */
function inert(script) {
  // Inside a string, a template or a pattern these mean the same, and outside one they cannot stand.
  const text = script
    .trim()
    .replace(/<(?=\/script)/gi, '\\x3C')
    .replace(/<(?=script)/gi, '\\x3C')
    .replace(/<(?=!--)/g, '\\x3C');
  if (ENDS_SCRIPT.test(text)) throw new Error('a script would end its own element');
  return text;
}

function put(markup, style, script) {
  const policy = [
    "default-src 'none'",
    `script-src ${hash(script)}`,
    'worker-src blob:',
    `style-src ${hash(style)}`,
    "connect-src 'none'",
    'img-src data:',
    "base-uri 'none'",
    "form-action 'none'",
    // No text becomes markup or code; `src/page/bench.ts` alone names an address to run, its worker's.
    "require-trusted-types-for 'script'",
    'trusted-types berth-worker',
  ].join('; ');
  const head = [
    `<meta http-equiv="Content-Security-Policy" content="${policy}">`,
    // Otherwise a browser asks the server for one.
    '<link rel="icon" href="data:,">',
    `<style>${style}</style>`,
  ].join('\n');
  const body = [
    '<script type="application/json" id="berth-start">null</script>',
    // The page starts its worker from this element's own text.
    `<script id="berth-worker">${script}</script>`,
  ].join('\n');
  const [, before, inHead, between, inBody, after] =
    /^(.*<head>)(.*)(<\/head>.*)(<\/body>)(.*)$/s.exec(markup) ?? [];
  if (inBody === undefined) throw new Error('page.html needs a head and a body');
  // The encoding must stand in the first kilobyte, and the policy before whatever it is to hold.
  return [
    `${before}\n<meta charset="utf-8">\n${head}${inHead.replace(/\s*<meta charset[^>]*>/i, '')}`,
    `${between}${body}\n${inBody}${after}`,
  ].join('');
}

function hash(text) {
  return `'sha256-${createHash('sha256').update(text, 'utf8').digest('base64')}'`;
}

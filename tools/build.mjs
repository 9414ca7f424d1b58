/**
 * Builds dist/: the command and its lazily loaded pieces, with their dependencies bundled in, and the
 * page of `berth explore`.
 *
 * Dependencies are bundled because loading mathjs as it is published opens hundreds of files;
 * split in pieces because `berth --help` should load the option parser and nothing else.
 * Files are put in place by renaming and old ones go last, so that a command started while
 * another one builds still finds a whole program.
 */
import { chmod, mkdir, readFile, readdir, rename, rm, writeFile } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { buildPage } from './page.mjs';

const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), '..');
const DIST = join(ROOT, 'dist');
// Beside dist/ on the same disk, so that renaming is one step; a broken build leaves nothing to pack.
const SCRATCH = join(ROOT, 'node_modules', '.cache', 'berth');
const ENTRY = 'berth.js';
const NOTICES = 'licences.txt';
const PAGE = 'page.html';
const SHEBANG = '#!/usr/bin/env node\n';

// CommonJS dependencies ask for Node's own modules by `require`, which an ES module lacks.
const REQUIRE =
  "import { createRequire as berthCreateRequire } from 'node:module';\n" +
  'const require = berthCreateRequire(import.meta.url);';

const result = await build({
  absWorkingDir: ROOT,
  entryPoints: {
    berth: 'src/cli/main.ts',
    // What works while the command itself hears signals.
    thread: 'src/cli/running/thread.ts',
    'case-worker': 'src/cli/running/case-worker.ts',
    // What every thread of the pool starts with, where the pool looks for it.
    'entry/worker': 'node_modules/tinypool/dist/entry/worker.js',
  },
  outdir: 'dist',
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  chunkNames: '[name]-[hash]',
  banner: { js: REQUIRE },
  legalComments: 'none', // the notices file carries the licences whole
  metafile: true,
  write: false,
  logLevel: 'warning',
});

const wanted = new Map();
for (const file of result.outputFiles) {
  const name = file.path.slice(DIST.length + 1);
  wanted.set(name, name === ENTRY ? withShebang(file.text) : file.text);
}
const page = await buildPage(ROOT);
wanted.set(PAGE, page.text);
wanted.set(NOTICES, await notices(bundledPackages(result.metafile, page.metafile)));
await put(wanted);

/** The entry as a command: the shebang first, once. */
function withShebang(text) {
  return text.startsWith('#!') ? text : SHEBANG + text;
}

/** Directories of the packages that have code in the bundles, sorted. */
function bundledPackages(...metafiles) {
  const packages = new Set();
  for (const output of metafiles.flatMap(({ outputs }) => Object.values(outputs))) {
    for (const [input, { bytesInOutput }] of Object.entries(output.inputs)) {
      const found = /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(input);
      if (found && bytesInOutput > 0) packages.add(found[1]);
    }
  }
  return [...packages].sort();
}

/** The licence of every bundled package, in full, as most of them require of a copy. */
async function notices(packages) {
  const parts = ['Berth contains code of these packages, under their own licences.\n'];
  for (const directory of packages) {
    const path = join(ROOT, directory);
    const { name, version, license } = JSON.parse(
      await readFile(join(path, 'package.json'), 'utf8'),
    );
    parts.push(`\n${'='.repeat(80)}\n${name} ${version} (${license})\n${'='.repeat(80)}\n`);
    const files = (await readdir(path)).filter((file) => /^(licen[cs]e|notice)/i.test(file));
    for (const file of files.sort()) {
      parts.push(`\n${(await readFile(join(path, file), 'utf8')).trim()}\n`);
    }
    if (files.length === 0) parts.push('\nThe package carries no licence file.\n');
  }
  return parts.join('');
}

/** Makes dist/ hold exactly the wanted files; a file that is already right is left alone. */
async function put(files) {
  await mkdir(DIST, { recursive: true });
  await mkdir(SCRATCH, { recursive: true });
  // Pieces first and the entry last: until then the old entry and its old pieces stand.
  const names = [...files.keys()].sort((a, b) => Number(a === ENTRY) - Number(b === ENTRY));
  for (const name of names) {
    const target = join(DIST, name);
    const text = files.get(name);
    if (text === (await readFile(target, 'utf8').catch(() => undefined))) continue;
    const temporary = join(SCRATCH, `${process.pid}-${name.replaceAll('/', '-')}`);
    await mkdir(dirname(target), { recursive: true });
    await writeFile(temporary, text);
    if (name === ENTRY) await chmod(temporary, 0o755);
    await rename(temporary, target);
  }
  for (const name of await readdir(DIST, { recursive: true })) {
    const isFolder = [...files.keys()].some((file) => file.startsWith(`${name}/`));
    if (!files.has(name) && !isFolder) await rm(join(DIST, name), { force: true, recursive: true });
  }
}

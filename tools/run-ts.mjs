/**
 * Runs a TypeScript script: `node tools/run-ts.mjs bench/run.ts [arguments]`.
 *
 * The script and what it imports from this repository are bundled into one file and imported;
 * packages stay as they are installed. It runs with the repository's root as the working
 * directory, and should find its files from there: `import.meta.url` is the bundle's.
 */
import { mkdir } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), '..');
const script = process.argv[2];
if (script === undefined) {
  console.error('usage: node tools/run-ts.mjs SCRIPT.ts [arguments]');
  process.exit(2);
}

process.chdir(ROOT);
// Inside node_modules, so that the bundle's own imports of packages resolve.
const cache = join(ROOT, 'node_modules', '.cache', 'berth');
const outfile = join(cache, `${script.replaceAll(/[^a-z0-9]+/gi, '-')}.mjs`);
await mkdir(cache, { recursive: true });
await build({
  absWorkingDir: ROOT,
  entryPoints: [script],
  outfile,
  bundle: true,
  packages: 'external',
  format: 'esm',
  platform: 'node',
  target: 'node20',
  sourcemap: 'inline',
  logLevel: 'warning',
});

process.setSourceMapsEnabled(true);
process.argv.splice(1, 2, outfile); // as if the script had been started by itself
await import(pathToFileURL(outfile).href);

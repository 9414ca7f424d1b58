/** What the package holds when someone installs it. */
import { spawnSync } from 'node:child_process';
import {
  cpSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const ROOT = resolve(import.meta.dirname, '..');
const COMMAND = 'dist/berth.js';
const BUNDLED_FROM = /^\s*\/\/ node_modules\/((?:@[^/\s]+\/)?[^/\s]+)\//gm;

interface PackageJson {
  version: string;
  bin: Record<string, string>;
  dependencies: Record<string, string>;
  devDependencies: Record<string, string>;
}

const manifest = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as PackageJson;

/** Paths that `npm pack` would put in the package; nothing is built or written. */
function packedFiles(): string[] {
  const { status, stdout, stderr } = spawnSync(
    'npm',
    ['pack', '--dry-run', '--json', '--ignore-scripts'],
    { cwd: ROOT, encoding: 'utf8' },
  );
  if (status !== 0) throw new Error(`npm pack failed: ${stderr}`);
  const [packed] = JSON.parse(stdout) as Array<{ files: Array<{ path: string }> }>;
  return packed!.files.map((file) => file.path).sort();
}

/** Files of a directory of the repository, as paths from its root. */
function filesOf(directory: string): string[] {
  return readdirSync(join(ROOT, directory), { recursive: true, encoding: 'utf8' })
    .filter((name) => statSync(join(ROOT, directory, name)).isFile())
    .map((name) => `${directory}/${name}`);
}

/** Files of dist/ that starting the command loads: the entry, both threads' ways in, and what they import statically. */
function loadedAtStart(): string[] {
  const entry = readFileSync(join(ROOT, 'dist/berth.js'), 'utf8');
  const ways = [...entry.matchAll(/import\("\.\/([\w-]+\.js)"\)/g)].map((match) => match[1]!);
  expect(ways).toHaveLength(2);
  const seen = new Set(['berth.js', 'thread.js', ...ways]);
  for (const name of seen) {
    const text = readFileSync(join(ROOT, 'dist', name), 'utf8');
    for (const match of text.matchAll(/(?:\bfrom|^import) "\.\/([\w-]+\.js)";/gm)) {
      seen.add(match[1]!);
    }
  }
  return [...seen];
}

describe('the package', () => {
  it('holds the built command, the scenarios and the papers, and nothing else', () => {
    const built = filesOf('dist');
    const scenarios = filesOf('scenarios');
    expect(built).toContain(COMMAND);
    expect(built).toContain('dist/licences.txt');
    expect(built).toContain('dist/case-worker.js');
    expect(built).toContain('dist/thread.js');
    expect(built).toContain('dist/page.html');
    expect(built).toContain('dist/entry/worker.js');
    expect(scenarios).toContain('scenarios/orchard-hauler.yaml');
    expect(
      built.filter(
        (path) => !/^dist\/([\w-]+\.js|entry\/worker\.js|licences\.txt|page\.html)$/.test(path),
      ),
    ).toEqual([]);
    expect(scenarios.filter((path) => !/\.(yaml|json)$/.test(path))).toEqual([]);
    expect(packedFiles()).toEqual(
      ['CHANGELOG.md', 'LICENSE', 'README.md', 'package.json', ...built, ...scenarios].sort(),
    );
  });

  it('installs the command as a file that can be run', () => {
    expect(manifest.bin).toEqual({ berth: COMMAND });
    const command = join(ROOT, COMMAND);
    expect(readFileSync(command, 'utf8').split('\n', 1)).toEqual(['#!/usr/bin/env node']);
    expect(statSync(command).mode & 0o111).toBe(0o111);
  });

  it('carries the licence of every package that is bundled in', () => {
    const notices = readFileSync(join(ROOT, 'dist/licences.txt'), 'utf8');
    // Of the command, and of the page alone.
    expect(notices).toContain(`three ${manifest.dependencies['three']} (MIT)`);
    expect(notices).toContain(`commander ${manifest.dependencies['commander']} (MIT)`);
    expect(notices).not.toContain('carries no licence file');
  });

  it('runs alone, with no package installed beside it', () => {
    const directory = mkdtempSync(join(tmpdir(), 'berth-package-'));
    try {
      cpSync(join(ROOT, 'dist'), join(directory, 'dist'), { recursive: true });
      writeFileSync(join(directory, 'package.json'), '{ "type": "module" }');
      // Threads start with dist/entry/ and dist/thread.js, and those only as threads.
      const pieces = filesOf('dist').filter(
        (path) => /^dist\/[^/]+\.js$/.test(path) && ![COMMAND, 'dist/thread.js'].includes(path),
      );
      expect(pieces.length).toBeGreaterThan(0);
      const loadAll = pieces.map((path) => `await import('./${path}');`).join('\n');
      writeFileSync(join(directory, 'load.js'), `${loadAll}\nconsole.log('loaded');\n`);
      const loaded = spawnSync(process.execPath, ['load.js'], { cwd: directory, encoding: 'utf8' });
      expect(loaded).toMatchObject({ status: 0, stdout: 'loaded\n', stderr: '' });
      const help = spawnSync(process.execPath, [COMMAND, '--help'], {
        cwd: directory,
        encoding: 'utf8',
      });
      expect(help).toMatchObject({ status: 0, stderr: '' });
      expect(help.stdout).toMatch(/\bplace\b/);
      const check = spawnSync(
        process.execPath,
        [COMMAND, 'check', join(ROOT, 'scenarios/orchard-hauler.yaml')],
        {
          cwd: directory,
          encoding: 'utf8',
        },
      );
      expect(check).toMatchObject({ status: 0, stderr: '' });
    } finally {
      rmSync(directory, { recursive: true, force: true });
    }
  });

  it('loads the option parser and no other package before it knows the command', () => {
    const pieces = loadedAtStart();
    // The bundler heads each file's code with a comment that names the file.
    const packages = pieces.flatMap((name) =>
      [...readFileSync(join(ROOT, 'dist', name), 'utf8').matchAll(BUNDLED_FROM)].map(
        (match) => match[1],
      ),
    );
    expect([...new Set(packages)]).toEqual(['commander']);
  });

  it('pins every dependency to one version', () => {
    const all = Object.entries({ ...manifest.dependencies, ...manifest.devDependencies });
    expect(all.length).toBeGreaterThan(0);
    expect(all.filter(([, version]) => !/^\d+\.\d+\.\d+$/.test(version))).toEqual([]);
  });
});

describe('the lockfile', () => {
  const text = readFileSync(join(ROOT, 'package-lock.json'), 'utf8');
  const lock = JSON.parse(text) as { packages: Record<string, Partial<PackageJson>> };

  it('names no registry', () => {
    expect(Object.keys(lock.packages).length).toBeGreaterThan(1);
    expect(text).not.toContain('"resolved"');
    expect(text).not.toMatch(/registry\./);
  });

  it('agrees with package.json', () => {
    const own = lock.packages['']!;
    expect(own.version).toBe(manifest.version);
    expect(own.dependencies).toEqual(manifest.dependencies);
    expect(own.devDependencies).toEqual(manifest.devDependencies);
  });
});

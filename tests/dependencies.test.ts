/** What is depended on: listed with its reason, pinned, and with no scripts that nobody knows of. */

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const read = (name: string) => readFileSync(new URL(`../${name}`, import.meta.url), 'utf8');

interface Locked {
  readonly version: string;
  readonly license: string;
  readonly integrity?: string;
  readonly resolved?: string;
  readonly hasInstallScript?: boolean;
  readonly dev?: boolean;
  readonly devOptional?: boolean;
}

const PACKAGE = JSON.parse(read('package.json')) as {
  readonly dependencies: Record<string, string>;
  readonly devDependencies: Record<string, string>;
};
const { packages } = JSON.parse(read('package-lock.json')) as { packages: Record<string, Locked> };
const LOCKED = Object.entries(packages).filter(([path]) => path !== '');
const NAMES = [...Object.keys(PACKAGE.dependencies), ...Object.keys(PACKAGE.devDependencies)];

describe('the dependencies', () => {
  const [, section] = /^## Dependencies$([^]*?)^## /m.exec(read('DEVELOPERS.md'))!;
  const rows = [...section!.matchAll(/^\| `([^`]+)` +\| (.*?) +\| (.*?) +\|$/gm)];

  it('are those listed with their reasons, the run-time ones first', () => {
    expect(rows.map(([, name]) => name)).toEqual(NAMES);
    for (const [, name, reason] of rows) expect(reason!.length, name).toBeGreaterThan(10);
  });

  it('have the licences that the list says', () => {
    const said = rows.map(([, name, , licence]) => [name, licence]);
    expect(said).toEqual(NAMES.map((name) => [name, packages[`node_modules/${name}`]!.license]));
  });

  it('are pinned, each to what the lockfile has', () => {
    for (const [name, version] of Object.entries({
      ...PACKAGE.dependencies,
      ...PACKAGE.devDependencies,
    })) {
      expect(version, name).toBe(packages[`node_modules/${name}`]!.version);
    }
  });

  it('are locked by a digest, from whichever registry', () => {
    for (const [path, { integrity, resolved }] of LOCKED) {
      expect(integrity, path).toMatch(/^sha512-/);
      expect(resolved, path).toBeUndefined();
    }
  });

  it('run nothing when they are installed, but for the one that is known', () => {
    const scripted = LOCKED.filter(([, { hasInstallScript }]) => hasInstallScript);
    expect(scripted.map(([path]) => path)).toEqual(['node_modules/esbuild']);
  });

  it('bring as many run-time packages as is said', () => {
    const count = LOCKED.filter(([, { dev, devOptional }]) => !dev && !devOptional).length;
    expect(section).toContain(`(${count} packages)`);
  });
});

describe('what is bundled', () => {
  it('is of run-time packages alone, and none is loaded beside', () => {
    const bundled = [...read('dist/licences.txt').matchAll(/^={80}\n(\S+) \S+ \(.*\)\n={80}$/gm)];
    expect(bundled.length).toBeGreaterThan(8);
    for (const [, name] of bundled) {
      const { dev, devOptional } = packages[`node_modules/${name!}`]!;
      expect([dev, devOptional], name).toEqual([undefined, undefined]);
    }
    for (const name of Object.keys(PACKAGE.dependencies)) {
      expect(bundled.map(([, one]) => one)).toContain(name);
    }
  });
});

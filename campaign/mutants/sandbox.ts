/** A copy of the repository in which files may be changed, and its tests run. */

import { execFileSync, spawn } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { performance } from 'node:perf_hooks';

const CONFIG = 'campaign/mutants/vitest.config.ts';

export interface Outcome {
  /** `failed` when a test did, `passed` when all held, `overtime` when they were stopped. */
  readonly ended: 'passed' | 'failed' | 'overtime';
  /** The file of the first test that failed, and the test. */
  readonly by: { readonly file: string; readonly test: string } | undefined;
  readonly seconds: number;
}

export class Sandbox {
  private constructor(private readonly root: string) {}

  /** A fresh copy of all that git knows of here, as it stands in the work tree. */
  static make(): Sandbox {
    const root = mkdtempSync(join(tmpdir(), 'berth-mutants-'));
    process.once('exit', () => rmSync(root, { recursive: true, force: true }));
    const listed = ['ls-files', '--cached', '--others', '--exclude-standard'];
    const files = execFileSync('git', listed, { encoding: 'utf8' }).split('\n');
    for (const file of files.filter((name) => name !== '' && existsSync(name))) {
      mkdirSync(dirname(join(root, file)), { recursive: true });
      cpSync(file, join(root, file));
    }
    symlinkSync(resolve('node_modules'), join(root, 'node_modules'));
    return new Sandbox(root);
  }

  read(file: string): string {
    return readFileSync(join(this.root, file), 'utf8');
  }

  write(file: string, text: string): void {
    writeFileSync(join(this.root, file), text);
  }

  /**
   * Runs test files in the order given, up to the first test that fails.
   *
   * @param seconds after which they are stopped
   * @param environment further variables
   */
  run(
    files: readonly string[],
    seconds: number,
    environment: NodeJS.ProcessEnv = {},
  ): Promise<Outcome> {
    const report = join(this.root, 'report.json');
    rmSync(report, { force: true });
    const start = performance.now();
    const child = spawn(
      process.execPath,
      ['node_modules/vitest/vitest.mjs', 'run', '--config', CONFIG, ...files],
      {
        cwd: this.root,
        stdio: 'ignore',
        detached: true,
        env: { ...process.env, ...environment, ORDER: files.join(','), REPORT: report },
      },
    );
    let late = false;
    const kill = () => {
      try {
        process.kill(-child.pid!, 'SIGKILL');
      } catch {
        // It ended meanwhile.
      }
    };
    const timer = setTimeout(() => {
      late = true;
      kill();
    }, seconds * 1000);
    process.once('exit', kill);
    return new Promise((told, failed) => {
      child.once('error', failed);
      child.once('exit', (status) => {
        clearTimeout(timer);
        process.off('exit', kill);
        told({
          ended: late ? 'overtime' : status === 0 ? 'passed' : 'failed',
          by: status === 0 || late ? undefined : firstFailed(report, this.root),
          seconds: (performance.now() - start) / 1000,
        });
      });
    });
  }
}

interface Report {
  readonly testResults: readonly {
    readonly name: string;
    readonly status: string;
    readonly assertionResults: readonly { readonly status: string; readonly fullName: string }[];
  }[];
}

function firstFailed(report: string, root: string): Outcome['by'] {
  if (!existsSync(report)) return { file: '', test: 'the test runner itself' };
  const { testResults } = JSON.parse(readFileSync(report, 'utf8')) as Report;
  const file = testResults.find(({ status }) => status === 'failed');
  if (file === undefined) return { file: '', test: 'the test runner itself' };
  const test = file.assertionResults.find(({ status }) => status === 'failed');
  return { file: file.name.slice(root.length + 1), test: test?.fullName ?? 'its loading' };
}

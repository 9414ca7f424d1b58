/**
 * A real pseudo-terminal with the built command in it, by `script` of util-linux (package bsdutils on
 * Debian). Without it a test that needs a terminal fails: a stand-in would prove nothing.
 */

import { spawn } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';

/** Milliseconds: a loaded machine may take long to start the command. */
const PATIENCE = 40_000;

export interface Terminal {
  /** All that has been shown so far, with the terminal's line ends made plain. */
  shown(): string;
  /** Waits until this has been shown since the last wait. */
  until(text: string): Promise<void>;
  /** Types a line and Enter, and waits for the next prompt or text. */
  type(line: string, then?: string): Promise<void>;
  /** Types keys as they are: '\u0003' is Ctrl-C, '\u0004' Ctrl-D. */
  keys(keys: string): void;
  /** The exit status of the command, once it has ended. */
  ended(): Promise<number | null>;
}

/** Starts a command line in a terminal of its own. */
export function terminal(commandLine: string, cwd: string): Terminal {
  // `exec`, and a shell that is everywhere: a shell left waiting would die of Ctrl-C in its own way.
  const child: ChildProcess = spawn('script', ['-qec', `exec ${commandLine}`, '/dev/null'], {
    cwd,
    stdio: ['pipe', 'pipe', 'inherit'],
    env: { ...process.env, SHELL: '/bin/sh', TERM: 'xterm', NO_COLOR: '1' },
  });
  let out = '';
  let seen = 0;
  let wake = (): void => undefined;
  child.stdout!.on('data', (data: Buffer) => {
    out += data.toString().replace(/\r\n/g, '\n');
    wake();
  });
  const ended = new Promise<number | null>((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (status) => {
      resolve(status);
      wake();
    });
  });
  // Whoever waits sees it too; unheard, it would end the tests instead of failing one.
  ended.catch(() => undefined);

  async function until(text: string): Promise<void> {
    const late = Date.now() + PATIENCE;
    for (;;) {
      const at = out.indexOf(text, seen);
      if (at >= 0) {
        seen = at + text.length;
        return;
      }
      if (Date.now() > late) throw new Error(`'${text}' was not shown after:\n${out.slice(seen)}`);
      const next = new Promise<void>((resolve) => (wake = resolve));
      await Promise.race([next, ended.then(() => pause(50)), pause(1000)]);
    }
  }
  return {
    shown: () => out,
    until,
    type: async (line, then = '\n> ') => {
      child.stdin!.write(`${line}\r`);
      await until(then);
    },
    keys: (keys) => void child.stdin!.write(keys),
    ended: () => ended,
  };
}

function pause(milliseconds: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, milliseconds));
}

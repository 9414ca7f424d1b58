/** `berth explore` running in this process on a scratch copy of a scenario, and requests to it as written. */

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { request as send } from 'node:http';
import type { IncomingHttpHeaders } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { run } from '../../src/cli/run.js';
import { world } from './world.js';

export interface Running {
  readonly port: number;
  /** `http://127.0.0.1:PORT`. */
  readonly origin: string;
  readonly file: string;
  /** What was printed. */
  readonly said: { readonly out: string; readonly err: string };
  /** As Ctrl-C does; returns the exit status. */
  stop(): Promise<number>;
}

/** Starts it on a text in a folder of its own; waits for the address. */
export async function explore(
  text: string,
  argv: readonly string[] = ['--port', '0'],
  called = 'bay.yaml',
): Promise<Running> {
  const folder = mkdtempSync(join(tmpdir(), 'berth-explore-'));
  const file = join(folder, called);
  writeFileSync(file, text);
  const made = world();
  const ended = run(['explore', file, ...argv], made);
  const said = (async () => {
    while (!made.said.out.includes('\n')) await new Promise((resolve) => setTimeout(resolve, 5));
  })();
  const early = await Promise.race([said, ended]);
  if (early !== undefined) throw new Error(`it ended with ${early}: ${made.said.err}`);
  const origin = made.said.out.split('/\n', 1)[0]!;
  return {
    port: Number(new URL(origin).port),
    origin,
    file,
    said: made.said,
    stop: async () => {
      made.interrupt();
      const status = await ended;
      rmSync(folder, { recursive: true, force: true });
      return status;
    },
  };
}

export interface Answer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: string;
}

export interface Asked {
  readonly method?: string;
  readonly path?: string;
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: string | Uint8Array;
}

/** One request, its path and headers as they are given. */
export function ask(
  port: number,
  { method = 'GET', path = '/', headers = {}, body }: Asked = {},
): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const request = send(
      { host: '127.0.0.1', port, method, path, headers, agent: false },
      (answer) => {
        let text = '';
        answer.setEncoding('utf8');
        answer.on('data', (more: string) => (text += more));
        answer.on('end', () =>
          resolve({ status: answer.statusCode!, headers: answer.headers, body: text }),
        );
        answer.on('error', reject);
      },
    );
    request.on('error', reject);
    request.end(body);
  });
}

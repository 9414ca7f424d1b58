/** Reading what a request carries, up to a limit. */

import type { IncomingMessage } from 'node:http';
import type { Refusal } from './gate.js';

/** Bytes; a name and some wishes take a few hundred. */
const MOST = 64 * 1024;

/** The JSON value that a request carries, or why it is turned away. */
export async function jsonBody(
  request: IncomingMessage,
): Promise<{ readonly value: unknown } | Refusal> {
  const type = request.headers['content-type'] ?? '';
  if (!/^application\/json\s*(;\s*charset=utf-8\s*)?$/i.test(type)) {
    return { status: 415, message: 'this takes application/json' };
  }
  const tooMuch = { status: 413, message: `this takes at most ${MOST} bytes` };
  if (Number(request.headers['content-length'] ?? 0) > MOST) return tooMuch;
  const kept: Uint8Array[] = [];
  let size = 0;
  for await (const chunk of request as AsyncIterable<Uint8Array>) {
    size += chunk.byteLength;
    if (size > MOST) return tooMuch;
    kept.push(chunk);
  }
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(Buffer.concat(kept));
    return { value: JSON.parse(text) as unknown };
  } catch {
    return { status: 400, message: 'this is not JSON' };
  }
}

/** Telling every open page what the file holds now, as server-sent events. */

import type { ServerResponse } from 'node:http';

/** Milliseconds between words that keep a connection from being taken for dead. */
const HEARTBEAT = 15_000;
/** Pages open at once; a browser opens six connections to one server at most. */
const MOST = 32;

/** What is told: the file's text, or why it cannot be read. */
export type News = { readonly text: string } | { readonly lost: string };

export class Changes {
  private readonly open = new Set<ServerResponse>();
  private readonly heartbeat = setInterval(() => this.write(':\n\n'), HEARTBEAT);

  /** Begins to tell a page; false when too many are told already. */
  tell(response: ServerResponse, now: News): boolean {
    if (this.open.size >= MOST) return false;
    response.writeHead(200, { 'content-type': 'text/event-stream; charset=utf-8' });
    // What changed between the page and this connection is told too; after a loss, soon asked again.
    response.write(`retry: 1000\n\n${event(now)}`);
    this.open.add(response);
    response.on('close', () => this.open.delete(response));
    return true;
  }

  tellAll(news: News): void {
    this.write(event(news));
  }

  close(): void {
    clearInterval(this.heartbeat);
    for (const response of this.open) response.end();
  }

  private write(text: string): void {
    for (const response of this.open) response.write(text);
  }
}

/** A text is a plain message; a loss has a name of its own, for pages that listen for it. */
function event(news: News): string {
  // JSON on one line: an event ends at an empty one.
  return `${'lost' in news ? 'event: lost\n' : ''}data: ${JSON.stringify(news)}\n\n`;
}

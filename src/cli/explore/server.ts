/**
 * The server behind the page, on the loopback address alone. Node's own: it has three routes and serves no
 * files, and what matters most is what it refuses (`gate.ts`), which a framework would only lie between.
 */

import { createServer } from 'node:http';
import type { IncomingMessage, Server, ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Io } from '../io.js';
import { jsonBody } from './body.js';
import { Changes } from './changes.js';
import type { News } from './changes.js';
import { admitted } from './gate.js';
import type { Refusal } from './gate.js';
import { pageWith } from './page.js';
import type { Saver } from './save.js';
import { WatchedFile } from './watched.js';

const LOOPBACK = '127.0.0.1';

/** Milliseconds for a request to arrive whole. */
const ARRIVES = 10_000;
/** Connections at once: a few pages, each with an open stream. */
const MOST_CONNECTIONS = 100;

const HEADERS = {
  'cache-control': 'no-store',
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'x-frame-options': 'DENY', // for what does not know frame-ancestors
  'content-security-policy': "default-src 'none'; frame-ancestors 'none'", // the page has its own
} as const;

export interface Served {
  /** As the page calls it. */
  readonly name: string;
  readonly path: string;
  /** What the file held when it was first read. */
  readonly text: string;
  /** The page as it was built. */
  readonly built: string;
}

export class ExploreServer {
  private readonly server: Server;
  private readonly changes = new Changes();
  private readonly file: WatchedFile;
  private saver: Promise<Saver> | undefined;
  private port = 0;

  constructor(
    private readonly served: Served,
    private readonly io: Io,
  ) {
    this.file = new WatchedFile(served.path, served.text, io, {
      changed: (text) => this.changes.tellAll({ text }),
      lost: (why) => this.changes.tellAll({ lost: why }),
    });
    this.server = createServer(
      { requestTimeout: ARRIVES, headersTimeout: ARRIVES, connectionsCheckingInterval: ARRIVES },
      (request, response) => void this.answer(request, response),
    );
    this.server.maxConnections = MOST_CONNECTIONS;
  }

  /** Listens on a port, 0 for any that is free; returns the address. Rejects when it is taken. */
  async listen(port: number): Promise<string> {
    await new Promise<void>((resolve, reject) => {
      this.server.once('error', reject);
      this.server.listen(port, LOOPBACK, () => {
        this.server.off('error', reject);
        resolve();
      });
    });
    this.port = (this.server.address() as AddressInfo).port;
    return `http://${LOOPBACK}:${this.port}/`;
  }

  /** Ends every connection; resolves when none is left. */
  async close(): Promise<void> {
    this.file.close();
    this.changes.close();
    const closed = new Promise<void>((resolve) => this.server.close(() => resolve()));
    this.server.closeAllConnections();
    await closed;
  }

  private async answer(request: IncomingMessage, response: ServerResponse): Promise<void> {
    for (const [name, value] of Object.entries(HEADERS)) response.setHeader(name, value);
    try {
      const route = admitted(request, this.port);
      if (typeof route === 'object') refuse(request, response, route);
      else if (route === 'page') await this.page(response);
      else if (route === 'changes') await this.follow(response);
      else await this.save(request, response);
    } catch {
      // A connection lost halfway, or a disk that fails: this request ends, the server goes on.
      if (response.headersSent) response.destroy();
      else refuse(request, response, { status: 500, message: 'this went wrong' });
    }
  }

  private async page(response: ServerResponse): Promise<void> {
    await this.file.look();
    const { name, built } = this.served;
    const { html, policy } = pageWith(built, { name, text: this.file.text, live: true });
    response.writeHead(200, {
      'content-type': 'text/html; charset=utf-8',
      'content-security-policy': `${policy}; frame-ancestors 'none'`,
    });
    response.end(html);
  }

  private async follow(response: ServerResponse): Promise<void> {
    await this.file.look();
    const { text, lost } = this.file;
    const now: News = lost === undefined ? { text } : { lost };
    if (!this.changes.tell(response, now)) {
      answerJson(response, 503, { message: 'too many pages are open' });
    }
  }

  private async save(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const body = await jsonBody(request);
    if ('status' in body) {
      refuse(request, response, body);
      return;
    }
    // Reading scenarios takes long to load, and the first view does without.
    this.saver ??= import('./save.js').then((made) => new made.Saver(this.served.path, this.io));
    const saved = await (await this.saver).save(body.value);
    if ('status' in saved) {
      refuse(request, response, saved);
      return;
    }
    answerJson(response, 200, { text: saved.text });
    await this.file.look();
  }
}

function refuse(
  request: IncomingMessage,
  response: ServerResponse,
  { status, message, allow }: Refusal,
): void {
  if (allow !== undefined) response.setHeader('allow', allow);
  // What is still on its way is not wanted: read no further than this.
  if (!request.complete) response.setHeader('connection', 'close');
  answerJson(response, status, { message });
}

function answerJson(response: ServerResponse, status: number, value: object): void {
  response.writeHead(status, { 'content-type': 'application/json; charset=utf-8' });
  response.end(JSON.stringify(value));
}

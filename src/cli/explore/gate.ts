/**
 * Who may ask the server what. A page of another site can make a browser send requests here, and a name
 * of another site can be made to lead here: the browser says both, in Origin and in Host.
 */

import type { IncomingMessage } from 'node:http';

/** Why a request is turned away, as a status and words. */
export interface Refusal {
  readonly status: number;
  readonly message: string;
  /** The methods that the path takes, where the method is what is wrong. */
  readonly allow?: string;
}

export type Route = 'page' | 'changes' | 'save';

const ROUTES: Readonly<Record<string, { readonly route: Route; readonly method: string }>> = {
  '/': { route: 'page', method: 'GET' },
  '/changes': { route: 'changes', method: 'GET' },
  '/save': { route: 'save', method: 'POST' },
};

/** What a request asks for, or why it is turned away. @param port that the server listens on. */
export function admitted(request: IncomingMessage, port: number): Route | Refusal {
  const { headers } = request;
  const host = headers.host?.toLowerCase() ?? '';
  if (!hostsOf(port).includes(host)) return no(403, 'this server answers to its own address alone');
  const origin = headers.origin;
  if (origin !== undefined && origin.toLowerCase() !== `http://${host}`) {
    return no(403, 'a page from elsewhere may not ask');
  }
  const path = (request.url ?? '').replace(/\?.*$/s, '');
  if (!Object.hasOwn(ROUTES, path)) return no(404, 'there is nothing here');
  const { route, method } = ROUTES[path]!;
  if (request.method !== method) {
    return { ...no(405, `this takes ${method}`), allow: method };
  }
  const site = headers['sec-fetch-site'];
  // A link from elsewhere may open the page; nothing but the page itself asks for the rest.
  if (route !== 'page' && site !== undefined && site !== 'same-origin') {
    return no(403, 'a page from elsewhere may not ask');
  }
  if (route === 'save' && origin === undefined) return no(403, 'only the page itself may save');
  return route;
}

function hostsOf(port: number): readonly string[] {
  const names = ['127.0.0.1', 'localhost'];
  const hosts = names.map((name) => `${name}:${port}`);
  // A browser leaves out the port that http has by itself.
  return port === 80 ? [...hosts, ...names] : hosts;
}

function no(status: number, message: string): Refusal {
  return { status, message };
}

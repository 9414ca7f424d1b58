import { createHash } from 'node:crypto';
import {
  chmodSync,
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { request as send } from 'node:http';
import { connect, createServer } from 'node:net';
import { networkInterfaces, tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { builtPage, pageWith } from '../../src/cli/explore/page.js';
import { ORCHARD } from '../model/orchard.js';
import { ask, explore } from './explore-server.js';
import type { Asked, Running } from './explore-server.js';
import { berth } from './world.js';

const CASE = { name: 'centred', wants: 'offset=0' };

/** What the page sends to save. */
function saving(on: Running, value: unknown, headers: Record<string, string> = {}): Asked {
  return {
    method: 'POST',
    path: '/save',
    headers: { origin: on.origin, 'content-type': 'application/json', ...headers },
    body: typeof value === 'string' ? value : JSON.stringify(value),
  };
}

/** What a page is told, event by event, from the moment it listens. */
function listen(on: Running) {
  const told: string[] = [];
  let ended = false;
  const request = send(
    { host: '127.0.0.1', port: on.port, path: '/changes', agent: false },
    (answer) => {
      let held = '';
      answer.setEncoding('utf8');
      answer.on('data', (more: string) => {
        const events = (held + more).split('\n\n');
        held = events.pop()!;
        told.push(...events);
      });
      answer.on('close', () => (ended = true));
    },
  );
  request.on('error', () => (ended = true));
  request.end();
  const texts = () =>
    told
      .filter((event) => event.startsWith('data: '))
      .map((event) => (JSON.parse(event.slice(6)) as { text: string }).text);
  return { told, texts, isEnded: () => ended, close: () => request.destroy() };
}

describe('a server', () => {
  let on: Running;
  beforeAll(async () => {
    on = await explore(ORCHARD);
  });
  afterAll(() => on.stop());

  it('prints its address first, and how to stop it', () => {
    expect(on.said.out).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/\n.*Ctrl-C/);
    expect(on.said.err).toBe('');
  });

  it('gives the page, with the scenario in it and every header', async () => {
    const { status, headers, body } = await ask(on.port);
    expect(status).toBe(200);
    expect(headers).toMatchObject({
      'content-type': 'text/html; charset=utf-8',
      'cache-control': 'no-store',
      'x-content-type-options': 'nosniff',
      'referrer-policy': 'no-referrer',
      'cross-origin-opener-policy': 'same-origin',
      'cross-origin-resource-policy': 'same-origin',
    });
    const data = /id="berth-start">(.*?)<\/script>/.exec(body)![1]!;
    expect(JSON.parse(data)).toEqual({ name: 'bay.yaml', text: ORCHARD, live: true });
  });

  it('allows its own script and style by their hashes, its own server, and nothing else', async () => {
    const { headers, body } = await ask(on.port);
    const hash = (element: RegExp) =>
      `'sha256-${createHash('sha256').update(element.exec(body)![1]!).digest('base64')}'`;
    const policy: Record<string, string> = Object.fromEntries(
      (headers['content-security-policy'] as string).split('; ').map((one) => {
        const [name, ...sources] = one.split(' ');
        return [name!, sources.join(' ')] as const;
      }),
    );
    expect(policy).toEqual({
      'default-src': "'none'",
      'script-src': hash(/<script id="berth-worker">(.*?)<\/script>/s),
      'worker-src': 'blob:',
      'style-src': hash(/<style>(.*?)<\/style>/s),
      'connect-src': "'self'",
      'img-src': 'data:',
      'base-uri': "'none'",
      'form-action': "'none'",
      'require-trusted-types-for': "'script'",
      'trusted-types': 'berth-worker',
      'frame-ancestors': "'none'",
    });
    const meta = /Content-Security-Policy" content="([^"]+)"/.exec(body)![1]!;
    expect(headers['content-security-policy']).toBe(`${meta}; frame-ancestors 'none'`);
    // What is no page may do nothing, should a browser show it as one.
    for (const path of ['/changes?', '/save', '/nothing']) {
      const other = await ask(on.port, { path, headers: { origin: 'http://evil.example' } });
      expect(other.headers).toMatchObject({
        'content-security-policy': "default-src 'none'; frame-ancestors 'none'",
        'x-frame-options': 'DENY',
      });
    }
  });

  it('listens on the loopback address alone', async () => {
    const others = Object.values(networkInterfaces())
      .flatMap((all) => all ?? [])
      .filter(({ internal, family }) => !internal && family === 'IPv4')
      .map(({ address }) => address);
    // 127.0.0.2 leads to this machine too, but not to this server.
    for (const host of [...others, '127.0.0.2', '::1']) {
      const reached = await new Promise((resolve) => {
        const socket = connect({ host, port: on.port }, () => resolve('reached'));
        socket.on('error', () => resolve('refused'));
        setTimeout(() => resolve('no answer'), 1000);
      });
      expect(reached, host).not.toBe('reached');
    }
  });

  it.each([
    'evil.example',
    'localhost',
    '127.0.0.1',
    '127.0.0.1:1',
    '127.0.0.1.evil.example:PORT',
    '[::1]:PORT',
    '0.0.0.0:PORT',
    'user@127.0.0.1:PORT',
  ])('refuses the host %j', async (host) => {
    const headers = { host: host.replace('PORT', String(on.port)) };
    for (const path of ['/', '/changes', '/save']) {
      expect((await ask(on.port, { path, headers })).status).toBe(403);
    }
  });

  it('answers to its name as well as its number', async () => {
    const headers = { host: `LocalHost:${on.port}` };
    expect((await ask(on.port, { headers })).status).toBe(200);
    const origin = `http://localhost:${on.port}`;
    const both = { ...headers, origin };
    expect((await ask(on.port, { headers: both })).status).toBe(200);
  });

  it('refuses two hosts, and a request with none', async () => {
    const raw = (text: string) =>
      new Promise<string>((resolve) => {
        const socket = connect(on.port, '127.0.0.1', () => socket.write(text));
        let said = '';
        socket.on('data', (data) => (said += data.toString()));
        socket.on('close', () => resolve(said));
      });
    const host = `Host: 127.0.0.1:${on.port}\r\n`;
    const none = await raw('GET / HTTP/1.1\r\nConnection: close\r\n\r\n');
    expect(none).toMatch(/^HTTP\/1\.1 4\d\d /);
    const old = await raw('GET / HTTP/1.0\r\n\r\n');
    expect(old).toMatch(/^HTTP\/1\.1 4\d\d /);
    const two = await raw(
      `GET / HTTP/1.1\r\nHost: evil.example\r\n${host}Connection: close\r\n\r\n`,
    );
    expect(two).toMatch(/^HTTP\/1\.1 4\d\d /);
    const whole = await raw(
      `GET http://evil.example/ HTTP/1.1\r\n${host}Connection: close\r\n\r\n`,
    );
    expect(whole).toMatch(/^HTTP\/1\.1 404 /);
  });

  it.each([
    'http://evil.example',
    'null',
    'https://127.0.0.1:PORT',
    'http://127.0.0.1:1',
    'http://localhost:PORT',
  ])('refuses the origin %s', async (origin) => {
    const headers = { origin: origin.replace('PORT', String(on.port)) };
    for (const path of ['/', '/changes']) {
      expect((await ask(on.port, { path, headers })).status).toBe(403);
    }
    const { status } = await ask(on.port, saving(on, CASE, headers));
    expect(status).toBe(403);
    expect(readFileSync(on.file, 'utf8')).toBe(ORCHARD);
  });

  it('lets no other site read or save, whatever it leaves out', async () => {
    const cross = { 'sec-fetch-site': 'cross-site' };
    expect((await ask(on.port, { path: '/changes', headers: cross })).status).toBe(403);
    expect((await ask(on.port, saving(on, CASE, cross))).status).toBe(403);
    const { origin: _origin, ...rest } = saving(on, CASE).headers!;
    expect((await ask(on.port, { ...saving(on, CASE), headers: rest })).status).toBe(403);
  });

  it.each([
    '/..',
    '/../bay.yaml',
    '/bay.yaml',
    '/%2e%2e/bay.yaml',
    '//',
    '//etc/passwd',
    '/changes/',
    '/save/..',
    '/./',
    '/constructor',
    '/__proto__',
    '/page.html',
    '/favicon.ico',
    '/\\..\\bay.yaml',
    '*',
  ])('has nothing at %s', async (path) => {
    const { status, body } = await ask(on.port, { path });
    expect(status).toBe(404);
    expect(body).not.toContain('orchard');
  });

  it.each([
    ['POST', '/', 'GET'],
    ['HEAD', '/', 'GET'],
    ['OPTIONS', '/', 'GET'],
    ['PUT', '/changes', 'GET'],
    ['DELETE', '/save', 'POST'],
    ['GET', '/save', 'POST'],
    ['OPTIONS', '/save', 'POST'],
  ])('refuses to %s %s', async (method, path, allow) => {
    const { status, headers } = await ask(on.port, { method, path });
    expect(status).toBe(405);
    expect(headers.allow).toBe(allow);
    expect(headers['access-control-allow-origin']).toBeUndefined();
  });
});

describe('saving', () => {
  let on: Running;
  beforeEach(async () => {
    on = await explore(ORCHARD);
  });
  afterEach(() => on.stop());
  const held = () => readFileSync(on.file, 'utf8');

  it('writes the case, with every line there was, and says what the file holds', async () => {
    const { status, body } = await ask(on.port, saving(on, CASE));
    expect(status).toBe(200);
    expect(JSON.parse(body)).toEqual({ text: held() });
    expect(held()).toBe(`${ORCHARD}\ncases:\n  centred: 'offset=0'\n`);
    expect(readdirSync(dirname(on.file))).toEqual(['bay.yaml']);
  });

  it('writes one after another when asked at once', async () => {
    const names = ['a', 'b', 'c', 'd', 'e'];
    await Promise.all(names.map((name) => ask(on.port, saving(on, { ...CASE, name }))));
    for (const name of names) expect(held()).toContain(`\n  ${name}: 'offset=0'\n`);
  });

  it.each([
    [{ name: 'x', wants: 'nonsense' }, 'not a wish'],
    [{ name: 'x', wants: 'offset=99' }, 'outside the range'],
    [{ name: 'x', wants: 'oil filter=on the roof' }, ''],
    [{ name: 'x', wants: '' }, 'no wish'],
    [{ name: '__proto__', wants: 'offset=0' }, 'cannot be a name'],
    [{ name: 'a\nb', wants: 'offset=0' }, 'cannot be seen'],
    [{ name: 'x', wants: ['offset=0'] }, 'this takes'],
    [{ name: 'x' }, 'this takes'],
    [{ ...CASE, was: 1 }, 'this takes'],
    [[], 'this takes'],
    [null, 'this takes'],
    [3, 'this takes'],
  ])('refuses %j', async (value, words) => {
    const { status, body } = await ask(on.port, saving(on, value));
    expect(status).toBe(422);
    expect((JSON.parse(body) as { message: string }).message).toContain(words);
    expect(held()).toBe(ORCHARD);
  });

  it('refuses what is no JSON, in name or in deed', async () => {
    for (const type of [
      'text/plain',
      'application/x-www-form-urlencoded',
      'application/jsonx',
      '',
    ]) {
      const { status } = await ask(on.port, saving(on, CASE, { 'content-type': type }));
      expect(status, type).toBe(415);
    }
    expect((await ask(on.port, saving(on, '{"name":'))).status).toBe(400);
    const bytes = { ...saving(on, CASE), body: Uint8Array.of(0x22, 0xff, 0x22) };
    expect((await ask(on.port, bytes)).status).toBe(400);
    expect(held()).toBe(ORCHARD);
  });

  it('reads no more than 64 KB, whether told beforehand or not', async () => {
    const long = JSON.stringify({ ...CASE, more: 'x'.repeat(70_000) });
    expect((await ask(on.port, saving(on, long))).status).toBe(413);
    const chunked = saving(on, long, { 'transfer-encoding': 'chunked' });
    const answered = await ask(on.port, chunked).then(
      ({ status }) => status,
      () => 413, // cut off while still sending
    );
    expect(answered).toBe(413);
    expect((await ask(on.port, saving(on, { ...CASE, more: 'x'.repeat(50_000) }))).status).toBe(
      200,
    );
  });

  it('refuses when the page read another text, and not when it read this one', async () => {
    const was = createHash('sha256').update(ORCHARD).digest('hex');
    writeFileSync(on.file, `${ORCHARD}# more\n`);
    const { status, body } = await ask(on.port, saving(on, { ...CASE, was }));
    expect(status).toBe(409);
    expect(body).toContain('changed');
    expect(held()).toBe(`${ORCHARD}# more\n`);
    writeFileSync(on.file, ORCHARD);
    expect((await ask(on.port, saving(on, { ...CASE, was }))).status).toBe(200);
  });

  it('refuses to write into a file with errors, or that is gone', async () => {
    writeFileSync(on.file, `${ORCHARD}colour: red\n`);
    const wrong = await ask(on.port, saving(on, CASE));
    expect([wrong.status, wrong.body]).toEqual([422, expect.stringContaining('errors')]);
    rmSync(on.file);
    const gone = await ask(on.port, saving(on, CASE));
    expect([gone.status, gone.body]).toEqual([422, expect.stringContaining('no such file')]);
    expect(existsSync(on.file)).toBe(false);
  });

  it('keeps line ends, the mark at the beginning, who may read it, and a link a link', async () => {
    const real = join(dirname(on.file), 'real.yaml');
    writeFileSync(real, `\ufeff${ORCHARD.replaceAll('\n', '\r\n')}`);
    chmodSync(real, 0o640);
    rmSync(on.file);
    symlinkSync('real.yaml', on.file);
    expect((await ask(on.port, saving(on, CASE))).status).toBe(200);
    expect(lstatSync(on.file).isSymbolicLink()).toBe(true);
    expect(statSync(real).mode & 0o777).toBe(0o640);
    const wanted = `\ufeff${ORCHARD}\ncases:\n  centred: 'offset=0'\n`.replaceAll('\n', '\r\n');
    expect(readFileSync(real, 'utf8')).toBe(wanted);
  });
});

describe('what the page is told', () => {
  let on: Running;
  beforeEach(async () => {
    on = await explore(ORCHARD);
  });
  afterEach(() => on.stop());

  it('is what the file holds, then whatever it holds next, once each', async () => {
    const page = listen(on);
    await expect.poll(page.texts).toEqual([ORCHARD]);
    writeFileSync(on.file, `${ORCHARD}# one\n`);
    await expect.poll(page.texts).toEqual([ORCHARD, `${ORCHARD}# one\n`]);
    // Touched, but the same.
    writeFileSync(on.file, `${ORCHARD}# one\n`);
    // As editors do: another file in its place.
    writeFileSync(`${on.file}.new`, `${ORCHARD}# two\n`);
    renameSync(`${on.file}.new`, on.file);
    const all = [ORCHARD, `${ORCHARD}# one\n`, `${ORCHARD}# two\n`];
    await expect.poll(page.texts).toEqual(all);
    await new Promise((resolve) => setTimeout(resolve, 700));
    expect(page.texts()).toEqual(all);
    page.close();
  });

  it('is a broken text too, and why there is none', async () => {
    const page = listen(on);
    writeFileSync(on.file, 'engine: [');
    await expect.poll(page.texts).toContain('engine: [');
    rmSync(on.file);
    const lost = 'event: lost\ndata: {"lost":"there is no such file"}';
    await expect.poll(() => page.told).toContain(lost);
    // A page opened now is told at once, and shows what there was.
    const late = listen(on);
    await expect.poll(() => late.told).toContain(lost);
    expect((await ask(on.port)).body).toContain('engine: [');
    // Back again, even with what it held before.
    writeFileSync(on.file, 'engine: [');
    await expect.poll(late.texts).toEqual(['engine: [']);
    late.close();
    page.close();
  });

  it('is told on when the folder is replaced, which no watch survives', async () => {
    const page = listen(on);
    await expect.poll(page.texts).toEqual([ORCHARD]);
    const folder = dirname(on.file);
    renameSync(folder, `${folder}.old`);
    rmSync(`${folder}.old`, { recursive: true });
    mkdirSync(folder);
    writeFileSync(on.file, `${ORCHARD}# moved\n`);
    await expect.poll(page.texts, { timeout: 5000 }).toContain(`${ORCHARD}# moved\n`);
    writeFileSync(on.file, `${ORCHARD}# again\n`);
    await expect.poll(page.texts, { timeout: 5000 }).toContain(`${ORCHARD}# again\n`);
    page.close();
  });

  it('includes what a page saved', async () => {
    const page = listen(on);
    await expect.poll(page.texts).toEqual([ORCHARD]);
    const { body } = await ask(on.port, saving(on, CASE));
    await expect.poll(page.texts).toEqual([ORCHARD, (JSON.parse(body) as { text: string }).text]);
    page.close();
  });

  it('has an end: too many pages are refused', async () => {
    const pages = Array.from({ length: 32 }, () => listen(on));
    await expect.poll(() => pages.every(({ texts }) => texts().length === 1)).toBe(true);
    expect((await ask(on.port, { path: '/changes' })).status).toBe(503);
    pages.pop()!.close();
    await expect
      .poll(async () => {
        const more = listen(on);
        await new Promise((resolve) => setTimeout(resolve, 50));
        more.close();
        return more.texts().length;
      })
      .toBe(1);
    pages.forEach((page) => page.close());
  });
});

describe('starting and stopping', () => {
  it('ends with 0 and no connection left, when stopped with pages open', async () => {
    const on = await explore(ORCHARD);
    const pages = [listen(on), listen(on)];
    await expect.poll(() => pages.map(({ told }) => told.length > 0)).toEqual([true, true]);
    expect(await on.stop()).toBe(0);
    await expect.poll(() => pages.map((page) => page.isEnded())).toEqual([true, true]);
    await expect(ask(on.port)).rejects.toThrow('ECONNREFUSED');
  });

  it('takes another port when its usual one is taken, and the one asked for or none', async () => {
    const first = await explore(ORCHARD, []);
    const second = await explore(ORCHARD, []);
    expect(second.port).not.toBe(first.port);
    const refused = await berth(['explore', first.file, '--port', String(second.port)]);
    expect(refused).toMatchObject({
      status: 2,
      out: '',
      err: expect.stringContaining('taken') as string,
    });
    expect(await first.stop()).toBe(0);
    expect(await second.stop()).toBe(0);
    const chosen = await explore(ORCHARD, ['--port', String(second.port)]);
    expect(chosen.port).toBe(second.port);
    await chosen.stop();
  });

  it.each(['x', '-1', '65536', '1.5', ''])('refuses the port %j', async (port) => {
    const { status, err } = await berth([
      'explore',
      'scenarios/orchard-hauler.yaml',
      '--port',
      port,
    ]);
    expect(status).toBe(2);
    expect(err).toContain('--port');
  });

  it('needs a file', async () => {
    const input = await berth(['explore', '-'], { stdin: ORCHARD });
    expect(input).toMatchObject({
      status: 2,
      err: expect.stringContaining('standard input') as string,
    });
    const none = await berth(['explore', 'none.yaml']);
    expect(none).toMatchObject({
      status: 2,
      err: expect.stringContaining('no such file') as string,
    });
  });

  it('serves a file with errors, for the page to show', async () => {
    const on = await explore('berth: 1\n', ['--port', '0'], 'naïve <b>.yaml');
    const { body } = await ask(on.port);
    const data = /id="berth-start">(.*?)<\/script>/.exec(body)![1]!;
    expect(JSON.parse(data)).toEqual({ name: 'naïve <b>.yaml', text: 'berth: 1\n', live: true });
    expect(await on.stop()).toBe(0);
  });
});

describe('exporting', () => {
  let folder = '';
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'berth-export-'));
    writeFileSync(join(folder, 'bay.yaml'), ORCHARD);
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));
  const exporting = (target: string, ...more: string[]) =>
    berth(['explore', join(folder, 'bay.yaml'), '--export', join(folder, target), ...more]);

  it('writes one file of less than 2 MB that may ask nobody for anything', async () => {
    const { status, out, err } = await exporting('page.html');
    expect([status, err]).toEqual([0, '']);
    expect(out).toContain('page.html');
    const html = readFileSync(join(folder, 'page.html'), 'utf8');
    expect(html.length).toBeLessThan(2e6);
    expect(html).toContain("connect-src 'none'");
    expect(html).not.toContain("connect-src 'self'");
    const data = /id="berth-start">(.*?)<\/script>/.exec(html)![1]!;
    expect(JSON.parse(data)).toEqual({ name: 'bay.yaml', text: ORCHARD, live: false });
    // Nothing in the markup leads anywhere.
    const markup = html.replace(/<script id="berth-worker">.*?<\/script>/s, '');
    expect(markup).not.toMatch(/\b(?:src|href)="(?!data:)/);
  });

  it('takes standard input too', async () => {
    const target = join(folder, 'page.html');
    const { status } = await berth(['explore', '-', '--export', target], { stdin: ORCHARD });
    expect(status).toBe(0);
    expect(readFileSync(target, 'utf8')).toContain('"name":"standard input"');
  });

  it('writes over a page of its own, and over nothing else', async () => {
    expect((await exporting('page.html')).status).toBe(0);
    expect((await exporting('page.html')).status).toBe(0);
    const slip = await exporting('bay.yaml');
    expect(slip).toMatchObject({
      status: 2,
      err: expect.stringContaining('there already') as string,
    });
    expect(readFileSync(join(folder, 'bay.yaml'), 'utf8')).toBe(ORCHARD);
    expect((await exporting('.')).status).toBe(2);
  });

  it('refuses a file with errors, a folder that is not there, and a port', async () => {
    expect((await exporting('none/page.html')).status).toBe(2);
    expect((await exporting('page.html', '--port', '1')).err).toContain('--port');
    writeFileSync(join(folder, 'bay.yaml'), `${ORCHARD}colour: red\n`);
    const { status, err } = await exporting('page.html');
    expect([status, err]).toEqual([2, expect.stringContaining('colour')]);
    expect(readdirSync(folder)).toEqual(['bay.yaml']);
  });
});

describe('a scenario in the page', () => {
  it.each([
    '</script><script>alert(1)</script>',
    '<!-- <script>',
    '<!--<script></script>',
    ']]>',
    "$& $' $` $1 $<name>",
    '\u2028\u2029',
    '&lt;/script&gt; &quot;',
    '"} </SCRIPT\t>',
    '\ud800 half',
    '\u0000\u001f',
  ])('is data whatever it holds: %j', async (text) => {
    const { html } = pageWith(await builtPage(), { name: text, text, live: false });
    const parts = html.split('<script type="application/json" id="berth-start">');
    expect(parts).toHaveLength(2);
    const data = parts[1]!.slice(0, parts[1]!.indexOf('</script>'));
    expect(data).not.toMatch(/[<>&\u2028\u2029]/);
    expect(JSON.parse(data)).toEqual({ name: text, text, live: false });
    // All else is as it was built.
    const rest = `${parts[0]}|${parts[1]!.slice(data.length)}`;
    const bare = pageWith(await builtPage(), { name: '', text: '', live: false }).html;
    const [before, after] = bare.split('<script type="application/json" id="berth-start">');
    expect(rest).toBe(`${before}|${after!.slice(after!.indexOf('</script>'))}`);
  });
});

it('is not stopped by a port that another program holds', async () => {
  const other = createServer();
  await new Promise<void>((resolve) => other.listen(0, '127.0.0.1', resolve));
  const { port } = other.address() as { port: number };
  const { status } = await berth([
    'explore',
    'scenarios/orchard-hauler.yaml',
    '--port',
    String(port),
  ]);
  expect(status).toBe(2);
  other.close();
});

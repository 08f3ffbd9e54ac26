import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { serveLoopback, type Loopback } from '../../../app/local/server.ts';
import { tokenLife, Visits } from '../../../app/local/visits.ts';
import { keyHeader } from '../../../src/host/contract/loopback.ts';
import { ask, opening, visitor, type Visitor } from './browserLike.ts';
import { standInHost, type StandInHost } from './standInHost.ts';

const files = new Map([
  [
    '/',
    {
      bytes: Buffer.from('<!doctype html><title>front</title>'),
      mime: 'text/html; charset=utf-8',
      lasting: false,
    },
  ],
  ['/assets/a.js', { bytes: Buffer.from('1'), mime: 'text/javascript; charset=utf-8', lasting: true }],
]);

let host: StandInHost;
let server: Loopback;
let me: Visitor;
let clock = 0;
let mediaId = '';
let reportId = '';

beforeAll(async () => {
  host = await standInHost();
  server = await serveLoopback({ host: host.port, files, port: 0, visits: new Visits(() => clock) });
  me = await visitor(server);
  mediaId = await host.media(Buffer.from('0123456789'), 'video/mp4');
  reportId = await host.media(Buffer.from('<!doctype html><p>report'), 'text/html; charset=utf-8');
});
afterAll(async () => {
  await server.close();
  await host.remove();
});

const pathOf = (address: string): string => new URL(address).pathname + new URL(address).search;

describe('the one-time address', () => {
  it('is exchanged for an HttpOnly, SameSite=Strict cookie and leads to an address without the token', async () => {
    const entered = await ask(server.place, pathOf(server.address()), { headers: opening });
    expect(entered.status).toBe(303);
    expect(entered.headers['set-cookie']).toHaveLength(1);
    expect(entered.headers['set-cookie']?.[0]).toMatch(
      /^walkback-\d+=[\w-]{43}; Path=\/; HttpOnly; SameSite=Strict$/,
    );
    expect(entered.headers.location).toMatch(/^\/#key=[\w-]{43}$/);
  });

  it('leads to the start where the browser is opened for the user', async () => {
    const entered = await ask(server.place, pathOf(server.address('start')), { headers: opening });
    expect(entered.headers.location).toMatch(/^\/#key=[\w-]{43}&start=1$/);
  });

  it('is refused the second time', async () => {
    const path = pathOf(server.address());
    expect((await ask(server.place, path, { headers: opening })).status).toBe(303);
    const again = await ask(server.place, path, { headers: opening });
    expect(again.status).toBe(403);
    expect(again.headers['set-cookie']).toBeUndefined();
  });

  it('is refused after a minute', async () => {
    const path = pathOf(server.address());
    clock += tokenLife;
    expect((await ask(server.place, path, { headers: opening })).status).toBe(403);
  });

  it('is not used up by a look at its headers, by prefetching, or by another page', async () => {
    const path = pathOf(server.address());
    expect((await ask(server.place, path, { method: 'HEAD', headers: opening })).status).toBe(403);
    expect(
      (await ask(server.place, path, { headers: { ...opening, 'sec-purpose': 'prefetch' } })).status,
    ).toBe(403);
    expect(
      (await ask(server.place, path, { headers: { ...opening, 'sec-fetch-site': 'cross-site' } })).status,
    ).toBe(403);
    expect((await ask(server.place, path, { headers: opening })).status).toBe(303);
  });

  it('cannot be guessed', async () => {
    for (const token of ['', 'x', 'a'.repeat(43), 'undefined', 'null', '__proto__'])
      expect((await ask(server.place, `/?token=${token}`, { headers: opening })).status).toBe(403);
  });
});

describe('Host', () => {
  it.each([
    ['a name that was made to point here', 'attacker.example'],
    ['the same with our port', 'attacker.example:PORT'],
    ['localhost', 'localhost:PORT'],
    ['another port', '127.0.0.1:1'],
    ['no port', '127.0.0.1'],
    ['another loopback address', '127.0.0.2:PORT'],
    ['the address in another form', '2130706433:PORT'],
    ['a dot at the end', '127.0.0.1.:PORT'],
    ['something before it', 'x@127.0.0.1:PORT'],
  ])('%s is turned away with 421', async (_what, name) => {
    const port = server.place.split(':')[1] ?? '';
    const answer = await me.get('/', { host: name.replace('PORT', port) });
    expect(answer.status).toBe(421);
    expect(answer.body.toString()).not.toContain('front');
  });
});

describe('who asks', () => {
  it('answers the window itself', async () => {
    expect((await me.get('/')).status).toBe(200);
    expect((await me.get('/assets/a.js')).status).toBe(200);
    expect((await me.get(`/media/${mediaId}`)).body.toString()).toBe('0123456789');
  });

  it.each(['same-site', 'cross-site', 'SAME-ORIGIN', 'same-origin, none', ''])(
    'Sec-Fetch-Site "%s" gets nothing, cookie or not',
    async (site) => {
      for (const path of ['/', '/assets/a.js', `/media/${mediaId}`, `/report/${reportId}`, '/alive']) {
        const answer = await me.get(path, { 'sec-fetch-site': site });
        expect(answer.status, path).toBe(403);
      }
    },
  );

  it('"none" opens pages and nothing else', async () => {
    expect((await me.get('/', opening)).status).toBe(200);
    expect((await me.get(`/media/${mediaId}`, { 'sec-fetch-site': 'none' })).status).toBe(403);
    expect((await me.get(`/media/${mediaId}`, { ...opening, 'sec-fetch-dest': 'video' })).status).toBe(403);
    expect((await me.get('/', { ...opening, 'sec-fetch-dest': 'iframe' })).status).toBe(403);
  });

  it('without the header, only the front page', async () => {
    expect((await me.get('/', { 'sec-fetch-site': null })).status).toBe(200);
    expect((await me.get(`/media/${mediaId}`, { 'sec-fetch-site': null })).status).toBe(403);
    expect((await me.get(`/report/${reportId}`, { 'sec-fetch-site': null })).status).toBe(403);
  });

  it.each([
    null,
    'null',
    'http://127.0.0.1:1',
    'http://localhost:PORT',
    'https://127.0.0.1:PORT',
    'http://attacker.example',
  ])('a POST with Origin %s is refused and nothing begins', async (origin) => {
    const before = host.heard.length;
    const named = origin?.replace('PORT', server.place.split(':')[1] ?? '') ?? null;
    const answer = await me.post('/uploads', '{"name":"a.mp4","bytes":1}', {
      origin: named,
      'content-type': 'application/json',
    });
    expect(answer.status).toBe(403);
    expect(host.heard.length).toBe(before);
  });

  it('refuses other methods, preflights among them, and never sends a CORS header', async () => {
    for (const method of ['PUT', 'DELETE', 'PATCH', 'OPTIONS', 'TRACE']) {
      const answer = await ask(server.place, '/uploads', {
        method,
        headers: { ...me.headers, origin: `http://${server.place}`, [keyHeader]: me.key },
      });
      expect(answer.status, method).toBe(405);
      expect(Object.keys(answer.headers).filter((h) => h.startsWith('access-control'))).toEqual([]);
    }
  });

  it('does nothing on GET', async () => {
    const before = host.heard.length;
    for (const path of ['/uploads', '/uploads/x', '/wire']) expect((await me.get(path)).status).toBe(404);
    expect(host.heard.length).toBe(before);
  });
});

describe('cookie and key', () => {
  it('without a cookie, or with a wrong or doubled one, not even the program is given', async () => {
    const wrong = me.cookie.replace(/=.*/, `=${'a'.repeat(43)}`);
    for (const cookie of [null, '', wrong, `${me.cookie}; ${me.cookie}`, me.cookie.replace(/-\d+=/, '-1=')])
      for (const path of ['/', '/assets/a.js', `/media/${mediaId}`])
        expect((await me.get(path, { cookie })).status, String(cookie)).toBe(401);
  });

  it('the cookie alone, as a server on another port could have seen it, changes nothing', async () => {
    const other = await visitor(server);
    for (const key of [null, '', 'a'.repeat(43), other.key]) {
      const answer = await me.post('/uploads', '{"name":"a.mp4","bytes":1}', {
        [keyHeader]: key,
        'content-type': 'application/json',
      });
      expect(answer.status).toBe(401);
      expect((await me.get('/alive', { [keyHeader]: key })).status).toBe(401);
    }
    expect((await me.get('/alive', { [keyHeader]: me.key })).status).toBe(204);
  });
});

describe('what answers carry', () => {
  it('the window is closed to other places and to other pages', async () => {
    const { headers } = await me.get('/');
    const policy = headers['content-security-policy'] ?? '';
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("script-src 'self';");
    expect(policy).toContain(`connect-src 'self' ws://${server.place};`);
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toContain('unsafe');
    expect(headers['cross-origin-opener-policy']).toBe('same-origin');
    expect(headers['cross-origin-embedder-policy']).toBe('require-corp');
    expect(headers['permissions-policy']).toContain('geolocation=()');
  });

  it('every answer is for our own origin, is not guessed at, and tells no referrer', async () => {
    const paths = [
      '/',
      '/assets/a.js',
      `/media/${mediaId}`,
      `/report/${reportId}`,
      '/nothing',
      '/alive',
      '/?token=x',
    ];
    for (const path of paths) {
      const { headers } = await me.get(path);
      expect(headers['cross-origin-resource-policy'], path).toBe('same-origin');
      expect(headers['x-content-type-options'], path).toBe('nosniff');
      expect(headers['referrer-policy'], path).toBe('no-referrer');
      expect(headers['content-security-policy'], path).toContain("frame-ancestors 'none'");
    }
  });

  it('a report stands on its own path, without scripts, and is not served as media', async () => {
    const { status, headers, body } = await me.get(`/report/${reportId}`, opening);
    expect(status).toBe(200);
    expect(body.toString()).toContain('report');
    expect(headers['content-security-policy']).toMatch(/default-src 'none'.*sandbox$/);
    expect(headers['content-security-policy']).not.toContain('script');
    const asMedia = await me.get(`/media/${reportId}`);
    expect(asMedia.headers['content-type']).toBe('application/octet-stream');
    expect(asMedia.headers['content-security-policy']).toContain('sandbox');
    expect((await me.get(`/report/${mediaId}`)).status).toBe(404);
  });

  it.each(['image/svg+xml', 'text/html', 'application/xhtml+xml', 'text/javascript', 'video/mp4\r\nx: y'])(
    'media said to be %s goes out as plain bytes',
    async (mime) => {
      const id = await host.media(Buffer.from('<svg onload="alert(1)"/>'), mime);
      expect((await me.get(`/media/${id}`)).headers['content-type']).toBe('application/octet-stream');
    },
  );
});

describe('paths', () => {
  it.each([
    '/../package.json',
    '/%2e%2e/package.json',
    '/assets/../../package.json',
    '/assets/..%2f..%2fpackage.json',
    '//etc/passwd',
    '/media/../package.json',
    '/media/%2e%2e%2fpackage.json',
    '/media/',
    '/media/a/b',
    `/media/${'a'.repeat(81)}`,
    '/report/__proto__',
    '/index.html',
    '/constructor',
  ])('%s leads nowhere', async (path) => {
    expect((await me.get(path)).status).toBe(404);
  });
});

import { readFile } from 'node:fs/promises';
import { request as httpRequest } from 'node:http';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { serveLoopback, type Loopback } from '../../../app/local/server.ts';
import { keyHeader } from '../../../src/host/contract/loopback.ts';
import { visitor, type Visitor } from './browserLike.ts';
import { standInHost, type StandInHost } from './standInHost.ts';

let host: StandInHost;
let server: Loopback;
let me: Visitor;

beforeAll(async () => {
  host = await standInHost();
  const front = { bytes: Buffer.from('x'), mime: 'text/html', lasting: false };
  server = await serveLoopback({ host: host.port, files: new Map([['/', front]]), port: 0 });
  me = await visitor(server);
});
afterAll(async () => {
  await server.close();
  await host.remove();
});

const json = { 'content-type': 'application/json' };
const octets = { 'content-type': 'application/octet-stream' };

async function begin(bytes: number, name = 'clip.mp4'): Promise<string> {
  const answer = await me.post('/uploads', JSON.stringify({ name, bytes }), json);
  expect(answer.status).toBe(200);
  return (JSON.parse(answer.body.toString()) as { uploadId: string }).uploadId;
}

const endOf = (uploadId: string): boolean | undefined =>
  host.ended.find((e) => e.uploadId === uploadId)?.complete;

/** A POST whose body is written by hand. */
function open(path: string, headers: Record<string, string>) {
  const [hostName = '', port = ''] = server.place.split(':');
  const request = httpRequest({
    host: hostName,
    port,
    path,
    method: 'POST',
    agent: false,
    headers: { ...me.headers, origin: `http://${server.place}`, [keyHeader]: me.key, ...octets, ...headers },
  });
  const answered = new Promise<number | 'cut'>((resolve) => {
    request.on('response', (response) => {
      response.resume();
      resolve(response.statusCode ?? 0);
    });
    request.on('error', () => {
      resolve('cut');
    });
  });
  return { request, answered };
}

describe('sending a file in', () => {
  it('writes exactly the bytes that were sent', async () => {
    const bytes = Buffer.from(Array.from({ length: 1_000_000 }, (_, i) => (i * 7) % 256));
    const id = await begin(bytes.length, 'Ünï "çödé" \u202e.mp4');
    const answer = await me.post(`/uploads/${id}`, bytes, octets);
    expect(answer.status).toBe(204);
    expect(endOf(id)).toBe(true);
    expect((await readFile(join(host.folder, id))).equals(bytes)).toBe(true);
  });

  it('takes an empty file', async () => {
    const id = await begin(0);
    expect((await me.post(`/uploads/${id}`, Buffer.alloc(0), octets)).status).toBe(204);
    expect(endOf(id)).toBe(true);
  });

  it('passes on what the host said where it refuses', async () => {
    const answer = await me.post('/uploads', JSON.stringify({ name: 'refused.mp4', bytes: 5 }), json);
    expect(answer.status).toBe(507);
    expect(JSON.parse(answer.body.toString())).toEqual({
      trouble: { code: 'noSpace', message: 'No room for refused.mp4.' },
    });
  });

  it.each([
    'text/plain',
    'application/x-www-form-urlencoded',
    'multipart/form-data',
    'application/json; x=y',
    null,
  ])('begins with JSON only, not %s', async (type) => {
    const answer = await me.post('/uploads', '{"name":"a.mp4","bytes":1}', { 'content-type': type });
    expect(answer.status).toBe(415);
  });

  it.each([
    '',
    '{',
    'null',
    '[]',
    '{"name":"a.mp4"}',
    '{"name":"","bytes":1}',
    '{"name":"a.mp4","bytes":-1}',
    '{"name":"a.mp4","bytes":1.5}',
    '{"name":"a.mp4","bytes":1e400}',
    `{"name":"a.mp4","bytes":${String(2 ** 41)}}`,
    `{"name":"${'a'.repeat(256)}","bytes":1}`,
    '{"name":"a.mp4","bytes":1,"path":"/etc/passwd"}',
  ])('refuses %s', async (body) => {
    const answer = await me.post('/uploads', body, json);
    expect(answer.status).toBe(400);
    expect(answer.body.toString()).toContain('badInput');
  });

  it('refuses a long question', async () => {
    const { request, answered } = open('/uploads', json);
    request.end('x'.repeat(100_000));
    expect([413, 'cut']).toContain(await answered);
  });
});

describe('what does not come whole is thrown away', () => {
  it('a length other than was said', async () => {
    const id = await begin(10);
    const answer = await me.post(`/uploads/${id}`, Buffer.alloc(11), { ...octets, 'content-length': '11' });
    expect(answer.status).toBe(413);
    expect(endOf(id)).toBe(false);
  });

  it('more bytes than were said, in pieces', async () => {
    const id = await begin(10);
    const { request, answered } = open(`/uploads/${id}`, { 'transfer-encoding': 'chunked' });
    request.write(Buffer.alloc(8));
    request.end(Buffer.alloc(8));
    expect([413, 'cut']).toContain(await answered);
    await vi.waitFor(() => {
      expect(endOf(id)).toBe(false);
    });
  });

  it('fewer bytes than were said', async () => {
    const id = await begin(10);
    const { request, answered } = open(`/uploads/${id}`, { 'transfer-encoding': 'chunked' });
    request.end(Buffer.alloc(8));
    expect(await answered).toBe(413);
    expect(endOf(id)).toBe(false);
  });

  it('a connection that breaks', async () => {
    const id = await begin(1000);
    const { request, answered } = open(`/uploads/${id}`, { 'content-length': '1000' });
    request.write(Buffer.alloc(10));
    await vi.waitFor(async () => {
      expect((await readFile(join(host.folder, id))).length).toBe(10);
    });
    request.destroy();
    expect(await answered).toBe('cut');
    await vi.waitFor(() => {
      expect(endOf(id)).toBe(false);
    });
  });
});

describe('caps', () => {
  it('an upload that nobody opened is refused', async () => {
    expect((await me.post('/uploads/unknown', Buffer.alloc(1), octets)).status).toBe(404);
  });

  it('one stream an upload, and four at once', async () => {
    const ids = await Promise.all([begin(100), begin(100), begin(100), begin(100), begin(100)]);
    const streams = ids.slice(0, 4).map((id) => open(`/uploads/${id}`, { 'content-length': '100' }));
    for (const { request } of streams) request.write(Buffer.alloc(1));
    await vi.waitFor(async () => {
      for (const id of ids.slice(0, 4)) expect((await readFile(join(host.folder, id))).length).toBe(1);
    });
    expect((await me.post(`/uploads/${ids[0] ?? ''}`, Buffer.alloc(100), octets)).status).toBe(429);
    expect((await me.post(`/uploads/${ids[4] ?? ''}`, Buffer.alloc(100), octets)).status).toBe(429);
    for (const { request } of streams) request.end(Buffer.alloc(99));
    for (const { answered } of streams) expect(await answered).toBe(204);
    expect((await me.post(`/uploads/${ids[4] ?? ''}`, Buffer.alloc(100), octets)).status).toBe(204);
  });

  it('header blocks have an end', async () => {
    const answer = await me.get('/', { 'x-long': 'a'.repeat(20_000) });
    expect(answer.status).toBe(431);
  });
});

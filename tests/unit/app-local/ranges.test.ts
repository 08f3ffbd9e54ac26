import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { serveLoopback, type Loopback } from '../../../app/local/server.ts';
import { byteRange } from '../../../src/host/serving/byteRange.ts';
import { ask, visitor, type Visitor } from './browserLike.ts';
import { standInHost, type StandInHost } from './standInHost.ts';

describe('byteRange', () => {
  // RFC 9110, section 14.1.2: the standard's own examples, for a representation of 10,000 bytes.
  it.each([
    ['bytes=0-499', { first: 0, last: 499 }],
    ['bytes=500-999', { first: 500, last: 999 }],
    ['bytes=-500', { first: 9500, last: 9999 }],
    ['bytes=9500-', { first: 9500, last: 9999 }],
    ['bytes= 0-0', { first: 0, last: 0 }],
  ])('reads %s', (header, range) => {
    expect(byteRange(header, 10_000)).toEqual(range);
  });

  it.each([
    ['bytes=0-99999', { first: 0, last: 9999 }],
    ['bytes=9999-10000', { first: 9999, last: 9999 }],
    [`bytes=0-${'9'.repeat(400)}`, { first: 0, last: 9999 }],
    ['bytes=-99999', { first: 0, last: 9999 }],
    ['BYTES=1-2', { first: 1, last: 2 }],
  ])('keeps %s within the file', (header, range) => {
    expect(byteRange(header, 10_000)).toEqual(range);
  });

  it.each(['bytes=10000-', 'bytes=10000-20000', 'bytes=-0', `bytes=${'9'.repeat(400)}-`])(
    '%s lies outside the file',
    (header) => {
      expect(byteRange(header, 10_000)).toBe('unsatisfiable');
    },
  );

  it.each([
    null,
    undefined,
    '',
    'bytes',
    'bytes=',
    'bytes=-',
    'bytes=a-b',
    'bytes=5-2',
    'bytes=0-1,3-4',
    'lines=0-1',
  ])('%s is passed over', (header) => {
    expect(byteRange(header, 10_000)).toBe('whole');
  });

  it('an empty file has no range', () => {
    expect(byteRange('bytes=0-', 0)).toBe('unsatisfiable');
    expect(byteRange('bytes=-5', 0)).toBe('unsatisfiable');
  });
});

describe('media over loopback', () => {
  const bytes = Buffer.from(Array.from({ length: 300_000 }, (_, i) => i % 251));
  let host: StandInHost;
  let server: Loopback;
  let me: Visitor;
  let path = '';

  beforeAll(async () => {
    host = await standInHost();
    const front = { bytes: Buffer.from('x'), mime: 'text/html', lasting: false };
    server = await serveLoopback({ host: host.port, files: new Map([['/', front]]), port: 0 });
    me = await visitor(server);
    path = `/media/${await host.media(bytes, 'video/mp4')}`;
  });
  afterAll(async () => {
    await server.close();
    await host.remove();
  });

  it('gives the whole, and says that ranges work', async () => {
    const answer = await me.get(path);
    expect(answer.status).toBe(200);
    expect(answer.headers['accept-ranges']).toBe('bytes');
    expect(answer.headers['content-type']).toBe('video/mp4');
    expect(answer.body.equals(bytes)).toBe(true);
  });

  it.each([
    ['bytes=0-0', 0, 0],
    ['bytes=100000-199999', 100_000, 199_999],
    ['bytes=299999-', 299_999, 299_999],
    ['bytes=-10', 299_990, 299_999],
  ])('answers %s with 206 and exactly those bytes', async (range, first, last) => {
    const answer = await me.get(path, { range });
    expect(answer.status).toBe(206);
    expect(answer.headers['content-range']).toBe(`bytes ${String(first)}-${String(last)}/300000`);
    expect(answer.headers['content-length']).toBe(String(last - first + 1));
    expect(answer.body.equals(bytes.subarray(first, last + 1))).toBe(true);
  });

  it('answers a range outside the file with 416 and its length', async () => {
    const answer = await me.get(path, { range: 'bytes=300000-' });
    expect(answer.status).toBe(416);
    expect(answer.headers['content-range']).toBe('bytes */300000');
    expect(answer.body.length).toBe(0);
  });

  it('answers HEAD with the headers alone, range or not', async () => {
    const answer = await ask(server.place, path, {
      method: 'HEAD',
      headers: { ...me.headers, range: 'bytes=0-9' },
    });
    expect(answer.status).toBe(200);
    expect(answer.headers['content-length']).toBe('300000');
    expect(answer.body.length).toBe(0);
  });

  it('gives several ranges as the whole', async () => {
    const answer = await me.get(path, { range: 'bytes=0-1,5-6' });
    expect(answer.status).toBe(200);
    expect(answer.body.length).toBe(300_000);
  });

  it('says so where the file is gone, and an unknown id is no different', async () => {
    const { rm } = await import('node:fs/promises');
    const id = await host.media(Buffer.from('soon gone'), 'video/mp4');
    const found = await host.port.media(id);
    await rm(found?.path ?? '');
    expect((await me.get(`/media/${id}`)).status).toBe(404);
    expect((await me.get('/media/unknown')).status).toBe(404);
  });

  it('gives an empty file as nothing', async () => {
    const id = await host.media(Buffer.alloc(0), 'video/mp4');
    const answer = await me.get(`/media/${id}`);
    expect(answer.status).toBe(200);
    expect(answer.body.length).toBe(0);
  });
});

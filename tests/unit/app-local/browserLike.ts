import { request as httpRequest, type IncomingHttpHeaders } from 'node:http';
import { keyHeader } from '../../../src/host/contract/loopback.ts';
import type { Loopback } from '../../../app/local/server.ts';

export interface Answer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: Buffer;
}

export interface Ask {
  readonly method?: string;
  /** Headers; null takes a usual one away. */
  readonly headers?: Readonly<Record<string, string | null>>;
  readonly body?: Buffer | string;
}

/** Asks a server with exactly these headers, as no browser would. Follows nothing. */
export function ask(
  place: string,
  path: string,
  { method = 'GET', headers = {}, body }: Ask = {},
): Promise<Answer> {
  const [host = '', port = ''] = place.split(':');
  const sent = Object.fromEntries(Object.entries(headers).filter(([, value]) => value !== null)) as Record<
    string,
    string
  >;
  return new Promise((resolve, reject) => {
    const request = httpRequest({ host, port, path, method, headers: sent, agent: false }, (response) => {
      const chunks: Buffer[] = [];
      response.on('data', (chunk: Buffer) => chunks.push(chunk));
      response.on('end', () => {
        resolve({ status: response.statusCode ?? 0, headers: response.headers, body: Buffer.concat(chunks) });
      });
      response.on('error', reject);
    });
    request.on('error', reject);
    request.end(body);
  });
}

export const opening = {
  'sec-fetch-site': 'none',
  'sec-fetch-mode': 'navigate',
  'sec-fetch-dest': 'document',
} as const;

/** A window that has been let in: its cookie and key, and requests as its page makes them. */
export interface Visitor {
  readonly cookie: string;
  readonly key: string;
  readonly headers: Readonly<Record<string, string>>;
  get(path: string, headers?: Readonly<Record<string, string | null>>): Promise<Answer>;
  post(
    path: string,
    body: Buffer | string,
    headers?: Readonly<Record<string, string | null>>,
  ): Promise<Answer>;
}

/** Goes in by the address, as a browser does. */
export async function visitor(server: Loopback): Promise<Visitor> {
  const address = new URL(server.address());
  const entered = await ask(server.place, `${address.pathname}${address.search}`, { headers: opening });
  const cookie = (entered.headers['set-cookie']?.[0] ?? '').split(';')[0] ?? '';
  const key = (entered.headers.location ?? '').split('key=')[1] ?? '';
  const headers = {
    cookie,
    'sec-fetch-site': 'same-origin',
    'sec-fetch-mode': 'cors',
    'sec-fetch-dest': 'empty',
  };
  return {
    cookie,
    key,
    headers,
    get: (path, more = {}) => ask(server.place, path, { headers: { ...headers, ...more } }),
    post: (path, body, more = {}) =>
      ask(server.place, path, {
        method: 'POST',
        body,
        headers: { ...headers, origin: `http://${server.place}`, [keyHeader]: key, ...more },
      }),
  };
}

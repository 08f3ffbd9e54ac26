import type { IncomingHttpHeaders } from 'node:http';

/** What a request says about itself, as far as the guard looks. */
export interface Asked {
  readonly method: string;
  /** Path without its query. */
  readonly path: string;
  readonly headers: IncomingHttpHeaders;
  /** Host headers as they came; two of them are one too many. */
  readonly hosts: number;
}

export interface Refusal {
  readonly status: 400 | 403 | 405 | 415 | 421;
  readonly why: string;
}

/** Where the server is: "127.0.0.1:PORT". */
export type Place = string;

/**
 * The checks that every request passes before anything else is looked at. Null where it may go on.
 * - Host must be this very place: a name that was made to point here (DNS rebinding) is turned away.
 * - Sec-Fetch-Site must say that our own page asks. A page on another port of this machine is "same-site" to the
 *   browser, cookie included; only this header tells it apart. "none" (an address typed or opened) is for opening
 *   pages only. A client that sends no such header is no browser of today; it may open the front page, which holds
 *   nothing but the program, and nothing else.
 * - Anything but GET and HEAD must carry exactly our Origin.
 */
export function refusal(asked: Asked, place: Place): Refusal | null {
  const { method, headers } = asked;
  if (asked.hosts !== 1 || headers.host !== place)
    return { status: 421, why: 'This is not the place asked for.' };
  if (method !== 'GET' && method !== 'HEAD' && method !== 'POST')
    return { status: 405, why: 'Not done here.' };
  const site = headers['sec-fetch-site'];
  const opening =
    headers['sec-fetch-mode'] === 'navigate' &&
    headers['sec-fetch-dest'] === 'document' &&
    method === 'GET' &&
    headers['sec-purpose'] === undefined;
  const frontPage = site === undefined && asked.path === '/' && method !== 'POST';
  if (site !== 'same-origin' && !(site === 'none' && opening) && !frontPage)
    return { status: 403, why: 'Only Walkback’s own window may ask.' };
  const origin = headers.origin;
  if (method === 'POST' ? origin !== `http://${place}` : origin !== undefined && origin !== `http://${place}`)
    return { status: 403, why: 'Only Walkback’s own window may ask.' };
  return null;
}

/** The same for opening a web socket. Browsers always send Origin there, not all of them Sec-Fetch-Site. */
export function socketRefusal(asked: Asked, place: Place): Refusal | null {
  const { headers } = asked;
  if (asked.hosts !== 1 || headers.host !== place)
    return { status: 421, why: 'This is not the place asked for.' };
  const site = headers['sec-fetch-site'];
  if (
    asked.method !== 'GET' ||
    headers.origin !== `http://${place}` ||
    (site !== undefined && site !== 'same-origin')
  )
    return { status: 403, why: 'Only Walkback’s own window may ask.' };
  return null;
}

/** The value of one cookie, null where it is missing or given twice. */
export function cookieOf(header: string | undefined, name: string): string | null {
  const values = (header ?? '')
    .split(';')
    .map((part) => part.trim())
    .filter((part) => part.startsWith(`${name}=`))
    .map((part) => part.slice(name.length + 1));
  return values.length === 1 ? (values[0] ?? null) : null;
}

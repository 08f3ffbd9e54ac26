import type { MediaFile } from '../port.ts';
import { byteRange, type ByteRange } from './byteRange.ts';
import { mediaHeaders, reportHeaders, type Headers } from './policy.ts';

/** What to answer: status, headers and which bytes of the file, null for none. */
export interface FileAnswer {
  readonly status: 200 | 206 | 404 | 416;
  readonly headers: Headers;
  readonly range: ByteRange | null;
}

/** Kinds that the window shows. Markup, SVG among it, is never served as media. */
const showable = /^(?:video\/[\w.+-]+|audio\/[\w.+-]+|image\/(?:png|jpeg|webp))$/;

/**
 * The answer for footage, pictures and working copies by byte range.
 * @param method GET or HEAD
 * @param range the Range header as it came
 */
export function mediaAnswer(file: MediaFile, method: string, range: string | null | undefined): FileAnswer {
  const base: Headers = {
    ...mediaHeaders,
    'accept-ranges': 'bytes',
    'content-type': showable.test(file.mime) ? file.mime : 'application/octet-stream',
  };
  // RFC 9110, 14.2: a Range is defined for GET alone.
  const asked = method === 'GET' ? byteRange(range, file.bytes) : 'whole';
  if (asked === 'unsatisfiable') {
    return {
      status: 416,
      headers: { ...base, 'content-range': `bytes */${String(file.bytes)}`, 'content-length': '0' },
      range: null,
    };
  }
  if (asked === 'whole') {
    return {
      status: 200,
      headers: { ...base, 'content-length': String(file.bytes) },
      range: method === 'GET' && file.bytes > 0 ? { first: 0, last: file.bytes - 1 } : null,
    };
  }
  const { first, last } = asked;
  return {
    status: 206,
    headers: {
      ...base,
      'content-range': `bytes ${String(first)}-${String(last)}/${String(file.bytes)}`,
      'content-length': String(last - first + 1),
    },
    range: asked,
  };
}

/** The answer for a written report, whole. Other kinds of media are not found here. */
export function reportAnswer(file: MediaFile | null, method: string): FileAnswer {
  if (!file || !/^text\/html\b/.test(file.mime))
    return { status: 404, headers: { ...reportHeaders, 'content-length': '0' }, range: null };
  return {
    status: 200,
    headers: {
      ...reportHeaders,
      'content-type': 'text/html; charset=utf-8',
      'content-length': String(file.bytes),
    },
    range: method === 'GET' && file.bytes > 0 ? { first: 0, last: file.bytes - 1 } : null,
  };
}

/** Media ids are short and plain; anything else is not looked up. */
export const mediaIdShape = /^[\w-]{1,80}$/;

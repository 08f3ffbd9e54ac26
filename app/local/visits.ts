import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';

/** How long an opened address is good for, in milliseconds. */
export const tokenLife = 60_000;

/** More browsers than one person opens; the oldest visit ends where there are more. */
const mostVisits = 16;

/** What a browser holds after the exchange. */
export interface Visit {
  /** Travels as a cookie with every request. */
  readonly cookie: string;
  /**
   * Kept by the window itself. Cookies are shared by all ports of an address, so a server on another port can see
   * the cookie; it never sees this. Whatever touches the library asks for both.
   */
  readonly key: string;
}

/**
 * The one-time tokens in the addresses that are printed or opened, and the visits they were exchanged for.
 * Secrets are kept as hashes and compared in constant time.
 * @param now milliseconds on a clock that does not jump
 */
export class Visits {
  readonly #now: () => number;
  readonly #tokens = new Map<string, number>();
  readonly #visits: { readonly cookie: Buffer; readonly key: Buffer }[] = [];

  constructor(now: () => number = () => performance.now()) {
    this.#now = now;
  }

  /** A new token, good once and for a minute. */
  token(): string {
    const token = secret();
    for (const [hash, end] of this.#tokens) if (end <= this.#now()) this.#tokens.delete(hash);
    this.#tokens.set(hashOf(token).toString('hex'), this.#now() + tokenLife);
    return token;
  }

  /** Exchanges a token for a visit; null where it is unknown, used or too old. */
  exchange(token: string): Visit | null {
    const hash = hashOf(token).toString('hex');
    const end = this.#tokens.get(hash);
    this.#tokens.delete(hash);
    if (end === undefined || end <= this.#now()) return null;
    const visit: Visit = { cookie: secret(), key: secret() };
    this.#visits.push({ cookie: hashOf(visit.cookie), key: hashOf(visit.key) });
    if (this.#visits.length > mostVisits) this.#visits.shift();
    return visit;
  }

  /** Whether a cookie belongs to a visit. */
  hasCookie(cookie: string | null): boolean {
    if (cookie === null) return false;
    const hash = hashOf(cookie);
    return this.#visits.some((v) => timingSafeEqual(v.cookie, hash));
  }

  /** Whether a cookie and a key belong to one and the same visit. */
  has(cookie: string | null, key: string | null): boolean {
    if (cookie === null || key === null) return false;
    const cookieHash = hashOf(cookie);
    const keyHash = hashOf(key);
    return this.#visits.some((v) => timingSafeEqual(v.cookie, cookieHash) && timingSafeEqual(v.key, keyHash));
  }
}

/** 256 bits of chance, in letters that are safe in an address, a header and a cookie. */
function secret(): string {
  return randomBytes(32).toString('base64url');
}

function hashOf(text: string): Buffer {
  return createHash('sha256').update(text).digest();
}

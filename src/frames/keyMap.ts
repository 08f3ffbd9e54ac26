/**
 * What is known about where decoding can begin: for each frame the first frame of its group of pictures. It fills as
 * the clip is read, since asking about a whole long clip would mean reading all of it.
 */
export class KeyMap {
  /** First frames of groups, rising, and the last frame known to belong to each. */
  readonly #keys: number[] = [];
  readonly #ends: number[] = [];

  /** Notes that decoding for `frame` begins at `key`: so it does for every frame between. */
  learn(frame: number, key: number): void {
    const place = this.#place(key);
    if (this.#keys[place] === key) {
      this.#ends[place] = Math.max(this.#ends[place] ?? key, frame);
      return;
    }
    this.#keys.splice(place + 1, 0, key);
    this.#ends.splice(place + 1, 0, Math.max(key, frame));
  }

  /** First frame of the group that `frame` belongs to; undefined while that is not known. */
  firstFrom(frame: number): number | undefined {
    const place = this.#place(frame);
    const key = this.#keys[place];
    return key !== undefined && frame <= (this.#ends[place] ?? -1) ? key : undefined;
  }

  /** Place of the last known key at or before a frame; -1 where there is none. */
  #place(frame: number): number {
    let low = -1;
    let high = this.#keys.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((this.#keys[middle] ?? Infinity) <= frame) low = middle;
      else high = middle - 1;
    }
    return low;
  }
}

/**
 * A list of presentation times as bytes: each a 64-bit IEEE 754 number, least byte first. A tick is a whole number
 * below 2^53, which such a number holds exactly.
 */
export function packTicks(ticks: readonly number[]): Buffer {
  const bytes = Buffer.alloc(ticks.length * 8);
  ticks.forEach((tick, i) => bytes.writeDoubleLE(tick, i * 8));
  return bytes;
}

/** The list again. Throws a RangeError where the bytes are cut short. */
export function unpackTicks(bytes: Buffer): number[] {
  if (bytes.length % 8 !== 0) throw new RangeError('The list of frame times is cut short');
  return Array.from({ length: bytes.length / 8 }, (_, i) => bytes.readDoubleLE(i * 8));
}

/**
 * Takes a stream of JPEG pictures apart (ITU-T T.81, annex B): each starts at SOI and ends at EOI. Marker segments carry
 * their length and are stepped over; in coded data an FF byte is followed by 00 or a restart marker, so the first
 * other marker ends it.
 */
export function splitJpegs(bytes: Buffer): Buffer[] {
  const list: Buffer[] = [];
  let start = 0;
  while (start + 4 <= bytes.length) {
    const end = jpegEnd(bytes, start);
    if (end === null) break;
    list.push(bytes.subarray(start, end));
    start = end;
  }
  return list;
}

/** Where the picture that starts at `start` ends, or null where it is not whole. */
function jpegEnd(bytes: Buffer, start: number): number | null {
  if (bytes[start] !== 0xff || bytes[start + 1] !== 0xd8) return null;
  let at = start + 2;
  while (at + 2 <= bytes.length) {
    if (bytes[at] !== 0xff) return null;
    const marker = bytes[at + 1] ?? 0;
    if (marker === 0xd9) return at + 2;
    if (marker === 0xff) {
      at++;
      continue;
    }
    if (at + 4 > bytes.length) return null;
    at += 2 + bytes.readUInt16BE(at + 2);
    if (marker !== 0xda) continue;
    // Coded data follows a start of scan.
    for (;;) {
      const next = bytes.indexOf(0xff, at);
      if (next < 0 || next + 1 >= bytes.length) return null;
      const after = bytes[next + 1] ?? 0;
      at = next;
      if (after !== 0 && !(after >= 0xd0 && after <= 0xd7) && after !== 0xff) break;
      at = next + (after === 0xff ? 1 : 2);
    }
  }
  return null;
}

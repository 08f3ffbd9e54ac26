/** A JPEG without what cameras and programs write beside the picture. */
export interface BareJpeg {
  readonly bytes: Uint8Array;
  readonly width: number;
  readonly height: number;
}

/**
 * Takes everything out of a JPEG but the picture: application segments (Exif with place and device, XMP, colour
 * profiles) and comments go; JFIF (APP0) and Adobe's colour note (APP14) stay, since decoders need them.
 * Null where the bytes are no whole JPEG. Markers: ITU-T T.81, table B.1 and B.1.1.
 */
export function bareJpeg(jpeg: Uint8Array): BareJpeg | null {
  if (jpeg[0] !== 0xff || jpeg[1] !== 0xd8) return null;
  const kept: Uint8Array[] = [jpeg.subarray(0, 2)];
  let size: { width: number; height: number } | null = null;
  let at = 2;
  while (at + 4 <= jpeg.length) {
    if (jpeg[at] !== 0xff) return null;
    const marker = jpeg[at + 1] ?? 0;
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (marker === 0xda) {
      kept.push(jpeg.subarray(at));
      return size && { bytes: joined(kept), ...size };
    }
    const length = two(jpeg, at + 2);
    const end = at + 2 + length;
    if (length < 2 || end > jpeg.length) return null;
    if (isFrameHeader(marker)) size = { height: two(jpeg, at + 5), width: two(jpeg, at + 7) };
    const beside = (marker >= 0xe1 && marker <= 0xef && marker !== 0xee) || marker === 0xfe;
    if (!beside) kept.push(jpeg.subarray(at, end));
    at = end;
  }
  return null;
}

/** Start-of-frame markers: C0 to CF without the tables C4 and CC and the reserved C8. */
function isFrameHeader(marker: number): boolean {
  return marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;
}

function two(bytes: Uint8Array, at: number): number {
  return ((bytes[at] ?? 0) << 8) | (bytes[at + 1] ?? 0);
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(parts.reduce((sum, p) => sum + p.length, 0));
  let at = 0;
  for (const p of parts) {
    all.set(p, at);
    at += p.length;
  }
  return all;
}

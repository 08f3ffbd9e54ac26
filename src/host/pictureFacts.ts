import { imageSize } from 'image-size';

interface PictureKind {
  readonly mime: string;
  readonly ending: string;
}

const signatures: readonly (PictureKind & { fits(bytes: Uint8Array): boolean })[] = [
  // PNG: W3C, Portable Network Graphics (Third Edition), 5.2.
  { mime: 'image/png', ending: '.png', fits: startsWith([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]) },
  // JPEG: ITU-T T.81, B.1.1.3: start of image, then a marker.
  { mime: 'image/jpeg', ending: '.jpg', fits: startsWith([0xff, 0xd8, 0xff]) },
  // WebP: RFC 9649, 2.4: "RIFF", four bytes of size, "WEBP".
  {
    mime: 'image/webp',
    ending: '.webp',
    fits: (b) =>
      startsWith([0x52, 0x49, 0x46, 0x46])(b) && startsWith([0x57, 0x45, 0x42, 0x50])(b.subarray(8)),
  },
];

/** What kind of picture these bytes are, by their first ones; null where Walkback keeps no such kind. */
export function pictureKind(bytes: Uint8Array): PictureKind | null {
  const found = signatures.find((s) => s.fits(bytes));
  return found ? { mime: found.mime, ending: found.ending } : null;
}

/** True of the HEIF family, which phones write and windows do not show (ISO/IEC 23008-12, 10.2: its brands). */
export function isHeic(bytes: Uint8Array): boolean {
  const head = String.fromCharCode(...bytes.subarray(4, 12));
  return /^ftyp(hei[cxms]|hev[cxms]|mif1|msf1|avif)$/.test(head);
}

/** Width and height of the upright picture in pixels, or null where they cannot be read. */
export function pictureSize(bytes: Uint8Array): { width: number; height: number } | null {
  try {
    const { width, height, orientation = 1 } = imageSize(bytes);
    if (!(width > 0 && height > 0)) return null;
    // Exif orientations 5 to 8 lie on their side (CIPA DC-008, 4.6.5).
    return orientation >= 5 ? { width: height, height: width } : { width, height };
  } catch {
    return null;
  }
}

function startsWith(start: readonly number[]): (bytes: Uint8Array) => boolean {
  return (bytes) => start.every((byte, i) => bytes[i] === byte);
}

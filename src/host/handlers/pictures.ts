import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { hostTroubles } from '../../words/hostTroubles.ts';
import { fileSize } from '../../words/locale.ts';
import type { CallHandler } from '../desk.ts';
import { given } from '../fileSource.ts';
import { isPdf, pdfPage } from '../pdfPage/pdfPage.ts';
import { isHeic, pictureKind, pictureSize } from '../pictureFacts.ts';
import { trouble } from '../troubles.ts';
import { writeWhole } from '../wholeFile.ts';

/** Largest picture that is kept: bytes, and pixels along either edge. */
const mostBytes = 64 * 1024 * 1024;
const mostEdge = 20_000;
/** Largest picture that a window can show without running out of memory. Phones make up to 108 million pixels. */
const mostPixels = 120_000_000;

export const pictureKeep: CallHandler<'picture.keep'> = async (desk, { source, page }) => {
  const file = await given(desk, source);
  try {
    if (file.bytes > mostBytes) throw tooLarge(file.name, fileSize(mostBytes));
    const { bytes, pages } = await pictureIn(file.name, await readFile(file.path), page);
    const kind = pictureKind(bytes);
    if (!kind)
      throw trouble(
        'badInput',
        (isHeic(bytes) ? hostTroubles.pictureHeic : hostTroubles.pictureKind)(file.name),
      );
    const size = pictureSize(bytes);
    if (!size) throw trouble('badInput', hostTroubles.pictureDamaged(file.name));
    if (Math.max(size.width, size.height) > mostEdge) throw tooLarge(file.name, `${mostEdge} × ${mostEdge}`);
    if (size.width * size.height > mostPixels) throw tooLarge(file.name, hostTroubles.megapixels(mostPixels));

    const id = createHash('sha256').update(bytes).digest('hex');
    const place = join(desk.library.layout.pictures, `${id}${kind.ending}`);
    await writeWhole(place, bytes);
    const kept = desk.library.pictures.add({
      id,
      name: file.name.slice(0, 255),
      file: `${id}${kind.ending}`,
      mime: kind.mime,
      ...size,
      bytes: bytes.length,
    });
    const { name, width, height } = kept;
    return { pictureId: id, name, width, height, mediaId: desk.media.idFor(place), pages };
  } finally {
    if (file.uploadId !== null) await desk.uploads.forget(file.uploadId);
  }
};

export const pictureMedia: CallHandler<'picture.media'> = (desk, { pictureId }) => {
  const picture = desk.library.pictures.get(pictureId);
  if (!picture) throw trouble('notFound', hostTroubles.unknownPicture);
  return { mediaId: desk.media.idFor(join(desk.library.layout.pictures, picture.file)) };
};

/** The bytes of a picture as they are, or of the page of a PDF that is wanted, drawn. */
async function pictureIn(
  name: string,
  bytes: Buffer,
  page: number,
): Promise<{ readonly bytes: Uint8Array; readonly pages: number }> {
  if (!isPdf(bytes)) return { bytes, pages: 1 };
  const drawn = await pdfPage({ bytes, page });
  if (drawn.ok) return { bytes: drawn.picture, pages: drawn.pages };
  throw trouble(
    'badInput',
    drawn.why === 'noSuchPage'
      ? hostTroubles.pdfPage(name, page, drawn.pages)
      : hostTroubles.pdf[drawn.why](name),
  );
}

const tooLarge = (name: string, most: string) =>
  trouble('badInput', hostTroubles.pictureTooLarge(name, most));

import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { hostTroubles } from '../../words/hostTroubles.ts';
import { fileSize } from '../../words/locale.ts';
import type { CallHandler } from '../desk.ts';
import { given } from '../fileSource.ts';
import { pictureKind, pictureSize } from '../pictureFacts.ts';
import { trouble } from '../troubles.ts';
import { writeWhole } from '../wholeFile.ts';

/** Largest picture that is kept: bytes, and pixels along either edge. */
const mostBytes = 64 * 1024 * 1024;
const mostEdge = 20_000;

export const pictureKeep: CallHandler<'picture.keep'> = async (desk, { source }) => {
  const file = await given(desk, source);
  try {
    if (file.bytes > mostBytes) throw tooLarge(file.name, fileSize(mostBytes));
    const bytes = await readFile(file.path);
    const kind = pictureKind(bytes);
    if (!kind) throw trouble('badInput', hostTroubles.pictureKind(file.name));
    const size = pictureSize(bytes);
    if (!size) throw trouble('badInput', hostTroubles.pictureDamaged(file.name));
    if (Math.max(size.width, size.height) > mostEdge) throw tooLarge(file.name, `${mostEdge} × ${mostEdge}`);

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
    return { pictureId: id, name, width, height, mediaId: desk.media.idFor(place) };
  } finally {
    if (file.uploadId !== null) await desk.uploads.forget(file.uploadId);
  }
};

export const pictureMedia: CallHandler<'picture.media'> = (desk, { pictureId }) => {
  const picture = desk.library.pictures.get(pictureId);
  if (!picture) throw trouble('notFound', hostTroubles.unknownPicture);
  return { mediaId: desk.media.idFor(join(desk.library.layout.pictures, picture.file)) };
};

const tooLarge = (name: string, most: string) =>
  trouble('badInput', hostTroubles.pictureTooLarge(name, most));

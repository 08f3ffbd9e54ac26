/** A stretch of a file, both ends included, in bytes. */
export interface ByteRange {
  readonly first: number;
  readonly last: number;
}

/**
 * Reads a Range header for a file of `size` bytes (RFC 9110, section 14.1.2 and 14.2). One range of bytes is
 * answered; anything that is no single, well-formed byte range is passed over, as the standard allows.
 * @returns the range; `whole` where there is none to heed; `unsatisfiable` where it lies outside the file (416)
 */
export function byteRange(
  header: string | null | undefined,
  size: number,
): ByteRange | 'whole' | 'unsatisfiable' {
  const match = /^bytes=[ \t]*(\d*)-(\d*)[ \t]*$/i.exec(header ?? '');
  if (!match) return 'whole';
  const [, from = '', to = ''] = match;
  if (from === '' && to === '') return 'whole';
  if (from === '') {
    const length = Math.min(Number(to), size);
    return length === 0 ? 'unsatisfiable' : { first: size - length, last: size - 1 };
  }
  const first = Number(from);
  if (to !== '' && first > Number(to)) return 'whole';
  if (first >= size) return 'unsatisfiable';
  return { first, last: to === '' ? size - 1 : Math.min(Number(to), size - 1) };
}

import { boxAt, boxesIn, type Box } from './isoBoxes.ts';

/**
 * Whole numbers of one byte among the movie's metadata (Apple, QuickTime File Format Specification, "Metadata": `keys`
 * and `ilst`; well-known types 65, 75 and, of one byte, 21 and 22), by key. ffprobe tells text, floats and longer
 * numbers; these it leaves out. Damaged metadata is left out too.
 */
export function smallNumbersByKey(bytes: Buffer, moov: Box): Map<string, number> {
  const found = new Map<string, number>();
  const meta = boxAt(bytes, moov, 'meta');
  if (!meta || meta.body + 12 > meta.end) return found;
  // ISO files begin it with a version; QuickTime files do not.
  const bare = bytes.toString('latin1', meta.body + 4, meta.body + 8) === 'hdlr';
  const inside = { ...meta, body: meta.body + (bare ? 0 : 4) };
  const keys = boxAt(bytes, inside, 'keys');
  const list = boxAt(bytes, inside, 'ilst');
  if (!keys || !list || keys.body + 8 > keys.end) return found;
  const names = boxesIn(bytes, keys.body + 8, keys.end).map((b) => bytes.toString('utf8', b.body, b.end));
  for (const entry of boxesIn(bytes, list.body, list.end)) {
    const name = names[bytes.readUInt32BE(entry.start + 4) - 1];
    const data = boxAt(bytes, entry, 'data');
    if (name === undefined || data?.end !== (data?.body ?? 0) + 9) continue;
    const type = bytes.readUInt32BE(data.body);
    const value = bytes.readUInt8(data.body + 8);
    if (type === 75 || type === 22) found.set(name, value);
    if (type === 65 || type === 21) found.set(name, (value << 24) >> 24);
  }
  return found;
}

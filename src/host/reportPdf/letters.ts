import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';

/** How heavy letters are. */
export type Weight = 'regular' | 'strong';

/** Ours first; then, for letters that it does not have, Hebrew, Arabic and signs. All SIL Open Font License 1.1. */
const files = {
  regular: '@expo-google-fonts/source-sans-3/400Regular/SourceSans3_400Regular.ttf',
  strong: '@expo-google-fonts/source-sans-3/600SemiBold/SourceSans3_600SemiBold.ttf',
  hebrew: '@expo-google-fonts/noto-sans-hebrew/400Regular/NotoSansHebrew_400Regular.ttf',
  arabic: '@expo-google-fonts/noto-sans-arabic/400Regular/NotoSansArabic_400Regular.ttf',
  signs: '@expo-google-fonts/noto-emoji/400Regular/NotoEmoji_400Regular.ttf',
} as const;
export type FontName = keyof typeof files;
const others = ['hebrew', 'arabic', 'signs'] as const;

const read = new Map<FontName, Buffer>();

/** The bytes of a font, read once. */
export function fontBytes(name: FontName): Buffer {
  const known = read.get(name);
  if (known) return known;
  const bytes = readFileSync(createRequire(import.meta.url).resolve(files[name]));
  read.set(name, bytes);
  return bytes;
}

/** Text that one font has all letters of. */
export interface Piece {
  readonly text: string;
  readonly font: FontName;
}

/**
 * Text in pieces of one font each. What no font has stands as an empty box; signs that only join or vary others, and
 * those that turn the direction of what follows, are left out where the font does not know them.
 * @param has whether a font has a letter
 */
export function inFonts(
  text: string,
  weight: Weight,
  has: (font: FontName, point: number) => boolean,
): readonly Piece[] {
  const pieces: { text: string; font: FontName }[] = [];
  for (const letter of text) {
    const point = letter.codePointAt(0) ?? 0;
    const last = pieces.at(-1);
    const font = letter === '\n' ? weight : [weight, ...others].find((f) => has(f, point));
    const unseen = /^\p{Cc}$/u.test(letter)
      ? letter !== '\n'
      : font === undefined && /^[\p{Cf}\p{Mn}]$/u.test(letter);
    if (unseen) continue;
    const [name, shown] = font === undefined ? [weight, '\u25a1'] : [font, letter];
    if (last?.font === name) last.text += shown;
    else pieces.push({ text: shown, font: name });
  }
  return wordsTogether(pieces);
}

/** Words of one script with the spaces between them: they are laid out together, in the direction of the script. */
function wordsTogether(pieces: readonly Piece[]): readonly Piece[] {
  const all: Piece[] = [];
  for (const piece of pieces) {
    const [before, space] = all.slice(-2);
    const same = before?.font === piece.font && (piece.font === 'hebrew' || piece.font === 'arabic');
    if (same && space && space.text.trim() === '')
      all.splice(-2, 2, { text: before.text + space.text + piece.text, font: piece.font });
    else all.push(piece);
  }
  return all;
}

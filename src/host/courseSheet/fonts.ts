import { createRequire } from 'node:module';
import { GlobalFonts } from '@napi-rs/canvas';

/** The name under which the font is known to the canvas: no font of the machine's has it. */
const ownName = 'Walkback Sans';
/** For letters that Source Sans does not have; what the machine has of them. */
export const fontFamily = `"${ownName}", "Noto Sans", sans-serif`;

const files = [
  '@expo-google-fonts/source-sans-3/400Regular/SourceSans3_400Regular.ttf',
  '@expo-google-fonts/source-sans-3/600SemiBold/SourceSans3_600SemiBold.ttf',
] as const;

/** Fonts for letters that Source Sans does not have, by the name under which the canvas knows them. */
const others = {
  'Walkback Hebrew': '@expo-google-fonts/noto-sans-hebrew/400Regular/NotoSansHebrew_400Regular.ttf',
  'Walkback Arabic': '@expo-google-fonts/noto-sans-arabic/400Regular/NotoSansArabic_400Regular.ttf',
  'Walkback Signs': '@expo-google-fonts/noto-emoji/400Regular/NotoEmoji_400Regular.ttf',
} as const;
/** For words that people wrote, whatever their script. */
export const anyLetters = [
  `"${ownName}"`,
  ...Object.keys(others).map((name) => `"${name}"`),
  fontFamily,
].join(', ');

let ready = false;

/** Makes Source Sans 3 known to the canvas, once. It is embedded in what is written (SIL Open Font License 1.1). */
export function makeFontsReady(): void {
  if (ready) return;
  const { resolve } = createRequire(import.meta.url);
  for (const file of files) {
    if (!GlobalFonts.registerFromPath(resolve(file), ownName))
      throw new Error(`the font ${file} could not be read`);
  }
  ready = true;
}

let allReady = false;

/** The same, and the fonts of `anyLetters`. */
export function makeLettersReady(): void {
  makeFontsReady();
  if (allReady) return;
  const { resolve } = createRequire(import.meta.url);
  for (const [name, file] of Object.entries(others)) {
    if (!GlobalFonts.registerFromPath(resolve(file), name))
      throw new Error(`the font ${file} could not be read`);
  }
  allReady = true;
}

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

import type { ColourFacts } from './clipProbe.ts';

/** Options by which a file that is encoded anew says the same of its colours as the clip it comes from. */
export function colourKept({ primaries, transfer, matrix: stated }: ColourFacts): string[] {
  // Red, green and blue become luma and chroma by ffmpeg's default matrix.
  const matrix = stated === 'gbr' ? 'smpte170m' : stated;
  return [
    ...(primaries ? ['-color_primaries', primaries] : []),
    ...(transfer ? ['-color_trc', transfer] : []),
    ...(matrix ? ['-colorspace', matrix] : []),
    ...['-color_range', 'tv'],
  ];
}

import type { Caption } from './captions.ts';

/**
 * Captions as WebVTT (W3C), in the order they begin. Text is shown as written: what means something to a reader of
 * WebVTT is escaped, and a line break stands for several.
 */
export function webVtt(captions: readonly Caption[]): string {
  const cues = captions
    .toSorted((a, b) => a.from - b.from)
    .map(({ from, to, text }) => `${stamp(from)} --> ${stamp(to)}\n${cueText(text)}\n`);
  return ['WEBVTT\n', ...cues].join('\n');
}

/** hh:mm:ss.mmm; hours have as many digits as they need, at least two. */
function stamp(seconds: number): string {
  const all = Math.round(Math.max(0, seconds) * 1000);
  const two = (n: number): string => String(n).padStart(2, '0');
  const [hours, minutes] = [Math.floor(all / 3_600_000), Math.floor(all / 60_000) % 60];
  return `${two(hours)}:${two(minutes)}:${two(Math.floor(all / 1000) % 60)}.${String(all % 1000).padStart(3, '0')}`;
}

const cueText = (text: string): string =>
  text
    .replace(/[\r\n\0]+/g, '\n')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .trim();

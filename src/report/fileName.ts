import type { Header } from '../review/document.ts';
import { coachingReport as words } from '../words/coachingReport.ts';
import { overlineOf, type ReportCopy } from './copies.ts';
import { maskFor } from './names.ts';

/** Longest stem in bytes of UTF-8: leaves room for a number and the ending within the 255 of common file systems. */
const longest = 150;

/**
 * A file name for the report of this review, without folder and ending: the title in letters and digits of any script.
 * Nothing in it can leave the folder, hide the file, or mean something to a shell or to Windows.
 */
export function reportFileStem(
  header: Header,
  { short, copy }: { readonly short: boolean; readonly copy: ReportCopy } = { short: false, copy: 'student' },
): string {
  const cut = fileStem(maskFor(header)(header.title));
  const told = overlineOf(copy, short ? words.shortOverline : words.overline);
  const kind = fileStem(told.toLocaleLowerCase());
  return `${cut === '' ? '' : `${cut}-`}${kind}`;
}

/** A text as the stem of a file name: letters and digits of any script, with hyphens between; empty where it has none. */
export function fileStem(text: string): string {
  const stem = text
    .normalize('NFC')
    .replace(/[^\p{L}\p{M}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '');
  return shortened(stem).replace(/-+$/, '');
}

function shortened(text: string): string {
  let bytes = 0;
  let kept = '';
  for (const c of text) {
    const point = c.codePointAt(0) ?? 0;
    bytes += point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4;
    if (bytes > longest) break;
    kept += c;
  }
  return kept;
}

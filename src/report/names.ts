import type { Header } from '../review/document.ts';
import { coachingReport as words } from '../words/coachingReport.ts';

/** Rewrites a text so that the team's names are left out where the coach asked for it; else leaves it alone. */
export type Mask = (text: string) => string;

/**
 * Names left out: every whole-word occurrence of the dog's or handler's name, or of a part of it of three letters
 * or more, is replaced by "the dog" or "the handler", whatever its case. It cannot know nicknames.
 */
export function maskFor(header: Header): Mask {
  if (!header.words.leaveNamesOut) return (text) => text;
  const replacements = [
    ...namesIn(header.handler).map((name) => ({ name, by: words.someHandler })),
    ...namesIn(header.dog).map((name) => ({ name, by: words.someDog })),
  ].sort((a, b) => b.name.length - a.name.length);
  if (replacements.length === 0) return (text) => text;
  const by = new Map(replacements.map((r) => [r.name.toLocaleLowerCase(), r.by]));
  const any = replacements.map((r) => r.name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')).join('|');
  const pattern = new RegExp(`(?<![\\p{L}\\p{N}])(?:${any})(?![\\p{L}\\p{N}])`, 'giu');
  return (text) => text.replace(pattern, (hit) => by.get(hit.toLocaleLowerCase()) ?? words.someDog);
}

function namesIn(name: string): string[] {
  const whole = name.trim();
  if (whole === '') return [];
  const parts = whole
    .split(/[\s"“”(),]+/u)
    .map((p) => p.replace(/^['‘’]+|['‘’]+$/g, ''))
    .filter((p) => [...p].length >= 3 && p !== whole);
  return [whole, ...parts];
}

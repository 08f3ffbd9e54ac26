import type { z } from 'zod';
import { issueTold, problemWords } from '../../words/problems.ts';

/** A kind of JSON file that is handed over, and what is said where one is not as it should be. */
export interface HandedForm<S extends z.ZodType> {
  readonly format: string;
  /** The newest version that is read. */
  readonly version: number;
  /** Most characters that are read. */
  readonly largest: number;
  /** Problems told at once; a file of ten thousand mistakes is told by its first few. */
  readonly mostTold?: number;
  readonly schema: S;
  readonly words: {
    readonly tooLarge: (characters: number, most: number) => string;
    /** Said of a file of another format; null where it names none. */
    readonly notThis: (format: string | null) => string;
    readonly tooNew: (version: number, known: number) => string;
    /** Said of a file that names no version; absent: as the schema has it. */
    readonly noSuchVersion?: (known: number) => string;
  };
  /** Makes the newest version of an older one. */
  readonly broughtUp?: (raw: Readonly<Record<string, unknown>>) => unknown;
  /** What does not fit together in a file whose shape is right. */
  readonly problems?: (value: z.output<S>) => readonly string[];
}

/** Why a file was not taken in: sentences, one a problem. */
export interface NotHandedIn {
  readonly ok: false;
  readonly code: 'badInput' | 'tooNew';
  readonly problems: readonly string[];
}

export type HandedIn<T> = { readonly ok: true; readonly value: T } | NotHandedIn;

/**
 * Reads a JSON file that somebody wrote. Never throws: what is wrong comes back as sentences, one a problem, and the
 * count of those that are left out. Checked: size, JSON, format and version, schema, and that its parts fit together.
 */
export function readHandedIn<S extends z.ZodType>(text: string, form: HandedForm<S>): HandedIn<z.output<S>> {
  const { format, version, largest, mostTold = 20, schema, words, broughtUp, problems } = form;
  const bad = (all: readonly string[]): NotHandedIn => notHandedIn(all, mostTold);
  if (text.length > largest) return bad([words.tooLarge(text.length, largest)]);
  if (text.trim() === '') return bad([problemWords.empty]);
  let raw: unknown;
  try {
    raw = JSON.parse(text.startsWith('\uFEFF') ? text.slice(1) : text);
  } catch (error) {
    return bad([problemWords.notJson(error instanceof Error ? error.message : String(error))]);
  }
  if (!isRecord(raw) || raw['format'] !== format) return bad([words.notThis(formatOf(raw))]);
  const written = raw['version'];
  if (typeof written === 'number' && written > version)
    return { ok: false, code: 'tooNew', problems: [words.tooNew(written, version)] };
  const { noSuchVersion } = words;
  if (noSuchVersion && written !== version && !broughtUp) return bad([noSuchVersion(version)]);
  const parsed = schema.safeParse(broughtUp ? broughtUp(raw) : raw);
  if (!parsed.success) return bad(parsed.error.issues.map(issueTold));
  const found = problems?.(parsed.data) ?? [];
  return found.length > 0 ? bad(found) : { ok: true, value: parsed.data };
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const formatOf = (raw: unknown): string | null => {
  const format = isRecord(raw) ? raw['format'] : undefined;
  return typeof format === 'string' ? format : null;
};

function notHandedIn(problems: readonly string[], most: number): NotHandedIn {
  const left = problems.length - most;
  const told = left > 0 ? [...problems.slice(0, most), problemWords.more(left)] : problems;
  return { ok: false, code: 'badInput', problems: told };
}

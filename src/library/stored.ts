import type { z } from 'zod';
import { entityBodies, type EntityBody, type EntityKind } from '../review/entities.ts';
import { libraryTroubles } from '../words/libraryTroubles.ts';
import { LibraryTrouble } from './trouble.ts';

/** The value as its JSON text gives it back: what the store would return. */
export const asStored = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T;

/**
 * Reads a body that was stored as JSON text.
 * Throws LibraryTrouble `damaged` that says where it lies, never what SQLite or the parser threw.
 */
export function readBody<S extends z.ZodType>(schema: S, text: string, where: string): z.output<S> {
  let raw: unknown;
  try {
    raw = JSON.parse(text);
  } catch {
    throw new LibraryTrouble('damaged', libraryTroubles.textDamaged(where));
  }
  const parsed = schema.safeParse(raw);
  if (!parsed.success) {
    throw new LibraryTrouble('damaged', libraryTroubles.formDamaged(where, firstProblem(parsed.error)));
  }
  return parsed.data;
}

/** Checks a body on its way in. Throws LibraryTrouble `badInput`. */
export function checkBody<K extends EntityKind>(kind: K, body: unknown): EntityBody<K> {
  const parsed = entityBodies[kind].safeParse(body);
  if (!parsed.success) {
    throw new LibraryTrouble('badInput', libraryTroubles.cannotBeKept(kind, firstProblem(parsed.error)));
  }
  return parsed.data as EntityBody<K>;
}

/** The first thing that is wrong, with its place in the document. */
export function firstProblem(error: z.ZodError): string {
  const issue = error.issues[0];
  if (!issue) return 'it does not have the expected form';
  const place = issue.path.map(String).join('.');
  const text = issue.message.replace(/\.$/, '');
  return place === '' ? text : `${place}: ${text}`;
}

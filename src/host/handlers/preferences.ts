import { Preferences } from '../contract/shapes.ts';
import { makeRoom } from '../copyStore.ts';
import type { CallHandler } from '../desk.ts';
import { readPreferences, writePreferences } from '../preferences.ts';

export const preferencesGet: CallHandler<'preferences.get'> = (desk) => readPreferences(desk.library.notes);

/** A window whose paths are not trusted may give folders away but not take new ones: it would let itself in. */
export const preferencesSet: CallHandler<'preferences.set'> = async (desk, { preferences }) => {
  const before = readPreferences(desk.library.notes);
  const allowedFolders = desk.allowed.trustsPaths
    ? preferences.allowedFolders
    : preferences.allowedFolders.filter((f) => before.allowedFolders.includes(f));
  const kept = writePreferences(desk.library.notes, Preferences.parse({ ...preferences, allowedFolders }));
  desk.hub.preferencesChanged();
  if (kept.copiesMost < before.copiesMost) await makeRoom(desk);
  return kept;
};

import type { Notes } from '../library/notes.ts';
import { LibraryTrouble } from '../library/trouble.ts';
import { KeptReadingThresholds } from '../line/reading/thresholds.ts';
import { ExerciseList } from '../review/exercise.ts';
import { Preferences } from './contract/shapes.ts';

const version = 1;

/**
 * As they are stored: a threshold that does not fit any more costs the coach that one figure, and exercises that cannot
 * be read their list, not all she has set.
 */
const KeptPreferences = Preferences.extend({
  reading: KeptReadingThresholds.prefault({}),
  exercises: ExerciseList.catch(undefined),
});

/** The coach's preferences; the usual ones where none are stored or what is stored cannot be read. */
export function readPreferences(notes: Notes): Preferences {
  try {
    return notes.read('preferences', version, KeptPreferences) ?? Preferences.parse({});
  } catch (error) {
    if (error instanceof LibraryTrouble && error.code === 'damaged') return Preferences.parse({});
    throw error;
  }
}

export function writePreferences(notes: Notes, preferences: Preferences): Preferences {
  notes.write('preferences', version, preferences);
  return preferences;
}

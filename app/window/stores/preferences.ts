import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Link } from '../../../src/host/contract/link.ts';
import { Preferences } from '../../../src/host/contract/shapes.ts';
import type { NoticesStore } from './notices.ts';

export type PreferencesView = Preferences;

export interface PreferencesStore extends StoreApi<PreferencesView> {
  /** Changes some at once and keeps them; goes back where they cannot be kept. */
  change(part: Partial<Preferences>): Promise<void>;
}

/**
 * The coach's preferences, kept by the host and followed for as long as the window lives: what another window changes
 * holds here too. Until the host has told them the defaults hold.
 */
export function createPreferences(host: Link, notices: NoticesStore): PreferencesStore {
  const store = createStore<PreferencesView>()(() => Preferences.parse({}));
  let kept = store.getState();
  let last = Promise.resolve();
  let underWay = 0;
  const tell = (error: unknown): void => void notices.getState().trouble(error);
  // What the host keeps may be less than was asked for; changes of this window on their way still show.
  const show = (): void => {
    if (underWay === 0) store.setState(kept, true);
  };
  host.subscribe(
    'preferences',
    {},
    (told) => {
      kept = told;
      show();
    },
    tell,
  );
  return Object.assign(store, {
    change(part: Partial<Preferences>) {
      store.setState(part);
      underWay += 1;
      last = last.then(async () => {
        try {
          kept = await host.call('preferences.set', { preferences: { ...kept, ...part } });
        } catch (error) {
          tell(error);
        }
        underWay -= 1;
        show();
      });
      return last;
    },
  });
}

import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Link } from '../../../src/host/contract/link.ts';
import { Preferences } from '../../../src/host/contract/shapes.ts';
import type { NoticesStore } from './notices.ts';

export type PreferencesView = Preferences;

export interface PreferencesStore extends StoreApi<PreferencesView> {
  /** Reads them from the library; until then the defaults hold. */
  read(): Promise<void>;
  /** Changes some at once and keeps them; goes back where they cannot be kept. */
  change(part: Partial<Preferences>): Promise<void>;
}

/** The coach's preferences, kept by the host. */
export function createPreferences(host: Link, notices: NoticesStore): PreferencesStore {
  const store = createStore<PreferencesView>()(() => Preferences.parse({}));
  let kept = store.getState();
  let last = Promise.resolve();
  let underWay = 0;
  return Object.assign(store, {
    async read() {
      try {
        kept = await host.call('preferences.get', {});
        store.setState(kept, true);
      } catch (error) {
        notices.getState().trouble(error);
      }
    },
    change(part: Partial<Preferences>) {
      store.setState(part);
      underWay += 1;
      last = last.then(async () => {
        try {
          kept = await host.call('preferences.set', { preferences: { ...kept, ...part } });
        } catch (error) {
          notices.getState().trouble(error);
        }
        underWay -= 1;
        // What the host keeps may be less than was asked for; later changes on their way still show.
        if (underWay === 0) store.setState(kept, true);
      });
      return last;
    },
  });
}

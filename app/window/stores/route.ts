import { createStore, type StoreApi } from 'zustand/vanilla';

export const reviewScreens = ['course', 'review', 'report'] as const;
export type ReviewScreenName = (typeof reviewScreens)[number];

/** Where the window is. Screens that show one review carry its id. */
export type Route =
  | { readonly screen: 'library' }
  | { readonly screen: 'settings' }
  | { readonly screen: ReviewScreenName; readonly reviewId: string }
  /** Where a start leads: to a demo run in a library that was just set up, to the Library in any other. */
  | { readonly screen: 'start' }
  | { readonly screen: 'nowhere' };

export type ScreenName = Exclude<Route['screen'], 'nowhere' | 'start'>;

/** Reads the part of the address after the "#". Never throws; an address of no screen gives `nowhere`. */
export function readRoute(hash: string): Route {
  const parts = hash.replace(/^#?\/?/, '').split('/');
  const [screen = '', id = ''] = parts;
  if (parts.length === 1 && screen === '') return { screen: 'library' };
  if (parts.length === 1 && (screen === 'library' || screen === 'settings' || screen === 'start'))
    return { screen };
  const known = reviewScreens.find((name) => name === screen);
  if (!known || parts.length !== 2 || id === '') return { screen: 'nowhere' };
  try {
    return { screen: known, reviewId: decodeURIComponent(id) };
  } catch {
    return { screen: 'nowhere' };
  }
}

/** The address of a route, from the "#" on. */
export function addressOf(route: Route): string {
  if ('reviewId' in route) return `#/${route.screen}/${encodeURIComponent(route.reviewId)}`;
  return route.screen === 'nowhere' ? '#/library' : `#/${route.screen}`;
}

/** The part of `window` that routing needs. */
export interface AddressBar {
  readonly location: { hash: string; replace(address: string): void };
  addEventListener(type: 'hashchange', on: () => void): void;
}

export interface RouteStore extends StoreApi<{ readonly route: Route }> {
  go(route: Route): void;
  /** Goes there in place of where the window is, so that the way back does not lead here again. */
  goInstead(route: Route): void;
}

/** Follows the address of the window. */
export function createRoute(bar: AddressBar): RouteStore {
  const store = createStore<{ readonly route: Route }>()(() => ({ route: readRoute(bar.location.hash) }));
  const follow = (): void => {
    store.setState({ route: readRoute(bar.location.hash) });
  };
  bar.addEventListener('hashchange', follow);
  return Object.assign(store, {
    go(route: Route) {
      bar.location.hash = addressOf(route);
      follow();
    },
    goInstead(route: Route) {
      bar.location.replace(addressOf(route));
      follow();
    },
  });
}

import { createStore, type StoreApi } from 'zustand/vanilla';

export const reviewScreens = ['course', 'review', 'report'] as const;
export type ReviewScreenName = (typeof reviewScreens)[number];

/** Where the window is. Screens that show one review carry its id. */
export type Route =
  | { readonly screen: 'library' }
  | { readonly screen: 'settings' }
  | { readonly screen: ReviewScreenName; readonly reviewId: string }
  /** The runs that are compared, the measure first; fewer than two while they are being chosen. */
  | { readonly screen: 'compare'; readonly reviewIds: readonly string[] }
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
  if (screen === 'compare') return compareRoute(parts.slice(1));
  const known = reviewScreens.find((name) => name === screen);
  const reviewId = parts.length === 2 ? decoded(id) : '';
  return known && reviewId !== '' ? { screen: known, reviewId } : { screen: 'nowhere' };
}

/** More ids than can be compared are read all the same: the screen says what it does with them. */
const mostIds = 12;

function compareRoute(parts: readonly string[]): Route {
  const reviewIds = parts.map(decoded);
  if (reviewIds.includes('') || reviewIds.length > mostIds) return { screen: 'nowhere' };
  return { screen: 'compare', reviewIds };
}

/** Empty where it cannot be read. */
function decoded(id: string): string {
  try {
    return decodeURIComponent(id);
  } catch {
    return '';
  }
}

/** The address of a route, from the "#" on. */
export function addressOf(route: Route): string {
  if ('reviewId' in route) return `#/${route.screen}/${encodeURIComponent(route.reviewId)}`;
  if ('reviewIds' in route) return ['#/compare', ...route.reviewIds.map(encodeURIComponent)].join('/');
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

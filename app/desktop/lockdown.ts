import type { App, Session, WebContents } from 'electron';
import { isWindowAddress, scheme, windowAddress } from './addresses.ts';

/** Addresses that a page of ours may load: our own scheme, and what the page itself has made in memory. */
const own = new RegExp(`^(?:${scheme}|blob:${scheme}|data):`);

/** Denies every permission, and every request that would leave the program. */
export function lockSession(session: Session): void {
  session.setPermissionRequestHandler((_contents, _permission, answer) => {
    answer(false);
  });
  session.setPermissionCheckHandler(() => false);
  session.setDevicePermissionHandler(() => false);
  session.webRequest.onBeforeRequest((details, answer) => {
    answer({ cancel: !own.test(details.url) });
  });
  session.on('will-download', (event) => {
    event.preventDefault();
  });
}

/** Denies, for every page that ever comes to be: going elsewhere, opening windows, embedding. */
export function lockContents(app: Pick<App, 'on'>): void {
  app.on('web-contents-created', (_event, contents: WebContents) => {
    const deny = (event: { preventDefault(): void }): void => {
      event.preventDefault();
    };
    const denyUnlessReload = (event: { url: string; preventDefault(): void }): void => {
      if (event.url !== windowAddress || !isWindowAddress(contents.getURL())) event.preventDefault();
    };
    contents.on('will-navigate', denyUnlessReload);
    contents.on('will-frame-navigate', denyUnlessReload);
    contents.on('will-redirect', deny);
    contents.on('will-attach-webview', deny);
    contents.setWindowOpenHandler(() => ({ action: 'deny' }));
  });
}

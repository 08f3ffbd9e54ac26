import { findShell, type WindowShell } from '../../../../app/window/shell/index.ts';
import { link, type Link } from '../../../../src/host/contract/link.ts';

declare global {
  interface Window {
    shell: WindowShell;
    host: Link;
    heard: unknown[];
    news: string[];
    /** Whether text could be run as a script. */
    textRan: boolean;
  }
}

window.shell = findShell();
window.heard = [];
window.news = [];
window.shell.onLost((loss) => window.news.push(loss));
window.shell.onBack(() => {
  window.news.push('back');
  window.host.resume();
});
window.host = link(window.shell.wire);

window.textRan = true;
try {
  // eslint-disable-next-line @typescript-eslint/no-implied-eval, @typescript-eslint/no-unsafe-call -- the very thing that must not work
  new Function('return 1')();
} catch {
  window.textRan = false;
}

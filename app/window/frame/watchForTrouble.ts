import type { Workbench } from '../stores/workbench.ts';

/**
 * Errors that nobody caught, as notices; key presses to the keyboard; and a question before the window goes away
 * while acts are still on their way to the library.
 */
export function watchForTrouble({ notices, keyboard, review }: Workbench): void {
  window.addEventListener('unhandledrejection', (event) => {
    notices.getState().trouble(event.reason);
  });
  window.addEventListener('error', (event) => {
    // Told by the browser when a layout needs a second pass; nothing is wrong.
    if (event.message.includes('ResizeObserver loop')) return;
    notices.getState().trouble(event.error ?? event.message);
  });
  window.addEventListener('keydown', (event) => {
    keyboard.press(event);
  });
  window.addEventListener('beforeunload', (event) => {
    if (review.getState().underWay > 0) event.preventDefault();
  });
  // Without this a file dropped beside a place for it would replace the window.
  for (const kind of ['dragover', 'drop'] as const) {
    window.addEventListener(kind, (event) => {
      event.preventDefault();
    });
  }
}

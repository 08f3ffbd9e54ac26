/**
 * After a click on a button the keys belong to the run again; getting about by Tab keeps the focus. In a dialog they
 * stay its own: without a focus in it Escape would go to the screen behind.
 */
export function letGo(target: EventTarget): void {
  const button = target instanceof Element ? target.closest('button') : null;
  if (button && !button.closest('[data-keeps-focus], dialog')) {
    // After the click has been handled.
    setTimeout(() => {
      if (document.activeElement === button) button.blur();
    });
  }
}

import type { KeyboardEvent } from 'react';
import type { Keyboard } from './keyboard.ts';

/** Passes keys on from a slider, which would keep letters and arrows to itself: they mean the same everywhere here. */
export function sliderKeys(keyboard: Keyboard): (event: KeyboardEvent) => void {
  return (event) => {
    const { key, ctrlKey, metaKey, altKey, shiftKey, repeat, isComposing } = event.nativeEvent;
    keyboard.press({
      ...{ key, ctrlKey, metaKey, altKey, shiftKey, repeat, isComposing },
      defaultPrevented: event.defaultPrevented,
      target: null,
      preventDefault() {
        event.preventDefault();
      },
    });
  };
}

import { useEffect, type RefObject } from 'react';
import type { Desk } from '../desk/desk.ts';
import { panned, timeAt } from './scale.ts';

/** The wheel makes time larger and smaller about the pointer; sideways, or with Shift, it moves through the run. */
export function useWheel(box: RefObject<HTMLElement | null>, desk: Desk, width: number): void {
  // React listens to the wheel passively, which cannot keep the page from scrolling.
  useEffect(() => {
    const element = box.current;
    if (!element) return;
    const onWheel = (event: WheelEvent): void => {
      event.preventDefault();
      const view = desk.view();
      const sideways = event.shiftKey ? event.deltaY : event.deltaX;
      if (event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY)) {
        const by = (sideways / Math.max(1, width)) * (view.to - view.from);
        desk.setView(panned(view, desk.whole(), by));
        return;
      }
      const x = event.clientX - element.getBoundingClientRect().left;
      desk.zoom(Math.exp(Math.max(-100, Math.min(100, event.deltaY)) / 200), timeAt(view, width, x));
    };
    element.addEventListener('wheel', onWheel, { passive: false });
    return () => {
      element.removeEventListener('wheel', onWheel);
    };
  }, [box, desk, width]);
}

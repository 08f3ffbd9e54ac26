import { useEffect, useState, type RefObject } from 'react';

/** The inner size of an element, pixels; 0 before it is laid out. */
export function useSizeOf(box: RefObject<HTMLElement | null>): {
  readonly width: number;
  readonly height: number;
} {
  const [size, setSize] = useState({ width: 0, height: 0 });
  useEffect(() => {
    const element = box.current;
    if (!element) return;
    const watch = new ResizeObserver(() => {
      setSize({ width: element.clientWidth, height: element.clientHeight });
    });
    watch.observe(element);
    return () => {
      watch.disconnect();
    };
  }, [box]);
  return size;
}

import { useEffect, useState, type RefObject } from 'react';

/** The width of an element in CSS pixels, kept up to date; 0 until it is known. */
export function useWidth(element: RefObject<HTMLElement | null>): number {
  const [width, setWidth] = useState(0);
  useEffect(() => {
    const there = element.current;
    if (!there) return;
    const observer = new ResizeObserver(([entry]) => {
      if (entry) setWidth(entry.contentRect.width);
    });
    observer.observe(there);
    return () => {
      observer.disconnect();
    };
  }, [element]);
  return width;
}

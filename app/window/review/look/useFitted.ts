import { useEffect, useState } from 'react';

/** The size of a picture of this shape (height over width) that just fits the box. */
export function useFitted(
  box: React.RefObject<HTMLDivElement | null>,
  shape: number,
): { readonly width: number; readonly height: number } {
  const [size, setSize] = useState({ width: 0, height: 0 });
  useEffect(() => {
    const element = box.current;
    if (!element) return;
    const fit = (): void => {
      const { clientWidth: w, clientHeight: h } = element;
      const width = Math.min(w, h / shape);
      setSize((before) => (Math.abs(before.width - width) < 0.5 ? before : { width, height: width * shape }));
    };
    const watch = new ResizeObserver(fit);
    watch.observe(element);
    return () => {
      watch.disconnect();
    };
  }, [box, shape]);
  return size;
}

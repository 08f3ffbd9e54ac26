import type { Paper } from './paint.ts';
import type { Part } from './paintHand.ts';

/** Sizes grow by this much, pixels, so that a sheet is not made anew at each movement. */
const stepOfSize = 32;

const upTo = (size: number): number => Math.ceil(size / stepOfSize) * stepOfSize;

/**
 * A sheet that is only as large as what lies on it and moves along with it: all of a sheet is handed to the screen
 * whenever anything on it changes, so a small one costs little.
 */
export interface SmallSheet {
  paint(content: Content, ratio: number): void;
  /** Moves the sheet away from where it was painted, pixels of the board. */
  push(dx: number, dy: number, ratio: number): void;
}

/** What lies on the sheet, and the part of the board it takes; null: nothing. */
export interface Content {
  part(): Part | null;
  paint(paper: Paper): void;
}

/** The nearest whole pixel of the screen, so that lines stay sharp. */
const onPixel = (v: number, ratio: number): number => Math.round(v * ratio) / ratio;

export function createSmallSheet(canvas: HTMLCanvasElement): SmallSheet {
  const paper = canvas.getContext('2d');
  let size = { width: 0, height: 0 };
  let at = { x: 0, y: 0 };
  const fit = (part: Part, ratio: number): void => {
    const wanted = { width: upTo(part.width), height: upTo(part.height) };
    const fits = wanted.width <= size.width && wanted.height <= size.height;
    const muchTooLarge = wanted.width * wanted.height * 3 < size.width * size.height;
    if (muchTooLarge) size = wanted;
    else if (!fits) {
      size = {
        width: Math.max(size.width, wanted.width),
        height: Math.max(size.height, wanted.height),
      };
    }
    const [w, h] = [Math.round(size.width * ratio), Math.round(size.height * ratio)];
    if (canvas.width !== w || canvas.height !== h) {
      canvas.width = w;
      canvas.height = h;
      canvas.style.width = `${String(w / ratio)}px`;
      canvas.style.height = `${String(h / ratio)}px`;
    }
  };
  return {
    paint(content, ratio) {
      const part = content.part();
      canvas.hidden = part === null;
      if (!part || !paper) return;
      fit(part, ratio);
      at = { x: onPixel(part.x, ratio), y: onPixel(part.y, ratio) };
      const { x, y } = at;
      canvas.style.transform = `translate(${String(x)}px, ${String(y)}px)`;
      paper.setTransform(1, 0, 0, 1, 0, 0);
      paper.clearRect(0, 0, canvas.width, canvas.height);
      paper.setTransform(ratio, 0, 0, ratio, -x * ratio, -y * ratio);
      content.paint(paper);
    },
    push(dx, dy, ratio) {
      const [x, y] = [onPixel(at.x + dx, ratio), onPixel(at.y + dy, ratio)];
      canvas.style.transform = `translate(${String(x)}px, ${String(y)}px)`;
    },
  };
}

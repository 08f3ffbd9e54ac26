/** A part of the picture, as fractions of its width and height. */
export interface Part {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Grey values of a small copy of a picture, row by row, 0 to 255. */
export interface Grey {
  readonly width: number;
  readonly height: number;
  readonly values: ArrayLike<number>;
}

/** All of it. */
export const wholePicture: Part = { x: 0, y: 0, width: 1, height: 1 };

/** Change of grey that counts as movement: above the noise of compressed film, below a dog against grass. */
const moved = 22;
/** Neighbours (of eight) that must have moved too: single points are noise. */
const company = 3;
/** Room left around what moved, as a share of the picture. */
const room = 0.06;
/** No close-up shows less than this share of the width: the surroundings tell where it is. */
const least = 0.22;
/** Where more than this moved the camera itself moved, and nothing can be told apart. */
const most = 0.3;

/**
 * The part of the picture in which something moves between these frames of one clip: dog and handler, where the
 * camera stands still. It keeps the picture's shape. The whole picture where nothing moved, or everything did.
 */
export function movingPart(frames: readonly Grey[]): Part {
  const [first] = frames;
  if (!first || frames.length < 2) return wholePicture;
  const { width, height } = first;
  const changed = new Uint8Array(width * height);
  let total = 0;
  for (let i = 0; i < changed.length; i++) {
    let low = 255;
    let high = 0;
    for (const f of frames) {
      const v = f.values[i] ?? 0;
      if (v < low) low = v;
      if (v > high) high = v;
    }
    if (high - low >= moved) {
      changed[i] = 1;
      total++;
    }
  }
  if (total > changed.length * most) return wholePicture;
  let left = width;
  let right = -1;
  let top = height;
  let bottom = -1;
  for (let y = 1; y < height - 1; y++) {
    for (let x = 1; x < width - 1; x++) {
      if (!changed[y * width + x] || neighbours(changed, width, x, y) < company) continue;
      left = Math.min(left, x);
      right = Math.max(right, x);
      top = Math.min(top, y);
      bottom = Math.max(bottom, y);
    }
  }
  if (right < 0) return wholePicture;
  return inShape(
    left / width - room,
    top / height - room,
    (right + 1) / width + room,
    (bottom + 1) / height + room,
  );
}

function neighbours(changed: Uint8Array, width: number, x: number, y: number): number {
  let n = 0;
  for (let dy = -1; dy <= 1; dy++) {
    for (let dx = -1; dx <= 1; dx++) {
      if (dx !== 0 || dy !== 0) n += changed[(y + dy) * width + x + dx] ?? 0;
    }
  }
  return n;
}

/** The smallest part of the picture's own shape that holds the box. In fractions that is a square. */
function inShape(left: number, top: number, right: number, bottom: number): Part {
  const size = Math.min(1, Math.max(least, right - left, bottom - top));
  const place = (low: number, high: number): number =>
    Math.max(0, Math.min(1 - size, (low + high) / 2 - size / 2));
  return { x: place(left, right), y: place(top, bottom), width: size, height: size };
}

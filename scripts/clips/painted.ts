/**
 * Pictures that carry their own number: twice as blocks of black and white that a program reads back after any
 * usual compression and scaling, and once in digits for the eye. Pure; runs in Node and in a browser.
 *
 * In sixteenths of the picture: a margin of one, then two rows of 14 blocks, each block 1 wide and 3 high. The
 * first and last column are marks (white above black), so that a picture on its side, upside down or mirrored is not
 * taken for an upright one. Between them stand 12 bits, highest first; the lower row is the complement.
 */
const grid = 16;
const bits = 12;
const topRow = 1;
const rowHeight = 3;

/** Largest number that fits. */
export const largestPainted = 2 ** bits - 1;

const digitShapes = [
  '111101101101111',
  '010110010010111',
  '111001111100111',
  '111001111001111',
  '101101111001001',
  '111100111001111',
  '111100111101111',
  '111001010010010',
  '111101111101111',
  '111101111001111',
];

/**
 * Paints one upright picture with its number.
 * @returns rows of RGB, 3 bytes a pixel, `width * height * 3` bytes.
 */
export function paintPicture(number: number, width: number, height: number): Uint8Array {
  if (!Number.isInteger(number) || number < 0 || number > largestPainted) {
    throw new RangeError(`${number} cannot be painted: a whole number from 0 to ${largestPainted} is needed`);
  }
  const out = new Uint8Array(width * height * 3);
  const fill = (x0: number, y0: number, x1: number, y1: number, r: number, g: number, b: number): void => {
    const [left, right] = [Math.round(x0), Math.round(x1)];
    const [top, bottom] = [Math.round(y0), Math.round(y1)];
    const first = (top * width + left) * 3;
    for (let at = first; at < first + (right - left) * 3; at += 3) {
      out[at] = r;
      out[at + 1] = g;
      out[at + 2] = b;
    }
    for (let y = top + 1; y < bottom; y++) {
      out.copyWithin((y * width + left) * 3, first, first + (right - left) * 3);
    }
  };
  // A ground that drifts, so that the encoder has motion to work on and uses its B-frames. Most rows are as the one above.
  let above = NaN;
  for (let y = 0; y < height; y++) {
    const row = y * width * 3;
    const blue = 80 + Math.floor((y * 40) / height);
    const sign = ((y + number) >> 4) * 256 + blue;
    if (sign === above) {
      out.copyWithin(row, row - width * 3, row);
      continue;
    }
    above = sign;
    for (let x = 0; x < width; x++) {
      const at = row + x * 3;
      const wave = ((x + number * 3) >> 4) ^ ((y + number) >> 4);
      out[at] = 90 + (wave & 7) * 4;
      out[at + 1] = 110 + (wave & 3) * 8;
      out[at + 2] = blue;
    }
  }
  const cellX = width / grid;
  const cellY = height / grid;
  for (let column = 0; column < bits + 2; column++) {
    const marked = column === 0 || column === bits + 1;
    const on = marked || ((number >> (bits - column)) & 1) === 1;
    const x = (1 + column) * cellX;
    const upper = on ? 235 : 20;
    const lower = on ? 20 : 235;
    const y = topRow * cellY;
    fill(x, y, x + cellX, y + rowHeight * cellY, upper, upper, upper);
    fill(x, y + rowHeight * cellY, x + cellX, y + 2 * rowHeight * cellY, lower, lower, lower);
  }
  const text = String(number).padStart(4, '0');
  const digitWidth = (width - 2 * cellX) / 4;
  [...text].forEach((letter, place) => {
    const shape = digitShapes[Number(letter)] ?? '';
    for (let i = 0; i < 15; i++) {
      if (shape[i] !== '1') continue;
      const w = (digitWidth * 0.8) / 3;
      const h = (6 * cellY) / 5;
      const x = cellX + place * digitWidth + (i % 3) * w;
      const y = 9 * cellY + Math.floor(i / 3) * h;
      fill(x, y, x + w, y + h, 250, 230, 60);
    }
  });
  return out;
}

/** Turns an RGB picture counter-clockwise by a quarter turn, `times` times. */
export function turnBack(
  rgb: Uint8Array,
  width: number,
  height: number,
  times: number,
): { rgb: Uint8Array; width: number; height: number } {
  let now = { rgb, width, height };
  for (let t = 0; t < times; t++) {
    const { width: w, height: h } = now;
    const next = new Uint8Array(now.rgb.length);
    for (let y = 0; y < h; y++) {
      for (let x = 0; x < w; x++) {
        const from = (y * w + x) * 3;
        const to = ((w - 1 - x) * h + y) * 3;
        next[to] = now.rgb[from] ?? 0;
        next[to + 1] = now.rgb[from + 1] ?? 0;
        next[to + 2] = now.rgb[from + 2] ?? 0;
      }
    }
    now = { rgb: next, width: h, height: w };
  }
  return now;
}

/**
 * Reads the number of an upright picture back.
 * @param rgba 4 bytes a pixel, as a canvas gives them.
 * @returns null where the picture is not upright, is mirrored, mixes two frames, or shows no number.
 */
export function readPaintedNumber(rgba: ArrayLike<number>, width: number, height: number): number | null {
  const cellX = width / grid;
  const cellY = height / grid;
  const lightAt = (column: number, row: number): number => {
    const x0 = (1 + column + 0.3) * cellX;
    const y0 = (topRow + row * rowHeight + 0.8) * cellY;
    let total = 0;
    let count = 0;
    for (let y = Math.floor(y0); y <= Math.floor(y0 + (rowHeight - 1.6) * cellY); y++) {
      for (let x = Math.floor(x0); x <= Math.floor(x0 + 0.4 * cellX); x++) {
        const at = (y * width + x) * 4;
        total += 0.299 * (rgba[at] ?? 0) + 0.587 * (rgba[at + 1] ?? 0) + 0.114 * (rgba[at + 2] ?? 0);
        count++;
      }
    }
    return total / count;
  };
  let number = 0;
  for (let column = 0; column < bits + 2; column++) {
    const difference = lightAt(column, 0) - lightAt(column, 1);
    // Black and white stand 215 apart; half of two frames mixed would stand near 0.
    if (Math.abs(difference) < 110) return null;
    const on = difference > 0;
    if (column === 0 || column === bits + 1) {
      if (!on) return null;
    } else {
      number = number * 2 + (on ? 1 : 0);
    }
  }
  return number;
}

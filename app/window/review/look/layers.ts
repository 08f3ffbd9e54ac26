/** A frame laid over the one that is looked at. */
export interface Layer {
  readonly frame: number;
  /** Frames away: below 0 before, above 0 after. */
  readonly offset: number;
}

/** The frames laid over a frame: the nearest first, before and after in turn, none beyond the clip. */
export function layersOf(frame: number, each: number, frames: number): readonly Layer[] {
  const layers: Layer[] = [];
  for (let n = 1; n <= each; n++) {
    for (const offset of [-n, n]) {
      const at = frame + offset;
      if (at >= 0 && at < frames) layers.push({ frame: at, offset });
    }
  }
  return layers;
}

/** How strongly a layer shows: fainter the further away it is. */
export function strengthOf(offset: number): number {
  return [0, 0.5, 0.38, 0.28][Math.min(3, Math.abs(offset))] ?? 0;
}

/** Difference of light below which nothing has moved (the noise of compressed film), and from which all of it has. */
const noise = 14;
const moved = 52;
/** Share of the layer's tint in what is shown: enough to tell before from after, little enough to know the dog. */
const tinted = 0.4;
/** Where more of the picture than this differs, the camera moved; layers are then laid more faintly. */
const steady = 0.3;
const fainter = 0.6;

export type Rgb = readonly [number, number, number];

/** Red, green and blue of a colour written #RRGGBB. */
export function rgbOf(colour: string): Rgb {
  const value = Number.parseInt(colour.slice(1), 16);
  return [(value >> 16) & 255, (value >> 8) & 255, value & 255];
}

/**
 * A layer as it is laid over a frame: the layer's own picture, a little tinted, opaque only where it differs from
 * the frame. What stands still stays as it was filmed; what moved is seen where it was, and where it will be.
 * @param frame pixels of the frame that is looked at, four bytes each
 * @param layer pixels of the other frame, of the same size
 */
export function ghostOf(
  frame: ArrayLike<number>,
  layer: ArrayLike<number>,
  tint: Rgb,
  strength: number,
): Uint8ClampedArray<ArrayBuffer> {
  const out = new Uint8ClampedArray(layer.length);
  let differing = 0;
  for (let i = 0; i + 3 < layer.length; i += 4) {
    const r = layer[i] ?? 0;
    const g = layer[i + 1] ?? 0;
    const b = layer[i + 2] ?? 0;
    const difference = Math.max(
      Math.abs(r - (frame[i] ?? 0)),
      Math.abs(g - (frame[i + 1] ?? 0)),
      Math.abs(b - (frame[i + 2] ?? 0)),
    );
    if (difference <= noise) continue;
    differing++;
    out[i] = r + (tint[0] - r) * tinted;
    out[i + 1] = g + (tint[1] - g) * tinted;
    out[i + 2] = b + (tint[2] - b) * tinted;
    out[i + 3] = 255 * strength * Math.min(1, (difference - noise) / (moved - noise));
  }
  if (differing * 4 > layer.length * steady)
    for (let i = 3; i < out.length; i += 4) out[i] = (out[i] ?? 0) * fainter;
  return out;
}

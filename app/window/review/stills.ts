import { movingPart, type Grey, type Part } from './closeUp.ts';

/** Makes pictures of single frames, of the clip on the stage only. */
export interface StillMaker {
  readonly footageId: string;
  picture(frame: number, width: number): Promise<ImageBitmap>;
}

/** Where a picture is to be found. */
export interface FrameAt {
  readonly footageId: string;
  readonly frame: number;
}

/** Pictures of frames, kept while they are likely to be looked at again. */
export interface Stills {
  /** The clip whose pictures can be made now; null for none. */
  setMaker(maker: StillMaker | null): void;
  /** A picture of a frame; null where its clip is not on the stage. Rejects where it cannot be decoded. */
  of(at: FrameAt): Promise<ImageBitmap | null>;
  /** A small picture that is the caller's to keep and to close. Rejects where its clip is not on the stage. */
  small(at: FrameAt, width: number): Promise<ImageBitmap>;
  /** The part of the picture in which something moves between these frames; null where a picture is missing. */
  movingPart(frames: readonly FrameAt[]): Promise<Part | null>;
  /** Told when another clip comes on the stage. */
  onMaker(on: () => void): () => void;
  close(): void;
}

/** Wide enough that a part of a quarter of it is still sharp in the panel. */
const width = 1280;
/** At 1280 x 720 a picture takes 3.7 MB. */
const most = 24;
const greyWidth = 240;

/** Keeps the newest pictures and closes the others. */
export function createStills(): Stills {
  let maker: StillMaker | null = null;
  const kept = new Map<string, Promise<ImageBitmap>>();
  const greys = new Map<string, Grey>();
  const listeners = new Set<() => void>();
  const keyOf = (at: FrameAt): string => `${at.footageId}/${at.frame}`;
  const drop = (key: string): void => {
    const picture = kept.get(key);
    kept.delete(key);
    picture?.then(
      (bitmap) => {
        bitmap.close();
      },
      () => undefined,
    );
  };

  const of = async (at: FrameAt): Promise<ImageBitmap | null> => {
    const key = keyOf(at);
    const there = kept.get(key);
    if (there) {
      kept.delete(key);
      kept.set(key, there);
      return there;
    }
    if (maker?.footageId !== at.footageId) return null;
    const made = maker.picture(at.frame, width);
    kept.set(key, made);
    made.catch(() => {
      if (kept.get(key) === made) kept.delete(key);
    });
    const oldest = kept.keys().next();
    if (kept.size > most && !oldest.done) drop(oldest.value);
    return made;
  };

  const greyOf = async (at: FrameAt): Promise<Grey | null> => {
    const key = keyOf(at);
    const there = greys.get(key);
    if (there) return there;
    const picture = await of(at);
    if (!picture) return null;
    const grey = toGrey(picture);
    greys.set(key, grey);
    return grey;
  };

  return {
    setMaker(next) {
      maker = next;
      greys.clear();
      for (const on of listeners) on();
    },
    of,
    small: (at, wide) =>
      maker?.footageId === at.footageId
        ? maker.picture(at.frame, wide)
        : Promise.reject(new Error('the clip is not on the stage')),
    async movingPart(frames) {
      const pictures = await Promise.all(frames.map(greyOf));
      const all = pictures.filter((g) => g !== null);
      return all.length === frames.length ? movingPart(all) : null;
    },
    onMaker(on) {
      listeners.add(on);
      return () => listeners.delete(on);
    },
    close() {
      maker = null;
      greys.clear();
      for (const key of [...kept.keys()]) drop(key);
    },
  };
}

function toGrey(picture: ImageBitmap): Grey {
  const height = Math.max(1, Math.round((greyWidth * picture.height) / picture.width));
  const paper = new OffscreenCanvas(greyWidth, height).getContext('2d', { willReadFrequently: true });
  if (!paper) return { width: 0, height: 0, values: [] };
  paper.drawImage(picture, 0, 0, greyWidth, height);
  const { data } = paper.getImageData(0, 0, greyWidth, height);
  const values = new Uint8Array(greyWidth * height);
  for (let i = 0; i < values.length; i++) {
    // Luma of ITU-R BT.601, in 256ths.
    values[i] = ((data[4 * i] ?? 0) * 77 + (data[4 * i + 1] ?? 0) * 150 + (data[4 * i + 2] ?? 0) * 29) >> 8;
  }
  return { width: greyWidth, height, values };
}

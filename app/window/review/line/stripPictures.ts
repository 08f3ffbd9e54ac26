/** Small pictures of a clip, asked for a few at a time and kept within a bound. */
export interface StripPictures {
  /** The picture of a frame where it is there already. */
  of(frame: number): ImageBitmap | undefined;
  /** The frames that are looked at now, in the order in which to fetch them; what else waited is forgotten. */
  want(frames: readonly number[]): void;
  /** While held nothing new is asked for. */
  hold(held: boolean): void;
  /** Closes every picture, also those still to come. */
  close(): void;
}

/** Pictures asked for at one time: enough for the decoder to run on from one to the next, few enough to forget. */
const atOnce = 4;

/**
 * Keeps small pictures of one clip.
 * @param make makes a picture, which is then ours to close
 * @param came told after each picture that came
 * @param most pictures kept; those not wanted go first, the oldest before others
 */
export function createStripPictures(
  make: (frame: number) => Promise<ImageBitmap>,
  came: () => void,
  most = 240,
): StripPictures {
  const kept = new Map<number, ImageBitmap>();
  const asked = new Set<number>();
  const failed = new Set<number>();
  let wanted: readonly number[] = [];
  let held = false;
  let closed = false;

  const trim = (): void => {
    const needed = new Set(wanted);
    for (const [frame, picture] of kept) {
      if (kept.size <= most) return;
      if (needed.has(frame)) continue;
      kept.delete(frame);
      picture.close();
    }
  };

  const arrived = (frame: number, picture: ImageBitmap): void => {
    asked.delete(frame);
    if (closed) {
      picture.close();
      return;
    }
    kept.set(frame, picture);
    trim();
    came();
    go();
  };

  const go = (): void => {
    if (held || closed) return;
    for (const frame of wanted) {
      if (asked.size >= atOnce) return;
      if (kept.has(frame) || asked.has(frame) || failed.has(frame)) continue;
      asked.add(frame);
      make(frame).then(
        (picture) => {
          arrived(frame, picture);
        },
        () => {
          // A frame that cannot be had leaves its cell empty; the picture above says why when one goes there.
          asked.delete(frame);
          failed.add(frame);
          go();
        },
      );
    }
  };

  return {
    of: (frame) => kept.get(frame),
    want(frames) {
      wanted = frames;
      for (const frame of frames) {
        const picture = kept.get(frame);
        if (!picture) continue;
        kept.delete(frame);
        kept.set(frame, picture);
      }
      go();
    },
    hold(next) {
      held = next;
      go();
    },
    close() {
      closed = true;
      for (const picture of kept.values()) picture.close();
      kept.clear();
    },
  };
}

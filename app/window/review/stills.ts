/** Makes small pictures of single frames, of the clip on the stage only. */
export interface StillMaker {
  readonly footageId: string;
  picture(frame: number, width: number): Promise<ImageBitmap>;
}

/** Small pictures of frames, kept while they are likely to be looked at again. */
export interface Stills {
  /** The clip whose pictures can be made now; null for none. */
  setMaker(maker: StillMaker | null): void;
  /** A picture of a frame; null where its clip is not on the stage. Rejects where it cannot be decoded. */
  of(footageId: string, frame: number): Promise<ImageBitmap | null>;
  /** Told when another clip comes on the stage. */
  onMaker(on: () => void): () => void;
  close(): void;
}

/** Width of a kept picture: twice what the panel shows, for sharp screens. */
const width = 360;
const most = 60;

/** Keeps the newest pictures and closes the others. */
export function createStills(): Stills {
  let maker: StillMaker | null = null;
  const kept = new Map<string, Promise<ImageBitmap>>();
  const listeners = new Set<() => void>();
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
  return {
    setMaker(next) {
      maker = next;
      for (const on of listeners) on();
    },
    async of(footageId, frame) {
      const key = `${footageId}/${frame}`;
      const there = kept.get(key);
      if (there) {
        kept.delete(key);
        kept.set(key, there);
        return there;
      }
      if (maker?.footageId !== footageId) return null;
      const made = maker.picture(frame, width);
      kept.set(key, made);
      made.catch(() => {
        if (kept.get(key) === made) kept.delete(key);
      });
      const oldest = kept.keys().next();
      if (kept.size > most && !oldest.done) drop(oldest.value);
      return made;
    },
    onMaker(on) {
      listeners.add(on);
      return () => listeners.delete(on);
    },
    close() {
      maker = null;
      for (const key of [...kept.keys()]) drop(key);
    },
  };
}

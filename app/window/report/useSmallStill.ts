import { useEffect, useState } from 'react';
import type { Link } from '../../../src/host/contract/link.ts';

/** Where a small still is to be had. */
interface Asked {
  readonly clipId: string;
  readonly frame: number;
}

/** Pixels across: sharp at twice the size that it is shown in. */
const width = 360;
/** Each is made by a program of its own: one after another keeps the machine free. */
let before: Promise<unknown> = Promise.resolve();

/** A small picture of a frame. */
export type SmallStill = { readonly address: string } | 'missing';

/** A small picture of a frame: null while it is made, or as long as none is asked for. */
export function useSmallStill(host: Link, asked: Asked | null): SmallStill | null {
  const [picture, setPicture] = useState<SmallStill | null>(null);
  const clipId = asked?.clipId;
  const frame = asked?.frame;
  useEffect(() => {
    if (clipId === undefined || frame === undefined) return;
    let gone = false;
    let address: string | null = null;
    const make = async (): Promise<void> => {
      if (gone) return;
      const { jpeg } = await host.call('clip.still', { clipId, frame, width });
      if (gone) return;
      if (jpeg === null) {
        setPicture('missing');
        return;
      }
      const bytes = Uint8Array.from(atob(jpeg), (c) => c.charCodeAt(0));
      address = URL.createObjectURL(new Blob([bytes], { type: 'image/jpeg' }));
      setPicture({ address });
    };
    before = before.then(make).catch(() => {
      if (!gone) setPicture('missing');
    });
    return () => {
      gone = true;
      if (address !== null) URL.revokeObjectURL(address);
    };
  }, [host, clipId, frame]);
  return picture;
}

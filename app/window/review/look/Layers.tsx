import { useEffect, useRef } from 'react';
import { data } from '../../../../src/look/tokens.ts';
import { useDesk, useDeskView, useLook } from '../DeskContext.ts';
import type { Stills } from '../stills.ts';
import { useStageCount } from '../useLookedAt.ts';
import { ghostOf, layersOf, rgbOf, strengthOf, type Layer } from './layers.ts';
import styles from './Layers.module.css';

/** Layers are made once the hand rests this long, so that stepping on is never kept waiting. Milliseconds. */
const restFor = 80;
/** Widest a layer is made. Pixels. */
const widest = 960;

const tints = { before: rgbOf(data.sky), after: rgbOf(data.orange) };

/**
 * The frames before and after, laid faintly over the still. A layer is drawn once its exact frame is there and its
 * own frame is the one on the screen; until then there is none. Never while playing.
 */
export function Layers({ shown }: { readonly shown: () => number | null }) {
  const { desk, stills } = useDesk();
  const box = useRef<HTMLDivElement>(null);
  const laid = useLook((v) => v.laid);
  const each = useLook((v) => v.laidOver);
  const frame = useDeskView((v) => v.frame);
  const footageId = useDeskView((v) => v.footageId);
  const playing = useDeskView((v) => v.playing);
  const stage = useStageCount();

  useEffect(() => {
    const element = box.current;
    const clock = desk.clock();
    if (!element || !laid || playing || !clock || footageId === null) return;
    let gone = false;
    const lay = async (): Promise<void> => {
      await shownAt(shown, frame, () => gone);
      if (gone) return;
      const base = await pixelsOf(stills, footageId, frame);
      for (const layer of layersOf(frame, each, clock.table.pts.length)) {
        if (gone) return;
        const other = await pixelsOf(stills, footageId, layer.frame);
        if (gone || other?.width !== base?.width || !base || !other) return;
        element.append(canvasOf(layer, base, other));
      }
    };
    // A frame that cannot be had is not laid over; going there says why.
    const timer = setTimeout(() => void lay().catch(() => undefined), restFor);
    return () => {
      gone = true;
      clearTimeout(timer);
      element.replaceChildren();
    };
  }, [desk, stills, stage, laid, each, frame, footageId, playing, shown]);

  return <div ref={box} className={styles['layers']} aria-hidden data-layers={laid && !playing} />;
}

/** Waits until the frame is the one on the screen. */
async function shownAt(shown: () => number | null, frame: number, gone: () => boolean): Promise<void> {
  while (shown() !== frame && !gone()) await new Promise((resolve) => setTimeout(resolve, 30));
}

async function pixelsOf(stills: Stills, footageId: string, frame: number): Promise<ImageData | null> {
  const picture = await stills.of({ footageId, frame });
  if (!picture) return null;
  const width = Math.min(widest, picture.width);
  const height = Math.max(1, Math.round((width * picture.height) / picture.width));
  const paper = new OffscreenCanvas(width, height).getContext('2d', { willReadFrequently: true });
  paper?.drawImage(picture, 0, 0, width, height);
  return paper?.getImageData(0, 0, width, height) ?? null;
}

function canvasOf(layer: Layer, base: ImageData, other: ImageData): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  canvas.width = other.width;
  canvas.height = other.height;
  const tint = layer.offset < 0 ? tints.before : tints.after;
  const ghost = ghostOf(base.data, other.data, tint, strengthOf(layer.offset));
  canvas.getContext('2d')?.putImageData(new ImageData(ghost, other.width), 0, 0);
  canvas.dataset['offset'] = String(layer.offset);
  return canvas;
}

import { useEffect, useMemo, useRef, useState } from 'react';
import { themes } from '../../../src/look/tokens.ts';
import { lookWords } from '../../../src/words/look.ts';
import { useClips, useReview } from '../stores/react.ts';
import { useDesk, useDeskView, useLook, useOpenReview } from './DeskContext.ts';
import { cellOf } from '../../../src/review/cells.ts';
import { timeAt, xAt } from './line/scale.ts';
import { cellAt, stripCells, type StripCell } from './line/stripCells.ts';
import { createStripPictures, type StripPictures } from './line/stripPictures.ts';
import { useWheel } from './line/useWheel.ts';
import { useSizeOf } from './line/useSizeOf.ts';
import { useLit } from './look/PictureLight.tsx';
import styles from './Strip.module.css';
import { useStageCount } from './useLookedAt.ts';
import { useTheme } from '../look/useTheme.ts';

/** The narrowest small picture, pixels. */
const narrowest = 24;
/** No picture is asked for wider than this. */
const widest = 640;
/** Bytes of pictures kept, four to a pixel. */
const budget = 48_000_000;

/**
 * The strip of small frames over the line of time, on request: each lies where its frame begins. It shows what the
 * magnifier shows, so that a distant dog is seen.
 */
export function Strip() {
  const on = useLook((v) => v.strip);
  const use = useClip();
  return on && use ? <Frames key={use.footageId} {...use} /> : null;
}

interface ClipOnDesk {
  readonly footageId: string;
  /** Width of the upright picture over its height. */
  readonly shape: number;
}

function useClip(): ClipOnDesk | null {
  const review = useOpenReview();
  const clips = useClips();
  const footageId = useDeskView((v) => v.footageId);
  const use = review.footage.find((f) => f.id === footageId);
  const clip = use && clips.get(use.clipId);
  return use && clip ? { footageId: use.id, shape: clip.width / Math.max(1, clip.height) } : null;
}

function Frames({ footageId, shape }: ClipOnDesk) {
  const { desk, look } = useDesk();
  const box = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const head = useRef<HTMLDivElement>(null);
  const { width, height } = useSizeOf(box);
  const scale = window.devicePixelRatio;
  const colours = themes[useTheme()];
  const lit = useLit();
  const wide = Math.max(narrowest, Math.round(height * shape));
  const cells = useCells(width, wide);
  const zoom = useZoom();
  const asked = Math.min(widest, Math.ceil(wide * scale * 2 ** Math.ceil(Math.log2(zoom))));
  const { pictures, count } = usePictures(footageId, asked, shape, cells);
  const magnifiers = useLook((v) => v.magnifiers);
  useWheel(box, desk, width);
  useHead(head, width, wide);

  useEffect(() => {
    const pen = canvas.current?.getContext('2d');
    if (!pen) return;
    const request = requestAnimationFrame(() => {
      pen.setTransform(scale, 0, 0, scale, 0, 0);
      pen.clearRect(0, 0, width, height);
      for (const { frame, left, right } of cells) {
        pen.fillStyle = colours.sunken;
        pen.fillRect(left, 0, Math.max(0, right - left - 1), height);
        const picture = pictures?.of(frame);
        if (!picture) continue;
        const shown = Math.min(1, (right - left) / wide);
        const part = look.partAt(frame);
        const [w, h] = [part.width * picture.width, part.height * picture.height];
        const [x, y] = [part.x * picture.width, part.y * picture.height];
        pen.drawImage(picture, x, y, w * shown, h, left, 0, wide * shown, height);
      }
    });
    return () => {
      cancelAnimationFrame(request);
    };
  }, [look, magnifiers, cells, pictures, count, width, height, scale, colours, wide]);

  return (
    <div className={styles['strip']}>
      <span className={styles['lane']} aria-hidden>
        {lookWords.strip.lane}
      </span>
      <div
        ref={box}
        className={styles['band']}
        aria-hidden
        onPointerUp={(event) => {
          if (event.button !== 0) return;
          const x = event.clientX - event.currentTarget.getBoundingClientRect().left;
          const cell = cellAt(cells, x);
          desk.pause();
          if (cell) desk.goToFrame(cell.frame);
          else desk.goToTime(timeAt(desk.view(), width, x));
        }}
      >
        <canvas
          ref={canvas}
          className={styles['canvas']}
          width={Math.max(1, Math.round(width * scale))}
          height={Math.max(1, Math.round(height * scale))}
          style={{ width, height, ...lit }}
          data-strip
        />
        <div ref={head} className={styles['head']} />
      </div>
    </div>
  );
}

/** The cells of what the line of time shows. */
function useCells(width: number, picture: number): readonly StripCell[] {
  const { desk } = useDesk();
  const clocks = useReview((v) => v.clocks);
  const view = useDeskView((v) => v.view);
  const footageId = useDeskView((v) => v.footageId);
  return useMemo(() => {
    const clock = footageId === null ? undefined : clocks.get(footageId);
    return clock ? stripCells(clock, view ?? desk.whole(), width, picture) : [];
  }, [desk, clocks, view, footageId, width, picture]);
}

/** The pictures of the cells, as they come; `count` grows with each. */
function usePictures(
  footageId: string,
  wide: number,
  shape: number,
  cells: readonly StripCell[],
): { readonly pictures: StripPictures | null; readonly count: number } {
  const { stills } = useDesk();
  const stage = useStageCount();
  const playing = useDeskView((v) => v.playing);
  const [pictures, setPictures] = useState<StripPictures | null>(null);
  const [count, setCount] = useState(0);
  useEffect(() => {
    const made = createStripPictures(
      (frame) => stills.small({ footageId, frame }, wide),
      () => {
        setCount((n) => n + 1);
      },
      Math.floor(budget / ((4 * wide * wide) / shape)),
    );
    setPictures(made);
    return () => {
      made.close();
      setPictures(null);
    };
  }, [stills, stage, footageId, wide, shape]);
  useEffect(() => {
    pictures?.hold(playing);
    pictures?.want(cells.map((c) => c.frame));
  }, [pictures, cells, playing]);
  return { pictures, count };
}

function useZoom(): number {
  const { look } = useDesk();
  useLook((v) => v.magnifiers);
  return look.magnifier().zoom;
}

/**
 * The playhead goes on through the strip; where each frame has its own cell it is a frame around that cell, so that
 * nothing lies over the picture. Past React, it moves at every frame of playback.
 */
function useHead(head: React.RefObject<HTMLDivElement | null>, width: number, picture: number): void {
  const { desk } = useDesk();
  const clocks = useReview((v) => v.clocks);
  useEffect(() => {
    const place = (): void => {
      const element = head.current;
      const clock = desk.clock();
      if (!element || !clock) return;
      const cell = cellOf(clock, desk.store.getState().frame);
      const [left, right] = [cell.from, cell.to].map((at) => xAt(desk.view(), width, at)) as [number, number];
      const around = right - left >= picture;
      element.dataset['around'] = String(around);
      element.style.width = around ? `${right - left}px` : '';
      element.style.transform = `translateX(${around ? left : (left + right) / 2 - 1}px)`;
    };
    place();
    return desk.store.subscribe(place);
  }, [head, desk, clocks, width, picture]);
}

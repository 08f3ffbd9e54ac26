import { useEffect, useRef } from 'react';
import { courseWords } from '../../../../src/words/course.ts';
import type { Board } from '../board/board.ts';
import { underlayTransform } from './matrix.ts';
import styles from './UnderlayPicture.module.css';

interface UnderlayPictureProps {
  readonly board: Board;
  readonly url: string;
}

/** Width of the picture before it is laid, CSS pixels: near to its size on the board, so that nothing is lost to rounding. */
const shownWidth = 1000;

/** The map picture as it lies on the ground, under the drawing. It follows the camera without React. */
export function UnderlayPicture({ board, url }: UnderlayPictureProps) {
  const picture = useRef<HTMLImageElement>(null);
  useEffect(() => {
    const lay = (): void => {
      const element = picture.current;
      const { underlay, mapPicture } = board.shown();
      if (!element || !underlay || !mapPicture) return;
      const shown = { width: shownWidth, height: (shownWidth * mapPicture.height) / mapPicture.width };
      const transform = underlayTransform(underlay, mapPicture, shown, board.camera(), board.size());
      element.style.width = `${shown.width}px`;
      element.style.height = `${shown.height}px`;
      element.style.transform = transform;
      element.style.opacity = transform === '' ? '0' : String(underlay.strength);
    };
    lay();
    return board.onPaint(lay);
  });
  return (
    <img
      ref={picture}
      className={styles['picture']}
      src={url}
      alt={courseWords.map.pictureAlt}
      draggable={false}
    />
  );
}

import { drawnSteps, type DrawnStep } from '../../../../src/course/sequence.ts';
import type { Course } from '../../../../src/course/course.ts';
import { lineOf } from '../../../../src/course/postLines.ts';
import { lengthOf } from '../../../../src/course/pose.ts';
import type { ThemeName } from '../../../../src/look/tokens.ts';
import { lengthWords, drawingWords as words } from '../../../../src/words/drawing.ts';
import type { Board } from './board.ts';
import { createCarry, type MeasureElements } from './carry.ts';
import { carried } from './gesture.ts';
import { noOverlay } from './overlay.ts';
import {
  paintNumbers,
  paintPostLine,
  paintRing,
  paintScene,
  paintWheel,
  type Look,
  type Paper,
} from './paint.ts';
import { inHand } from './paintHand.ts';
import { createSmallSheet } from './smallSheet.ts';
import { numberPlaces, sceneOf, type Scene } from './scene.ts';

/**
 * Paints a board on two sheets, once a frame at the most: below what stands still, above what the hand changes. The
 * lower sheet is painted again only where the course, the camera, the size or the look is another.
 */
export interface ScreenPainter {
  /** Asks for a painting at the next frame. */
  ask(): void;
  /** Paints the numbers of what stands still as they were painted last. */
  numbers(): (paper: Paper) => void;
  stop(): void;
}

export function createScreenPainter(
  board: Board,
  ground: HTMLCanvasElement,
  hand: HTMLCanvasElement,
  measures: readonly MeasureElements[],
  theme: () => ThemeName,
): ScreenPainter {
  // See-through where a map picture lies under it.
  const below = ground.getContext('2d');
  const above = createSmallSheet(hand);
  const carry = createCarry(above, measures);
  let asked = 0;
  let painted: readonly unknown[] = [];
  let scene: { course: Course; key: string; scene: Scene; all: readonly DrawnStep[] } | null = null;
  let numbers: (paper: Paper) => void = () => undefined;
  let places: { scene: Scene; scale: number; list: ReturnType<typeof numberPlaces> } | null = null;

  const sceneFor = (course: Course, ids: readonly string[]): NonNullable<typeof scene> => {
    const key = ids.join(' ');
    if (scene?.course !== course || scene.key !== key) {
      scene = { course, key, scene: sceneOf(course, new Set(ids)), all: drawnSteps(course) };
    }
    return scene;
  };

  const fitSheet = (ratio: number): void => {
    const { width, height } = board.size();
    const [w, h] = [Math.round(width * ratio), Math.round(height * ratio)];
    if (ground.width !== w) ground.width = w;
    if (ground.height !== h) ground.height = h;
  };

  const paint = (): void => {
    asked = 0;
    const size = board.size();
    if (!below || size.width === 0 || size.height === 0) return;
    const ratio = window.devicePixelRatio;
    fitSheet(ratio);
    const course = board.built();
    const gesture = board.gesture();
    const ids = carried(gesture);
    const look: Look = { camera: board.camera(), size, theme: theme(), unit: board.desk.unit() };
    const { grid, place, line, tool } = board.getState();
    // Where lines are laid over the course, the wheel's is one of them and theirs to show.
    const wheel = board.overlay() === noOverlay || tool.name === 'wheel' ? course.wheelPath : undefined;
    const now = sceneFor(course, ids);
    const facts = [
      now,
      look.camera,
      size,
      look.theme,
      look.unit,
      grid,
      place,
      line,
      gesture?.what === 'line',
      wheel,
      ratio,
    ];
    if (facts.some((fact, i) => fact !== painted[i])) {
      painted = facts;
      below.setTransform(ratio, 0, 0, ratio, 0, 0);
      paintRing(below, look, course, grid !== 'none');
      paintScene(below, look, now.scene);
      for (const which of ['start', 'finish'] as const) {
        const there = lineOf(course, which);
        if (there && !(gesture?.what === 'line' && gesture.which === which))
          paintPostLine(below, look, there, which, line === which);
      }
      if (wheel) {
        paintWheel(below, look, wheel, words.board.wheelPath(lengthWords(lengthOf(wheel), look.unit)));
      }
      if (places?.scene !== now.scene || places.scale !== look.camera.scale) {
        const { scale } = look.camera;
        places = { scene: now.scene, scale, list: numberPlaces(now.scene.steps, scale) };
      }
      const { list } = places;
      numbers = (paper) => {
        paintNumbers(paper, look, list, place);
      };
      numbers(below);
    }
    const same = [now, look.camera, size, look.theme, look.unit, place, ratio];
    if (carry.rests(gesture, same)) return;
    const content = inHand(board, look, now.all);
    if (!carry.show(gesture, content, look, ratio, same)) above.paint(content, ratio);
  };

  const ask = (): void => {
    if (asked === 0) asked = requestAnimationFrame(paint);
  };
  return {
    ask,
    numbers: () => numbers,
    stop() {
      cancelAnimationFrame(asked);
    },
  };
}

import { useEffect, useMemo, useRef, type PointerEvent } from 'react';
import { font, themes, type ThemeName } from '../../../src/look/tokens.ts';
import { middle } from '../../../src/time/bracket.ts';
import { frameAt } from '../../../src/time/frameTable.ts';
import { pts } from '../../../src/time/units.ts';
import { obstacleAt } from '../../../src/course/course.ts';
import { clockReading } from '../../../src/words/figures.ts';
import { obstacleName } from '../../../src/words/review.ts';
import { reviewScreenWords } from '../../../src/words/reviewScreen.ts';
import { useAnalysis, usePreferences, useReview, useWorkbench } from '../stores/react.ts';
import { useDesk, useDeskView, useOpenReview } from './DeskContext.ts';
import { lanes, layoutLine, targetAt, type LineLayout } from './line/layout.ts';
import { paintLine } from './line/paint.ts';
import { paintNow } from './line/paintNow.ts';
import { timeAt } from './line/scale.ts';
import { useWheel } from './line/useWheel.ts';
import { useSizeOf } from './line/useSizeOf.ts';
import styles from './LineOfTime.module.css';
import { useHand } from './useHand.ts';
import { useLineContent } from './useLineContent.ts';
import { useTheme } from '../look/useTheme.ts';
import { sliderKeys } from '../keys/sliderKeys.ts';

const words = reviewScreenWords.line;

/** A press this near to where it began is a touch, not a drag. Pixels. */
const still = 4;

/** The line of time: the whole run or single frames, everything that was marked, and the playhead. */
export function LineOfTime() {
  const { desk, hands } = useDesk();
  const theme = useTheme();
  const box = useRef<HTMLDivElement>(null);
  const base = useRef<HTMLCanvasElement>(null);
  const over = useRef<HTMLCanvasElement>(null);
  const { width } = useSizeOf(box);
  const scale = window.devicePixelRatio;
  const layout = useBase(base, width, scale, theme);
  usePlayhead(over, width, scale, theme);

  useWheel(box, desk, width);

  const drag = useRef<{ x: number; moved: boolean } | null>(null);
  const xOf = (event: PointerEvent<HTMLDivElement>): number =>
    event.clientX - event.currentTarget.getBoundingClientRect().left;
  const goTo = (x: number): void => {
    desk.goToTime(timeAt(desk.view(), width, Math.max(0, Math.min(width, x))));
  };
  const touch = (x: number, y: number): void => {
    const to = targetAt(layout, x, y);
    if (!to) goTo(x);
    else if (to.target === 'mark') desk.goToMark(to.markId);
    else hands.lookAtCross(to.crossId);
  };

  return (
    <div className={styles['line']}>
      <div className={styles['lanes']} aria-hidden>
        {(['event', 'block', 'dog', 'handler', 'ruler'] as const).map((lane) => (
          <span key={lane} style={{ top: lanes[lane].top, height: lanes[lane].height }}>
            {words.lanes[lane]}
          </span>
        ))}
      </div>
      <div
        ref={box}
        className={styles['band']}
        style={{ height: lanes.height }}
        {...useSlider()}
        onPointerDown={(event) => {
          if (event.button !== 0) return;
          event.currentTarget.setPointerCapture(event.pointerId);
          drag.current = { x: xOf(event), moved: false };
        }}
        onPointerMove={(event) => {
          const x = xOf(event);
          if (!drag.current) {
            const y = event.clientY - event.currentTarget.getBoundingClientRect().top;
            event.currentTarget.style.cursor = targetAt(layout, x, y) ? 'pointer' : 'col-resize';
            return;
          }
          if (Math.abs(x - drag.current.x) > still && !drag.current.moved) {
            drag.current.moved = true;
            desk.pause();
          }
          if (drag.current.moved) goTo(x);
        }}
        onPointerUp={(event) => {
          const began = drag.current;
          drag.current = null;
          if (!began || began.moved) return;
          touch(xOf(event), event.clientY - event.currentTarget.getBoundingClientRect().top);
        }}
        onPointerCancel={() => {
          drag.current = null;
        }}
      >
        {[base, over].map((canvas, i) => (
          <canvas
            key={i}
            ref={canvas}
            className={styles['canvas']}
            width={Math.max(1, Math.round(width * scale))}
            height={Math.round(lanes.height * scale)}
            style={{ width, height: lanes.height }}
            aria-hidden
          />
        ))}
      </div>
    </div>
  );
}

/** The line as a slider for screen readers; its keys are those of the screen, which work everywhere. */
function useSlider(): React.HTMLAttributes<HTMLDivElement> {
  const { desk } = useDesk();
  const { keyboard } = useWorkbench();
  const { course } = useOpenReview();
  const dialect = usePreferences((p) => p.dialect);
  const analysis = useAnalysis();
  const frame = useDeskView((v) => v.frame);
  const hand = useHand();
  const start = analysis?.clock ? middle(analysis.clock.start.bracket) : 0;
  const place =
    hand.place === null ? '' : `${hand.place} ${obstacleName(obstacleAt(course, hand.place), dialect)}`;
  return {
    role: 'slider',
    tabIndex: 0,
    'aria-label': words.label,
    'aria-description': words.hint,
    'aria-valuemin': 0,
    'aria-valuemax': Math.max(0, (desk.clock()?.table.pts.length ?? 1) - 1),
    'aria-valuenow': frame,
    onKeyDown: sliderKeys(keyboard),
    'aria-valuetext': words.value(clockReading(desk.now() - start), frame, place.trim()),
  };
}

const emptyLayout: LineLayout = {
  posts: [],
  stretches: [],
  events: [],
  crosses: [],
  starts: [],
  boxes: [],
};

/** Lays out and paints all but the playhead; returns the layout for the hand. */
function useBase(
  canvas: React.RefObject<HTMLCanvasElement | null>,
  width: number,
  scale: number,
  theme: ThemeName,
): LineLayout {
  const { desk } = useDesk();
  const content = useLineContent();
  const analysis = useAnalysis();
  const shown = useDeskView((v) => v.view);
  const selected = useDeskView((v) => v.selected);
  const loop = useDeskView((v) => v.loop);
  const cross = useDeskView((v) => ('open' in v.mode ? v.mode.open.cross.id : null));
  const view = shown ?? content.whole;
  const layout = useMemo(() => {
    const pen = canvas.current?.getContext('2d');
    if (!pen || width === 0) return emptyLayout;
    pen.font = `600 13px ${font}`;
    return layoutLine(content, view, width, (text) => pen.measureText(text).width);
  }, [canvas, content, view, width]);
  const clockStart = analysis?.clock ? middle(analysis.clock.start.bracket) : 0;

  useEffect(() => {
    const pen = canvas.current?.getContext('2d');
    if (!pen || width === 0) return;
    const request = requestAnimationFrame(() => {
      pen.setTransform(scale, 0, 0, scale, 0, 0);
      paintLine(pen, {
        layout,
        content,
        view,
        width,
        colours: themes[theme],
        font,
        selected,
        cross,
        loop,
        clockStart,
      });
    });
    return () => {
      cancelAnimationFrame(request);
    };
  }, [canvas, layout, content, view, width, scale, theme, selected, cross, loop, clockStart, desk]);
  return layout;
}

/** Paints the playhead straight from the desk, past React: it moves at every frame of playback. */
function usePlayhead(
  canvas: React.RefObject<HTMLCanvasElement | null>,
  width: number,
  scale: number,
  theme: ThemeName,
): void {
  const { desk, look } = useDesk();
  const clocks = useReview((v) => v.clocks);
  useEffect(() => {
    const pen = canvas.current?.getContext('2d');
    if (!pen || width === 0) return;
    let request = 0;
    const paint = (): void => {
      request = 0;
      pen.setTransform(scale, 0, 0, scale, 0, 0);
      const clock = desk.clock();
      const places = clock ? look.magnifier().places.map(({ pts: at }) => frameAt(clock.table, pts(at))) : [];
      const { frame } = desk.store.getState();
      paintNow(pen, clock, frame, desk.view(), width, themes[theme], font, places);
    };
    const soon = (): void => {
      if (request === 0) request = requestAnimationFrame(paint);
    };
    soon();
    const stops = [desk.store.subscribe(soon), look.store.subscribe(soon)];
    return () => {
      for (const stop of stops) stop();
      cancelAnimationFrame(request);
    };
  }, [canvas, width, scale, theme, desk, look, clocks]);
}

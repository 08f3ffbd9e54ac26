import { toBoard } from './camera.ts';
import type { Gesture } from './gesture.ts';
import type { Look } from './paint.ts';
import type { InHand, Measure } from './paintHand.ts';
import type { SmallSheet } from './smallSheet.ts';

/**
 * What is carried by hand, as the browser moves it: painted once, then only pushed along, since a new painting costs
 * more than all else of a drag. Distances are told by lines and labels that are elements of the page.
 */
export interface Carry {
  /** True where what is carried is shown already, and has not moved. */
  rests(gesture: Gesture | null, facts: readonly unknown[]): boolean;
  /** False where something else than carrying goes on: it is to be painted then. */
  show(
    gesture: Gesture | null,
    content: InHand,
    look: Look,
    ratio: number,
    facts: readonly unknown[],
  ): boolean;
}

/** The elements that tell a distance. */
export interface MeasureElements {
  readonly line: HTMLElement;
  readonly label: HTMLElement;
}

/** Milliseconds between two texts of a label: figures that change at every frame cannot be read. */
const readable = 100;

/** Length of the line element that is stretched to a distance, pixels. */
export const lineLength = 100;

export function createCarry(sheet: SmallSheet, measures: readonly MeasureElements[]): Carry {
  let painted: readonly unknown[] | null = null;
  let from = { dx: 0, dy: 0 };
  let newest: readonly Measure[] = [];
  let timer: ReturnType<typeof setTimeout> | undefined;
  const write = (): void => {
    timer = undefined;
    measures.forEach(({ label }, i) => {
      const text = newest[i]?.text ?? '';
      if (label.textContent !== text) label.textContent = text;
    });
  };
  const hide = (): void => {
    for (const { line, label } of measures) {
      line.hidden = true;
      label.hidden = true;
    }
  };
  let last = { dx: NaN, dy: NaN };
  const sameAs = (facts: readonly unknown[]): boolean =>
    painted !== null && facts.every((fact, i) => fact === painted?.[i]);
  return {
    rests: (gesture, facts) =>
      gesture?.what === 'move' && gesture.dx === last.dx && gesture.dy === last.dy && sameAs(facts),
    show(gesture, content, look, ratio, facts) {
      if (gesture?.what !== 'move') {
        if (painted) hide();
        clearTimeout(timer);
        timer = undefined;
        painted = null;
        return false;
      }
      if (!sameAs(facts)) {
        painted = facts;
        from = gesture;
        sheet.paint(content.carried, ratio);
        newest = content.measures;
        write();
      }
      last = gesture;
      const { scale } = look.camera;
      sheet.push((gesture.dx - from.dx) * scale, (from.dy - gesture.dy) * scale, ratio);
      newest = content.measures;
      timer ??= setTimeout(write, readable);
      measures.forEach((elements, i) => {
        tell(elements, content.measures[i], look);
      });
      return true;
    },
  };
}

function tell({ line, label }: MeasureElements, measure: Measure | undefined, look: Look): void {
  line.hidden = measure === undefined;
  label.hidden = line.hidden;
  if (!measure) return;
  const p = toBoard(look.camera, look.size, measure.from);
  const q = toBoard(look.camera, look.size, measure.to);
  const far = Math.hypot(q.x - p.x, q.y - p.y);
  const turn = Math.atan2(q.y - p.y, q.x - p.x);
  line.style.transform = `translate(${px(p.x)}, ${px(p.y)}) rotate(${turn.toFixed(4)}rad) scaleX(${(far / lineLength).toFixed(4)})`;
  // As labels on the sheet: kept on the board, half a line above and below its middle.
  const half = 6 + measure.text.length * 3.6;
  const x = Math.min(look.size.width - half - 2, Math.max(half + 2, (p.x + q.x) / 2));
  const y = Math.min(look.size.height - 13, Math.max(13, (p.y + q.y) / 2));
  label.style.transform = `translate(${px(x)}, ${px(y)}) translate(-50%, -50%)`;
}

const px = (v: number): string => `${String(Math.round(v))}px`;

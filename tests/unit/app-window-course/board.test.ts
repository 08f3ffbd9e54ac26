import { describe, expect, it } from 'vitest';
import { createBoard, type Board } from '../../../app/window/course/board/board.ts';
import {
  choose,
  chooseAll,
  choosePiece,
  choosePlace,
  takeTool,
} from '../../../app/window/course/board/choosing.ts';
import { createHand, type Hand, type PressKind } from '../../../app/window/course/board/hand.ts';
import {
  giveChosen,
  nextWrap,
  otherWay,
  takeOff,
  toggleBackside,
} from '../../../app/window/course/board/numbers.ts';
import { toBoard } from '../../../app/window/course/board/camera.ts';
import {
  align,
  bend,
  duplicate,
  mirror,
  nudge,
  put,
  putLine,
  remove,
  turn,
} from '../../../app/window/course/board/verbs.ts';
import { courseProblems, emptyCourse, type Course } from '../../../src/course/course.ts';
import { obstacleWords } from '../../../src/words/trade.ts';

interface Stand {
  readonly board: Board;
  readonly hand: Hand;
  course(): Course;
  /** What undo would list, oldest first. */
  readonly labels: string[];
  pause(): void;
  /** Presses at a place on the ground and drags to others. */
  drag(from: readonly [number, number], ...to: (readonly [number, number])[]): void;
  click(at: readonly [number, number], kind?: Partial<PressKind>): void;
  stood(id: string): { x: number; y: number; headingDegrees: number };
}

function stand(lastKept = 0, grid: 'snap' | 'none' = 'snap'): Stand {
  let course: Course = emptyCourse();
  const labels: string[] = [];
  let waiting: (() => void) | null = null;
  let n = 0;
  const board = createBoard(
    {
      course: () => course,
      built: (c) => c,
      changeCourse(label, change) {
        const next = change(course);
        if (next === course) return;
        course = next;
        labels.push(label);
      },
      lastKept: () => lastKept,
      unit: () => 'metres',
      nameOf: (c, id) => c.obstacles.find((o) => o.id === id)?.kind ?? '',
      kindName: (kind) => obstacleWords.british[kind],
      newId: () => `p${++n}`,
    },
    grid,
    (run) => {
      waiting = run;
      return () => {
        waiting = null;
      };
    },
  );
  board.setSize({ width: 900, height: 600 });
  const hand = createHand(board);
  const pixel = ([x, y]: readonly [number, number]) => toBoard(board.camera(), board.size(), { x, y });
  const plain = { more: false, push: false };
  return {
    board,
    hand,
    labels,
    course: () => course,
    pause: () => waiting?.(),
    drag(from, ...to) {
      const a = pixel(from);
      hand.press(a.x, a.y, plain);
      for (const point of to) {
        const b = pixel(point);
        hand.move(b.x, b.y);
      }
      hand.release();
    },
    click(at, kind = {}) {
      const p = pixel(at);
      hand.move(p.x, p.y);
      hand.press(p.x, p.y, { ...plain, ...kind });
      hand.release();
    },
    stood(id) {
      const there = course.obstacles.find((o) => o.id === id)?.stand;
      if (!there) throw new Error(`${id} does not stand`);
      return there;
    },
  };
}

describe('putting down', () => {
  it('stands a piece on the grid, looking on from the one before, and says how far it is', () => {
    const { board, stood, labels } = stand();
    put(board, 'barJump', { x: 5.2, y: 9.9 });
    put(board, 'barJump', { x: 10.1, y: 10 });
    expect(stood('p1')).toEqual({ x: 5, y: 10, headingDegrees: 0 });
    expect(stood('p2')).toEqual({ x: 10, y: 10, headingDegrees: 0 });
    expect(board.getState().said).toBe('bar jump, 5.0 m from the last.');
    expect(labels).toEqual(['Put down: bar jump', 'Put down: bar jump']);
  });

  it('by keys alone goes on 6 m ahead and stays inside the ring', () => {
    const { board, course } = stand();
    for (let i = 0; i < 12; i++) put(board, 'barJump');
    for (const o of course().obstacles) {
      expect(o.stand?.x).toBeGreaterThanOrEqual(1);
      expect(o.stand?.x).toBeLessThanOrEqual(39);
    }
    expect(course().ring).toEqual({ width: 40, length: 20 });
  });

  it('by its tool at every click until the tool is put away', () => {
    const { board, click, course } = stand();
    takeTool(board, { name: 'put', kind: 'wall' });
    click([4, 4]);
    click([9, 4]);
    takeTool(board, { name: 'put', kind: 'wall' });
    expect(board.getState().tool.name).toBe('choose');
    click([14, 4]);
    expect(course().obstacles.map((o) => o.kind)).toEqual(['wall', 'wall']);
  });
});

describe('the hand', () => {
  it('drags a piece by its middle to the grid in one act, and a press alone changes nothing', () => {
    const { board, drag, click, stood, labels } = stand();
    put(board, 'barJump', { x: 5, y: 10 });
    drag([5, 10.3], [6, 10.3], [8.1, 12.4]);
    expect(stood('p1')).toMatchObject({ x: 8, y: 12 });
    click([8, 12]);
    expect(labels).toEqual(['Put down: bar jump', 'Move: barJump']);
  });

  it('drags freely without a grid, several at once, and gives up on cancel', () => {
    const { board, hand, drag, stood, labels } = stand(0, 'none');
    put(board, 'barJump', { x: 5, y: 10 });
    put(board, 'barJump', { x: 10, y: 10 });
    chooseAll(board);
    drag([5, 10], [5.5, 10.25]);
    expect(stood('p2').x - stood('p1').x).toBeCloseTo(5, 3);
    expect(stood('p1').x).toBeCloseTo(5.5, 2);
    const before = stood('p1');
    const at = toBoard(board.camera(), board.size(), before);
    hand.press(at.x, at.y, { more: false, push: false });
    hand.move(at.x + 80, at.y);
    hand.cancel();
    expect(stood('p1')).toEqual(before);
    expect(labels.length).toBe(3);
  });

  it('chooses by click, adds with Shift, draws a box, and clears on empty grass', () => {
    const { board, click, drag } = stand();
    for (const x of [5, 10, 15]) put(board, 'barJump', { x, y: 10 });
    click([5, 10]);
    click([10, 10], { more: true });
    expect(board.getState().chosen).toEqual(['p1', 'p2']);
    click([20, 18]);
    expect(board.getState().chosen).toEqual([]);
    drag([3, 13], [12, 8]);
    expect(board.getState().chosen).toEqual(['p1', 'p2']);
  });

  it('turns a piece by its knob and bends a tunnel by a mouth', () => {
    const { board, hand, drag, stood } = stand();
    put(board, 'barJump', { x: 20, y: 10 });
    const { scale } = board.camera();
    drag([20.3 + 26 / scale, 10], [21, 11], [20, 12]);
    expect(stood('p1').headingDegrees).toBe(90);
    put(board, 'tunnel', { x: 10, y: 5 });
    turn(board, -stood('p2').headingDegrees);
    board.settle();
    drag([12.5, 5], [12, 7]);
    const bendLine = board.shown().obstacles[1]?.stand?.bend ?? [];
    expect(bendLine.at(-1)).toMatchObject({ x: 12, y: 7 });
    expect(bendLine[0]).toMatchObject({ x: 7.5, y: 5 });
    expect(hand.over(0, 0)).toBe('ground');
  });

  it('numbers by clicking in order: several on one piece, a tunnel at the clicked mouth', () => {
    const { board, click, course } = stand();
    put(board, 'barJump', { x: 5, y: 10 });
    put(board, 'tunnel', { x: 15, y: 10 });
    takeTool(board, { name: 'number' });
    click([5, 10]);
    click([17.4, 10]);
    click([5, 10]);
    click([30, 3]);
    expect(course().steps.map((s) => `${s.number} ${s.obstacleId} ${s.direction}`)).toEqual([
      '1 p1 forward',
      '2 p2 reverse',
      // Out of the tunnel's first mouth the dog comes back to it from the other side.
      '3 p1 reverse',
    ]);
    expect(board.getState().place).toBe(3);
  });

  it('rolls the wheel along the way and draws lines that can be dragged by their posts', () => {
    const { board, drag, course } = stand();
    put(board, 'barJump', { x: 5, y: 10 });
    takeTool(board, { name: 'wheel' });
    drag([5, 10], [7, 10], [9, 10], [9, 12], [9, 14]);
    expect(course().wheelPath).toEqual([
      { x: 5, y: 10 },
      { x: 9, y: 10 },
      { x: 9, y: 14 },
    ]);
    takeTool(board, { name: 'line', which: 'start' });
    drag([2, 8], [2, 10], [2, 12]);
    expect(course().startLine).toEqual({ from: { x: 2, y: 8 }, to: { x: 2, y: 12 } });
    drag([2, 12], [3, 12]);
    expect(course().startLine?.to).toEqual({ x: 3, y: 12 });
    remove(board);
    expect(course().startLine).toBeUndefined();
  });

  it('takes hold of what a page lays over the course before the piece under it, and tells of a drag taken back', () => {
    const { board, drag, click, hand, labels, pause } = stand(0, 'none');
    const told: string[] = [];
    const tell = (what: string) => (to?: { x: number; y: number }) => {
      told.push(to ? `${what} ${to.x.toFixed(1)} ${to.y.toFixed(1)}` : what);
    };
    put(board, 'barJump', { x: 10, y: 10 });
    board.setOverlay({
      shapes: [],
      grips: [
        {
          id: 'far',
          at: { x: 11, y: 10 },
          drag: tell('far'),
          drop: tell('far'),
          leave: tell('far'),
        },
        {
          id: 'near',
          at: { x: 10, y: 10 },
          drag: tell('drag'),
          drop: tell('drop'),
          leave: tell('leave'),
        },
      ],
    });
    drag([10, 10], [12, 11]);
    expect(told).toEqual(['drag 12.0 11.0', 'drop 12.0 11.0']);
    click([10, 10]);
    expect(board.getState().grip).toBe('near');
    nudge(board, 1, 0);
    nudge(board, 0, 1);
    pause();
    expect(told.slice(2)).toEqual(['drag 10.1 10.0', 'drag 10.1 10.1', 'drop 10.1 10.1']);
    const a = toBoard(board.camera(), board.size(), { x: 10, y: 10 });
    hand.press(a.x, a.y, { more: false, push: false });
    hand.move(a.x + 40, a.y);
    hand.cancel();
    hand.release();
    expect(told.at(-1)).toBe('leave');
    expect(labels).toHaveLength(1);
    expect(hand.over(a.x, a.y)).toBe('handle');
  });

  it('pushes the sheet with another button, without an act', () => {
    const { board, hand, labels } = stand();
    const before = board.camera();
    hand.press(100, 100, { more: false, push: true });
    hand.move(160, 100);
    hand.release();
    expect(board.camera().x).toBeCloseTo(before.x - 60 / before.scale, 6);
    expect(labels).toEqual([]);
  });
});

describe('keys', () => {
  it('put moves together into one act after a pause, and start another with another act', () => {
    const { board, pause, stood, labels } = stand();
    put(board, 'barJump', { x: 5, y: 10 });
    for (let i = 0; i < 4; i++) nudge(board, 1, 0);
    expect(stood('p1').x).toBe(5);
    expect(board.shown().obstacles[0]?.stand?.x).toBe(7);
    pause();
    expect(stood('p1').x).toBe(7);
    turn(board, 15);
    turn(board, 15);
    nudge(board, 0, 1);
    expect(stood('p1').headingDegrees).toBe(30);
    board.settle();
    expect(stood('p1')).toEqual({ x: 7, y: 10.5, headingDegrees: 30 });
    expect(labels).toEqual(['Put down: bar jump', 'Move: barJump', 'Turn: barJump', 'Move: barJump']);
  });

  it('go through pieces, add the next, mirror, line up, duplicate and delete', () => {
    const { board, course, stood } = stand();
    for (const [x, y] of [
      [5, 5],
      [10, 6],
      [15, 5],
    ] as const)
      put(board, 'barJump', { x, y });
    choose(board, []);
    choosePiece(board, 1);
    choosePiece(board, 1, true);
    choosePiece(board, 1, true);
    expect(board.getState().chosen).toEqual(['p1', 'p2', 'p3']);
    align(board, 'row');
    expect(stood('p2').y).toBe(5);
    align(board, 'heading');
    expect(stood('p3').headingDegrees).toBe(stood('p1').headingDegrees);
    mirror(board);
    expect(Math.abs(stood('p1').headingDegrees)).toBe(180);
    duplicate(board);
    expect(course().obstacles.length).toBe(6);
    expect(board.getState().chosen.length).toBe(3);
    remove(board);
    expect(course().obstacles.length).toBe(3);
    choosePiece(board, -1);
    align(board, 'row');
    expect(board.getState().said).toBe('Choose two pieces or more first.');
  });

  it('number, turn round, mark backside and wrap, and take off', () => {
    const { board, course } = stand();
    put(board, 'barJump', { x: 5, y: 5 });
    giveChosen(board);
    giveChosen(board);
    otherWay(board);
    toggleBackside(board);
    nextWrap(board);
    expect(course().steps[1]).toMatchObject({
      number: 2,
      direction: 'reverse',
      backside: true,
      wrap: 'left',
    });
    nextWrap(board);
    nextWrap(board);
    toggleBackside(board);
    expect(course().steps[1]).toEqual({ number: 2, obstacleId: 'p1', direction: 'reverse' });
    choosePlace(board, 1);
    takeOff(board);
    expect(course().steps).toEqual([{ number: 1, obstacleId: 'p1', direction: 'reverse' }]);
  });

  it('keep numbers that marks stand on when their piece is deleted', () => {
    const { board, course } = stand(2);
    put(board, 'barJump', { x: 5, y: 5 });
    giveChosen(board);
    giveChosen(board);
    giveChosen(board);
    remove(board);
    expect(course().steps.map((s) => s.number)).toEqual([1, 2]);
    expect(courseProblems(course())).toEqual([]);
    expect(board.getState().said).toContain('Marks or plans stand on numbers');
  });

  it('put lines where they usually lie, move and turn them, and roll the wheel on', () => {
    const { board, course } = stand();
    put(board, 'barJump', { x: 10, y: 10 });
    giveChosen(board);
    putLine(board, 'start');
    expect(course().startLine).toEqual({ from: { x: 8, y: 12 }, to: { x: 8, y: 8 } });
    nudge(board, -1, 0);
    turn(board, 90);
    board.settle();
    expect(course().startLine).toEqual({ from: { x: 5.5, y: 10 }, to: { x: 9.5, y: 10 } });
    takeTool(board, { name: 'wheel' });
    nudge(board, 1, 0);
    nudge(board, 1, 0);
    nudge(board, 0, 1);
    board.settle();
    expect(course().wheelPath?.length).toBe(3);
  });

  it('bend a chosen tunnel and say what to choose where none is', () => {
    const { board, course } = stand();
    put(board, 'tunnel', { x: 10, y: 10 });
    bend(board, 15);
    bend(board, 15);
    board.settle();
    expect(course().obstacles[0]?.stand?.bend?.length).toBe(5);
    put(board, 'wall', { x: 20, y: 10 });
    bend(board, 15);
    expect(board.getState().said).toBe('Choose a tunnel first.');
  });
});

import type { ObstacleKind } from '../../../src/course/kinds.ts';
import { courseWords } from '../../../src/words/course.ts';
import { drawingWords } from '../../../src/words/drawing.ts';
import { courseHandOver } from '../../../src/words/courseHandOver.ts';
import { planPageWords } from '../../../src/words/planPage.ts';
import { traceWords } from '../../../src/words/trace.ts';
import { obstacleWords } from '../../../src/words/trade.ts';
import { defineActs, type Act } from '../keys/act.ts';

const words = courseWords.acts;
const draw = drawingWords.acts;
const plan = planPageWords.acts;

/** Places of this room: the drawing board has letters of its own. */
const course = 'course';
const board = 'course.board';

function act<const N extends string>(
  place: string,
  name: N,
  label: string,
  key: string,
  more: Pick<Act, 'also' | 'repeat'> = {},
) {
  return { name, label, key, place, ...more };
}

const held = { repeat: true } as const;
const putLabel = (kind: ObstacleKind): string => draw.put(obstacleWords.british[kind]);

/** The acts that put a kind down, in the order of the palette. */
export const putActs = {
  barJump: 'course.put.barJump',
  spread: 'course.put.spread',
  panel: 'course.put.panel',
  wall: 'course.put.wall',
  longJump: 'course.put.longJump',
  tyre: 'course.put.tyre',
  tunnel: 'course.put.tunnel',
  weavePoles: 'course.put.weavePoles',
  aFrame: 'course.put.aFrame',
  dogWalk: 'course.put.dogWalk',
  seeSaw: 'course.put.seeSaw',
  table: 'course.put.table',
} as const satisfies Partial<Record<ObstacleKind, string>>;

/** Every act of the Course screen with its default key. */
export const courseActs = defineActs([
  act(course, 'course.addObstacle', words.addObstacle, 'a'),
  act(course, 'course.attachPicture', words.attachPicture, 'p'),
  act(course, 'course.placeNumbers', words.placeNumbers, 'n'),
  act(course, 'course.layPicture', traceWords.act, 'l'),
  act(course, 'course.export', courseHandOver.act, '\\'),
  act(course, 'course.takeIn', courseHandOver.takeInAct, '/'),
  act(course, 'course.addCross', words.addCross, 'x'),
  act(course, 'course.nextNumber', words.nextNumber, '.', held),
  act(course, 'course.previousNumber', words.previousNumber, ',', held),
  act(course, 'course.left', words.left, 'ArrowLeft', held),
  act(course, 'course.right', words.right, 'ArrowRight', held),
  act(course, 'course.up', words.up, 'ArrowUp', held),
  act(course, 'course.down', words.down, 'ArrowDown', held),
  act(course, 'course.addSupport', plan.support, '`'),
  act(course, 'course.nextSpot', plan.nextSpot, "'", held),
  act(course, 'course.dropSpot', plan.dropSpot, '*'),
  act(course, 'course.play', plan.play, 'Space'),
  act(course, 'course.wanted', plan.wanted, 'F9'),
  act(course, 'course.nextPage', draw.nextPage, 'PageDown'),
  act(course, 'course.previousPage', draw.previousPage, 'PageUp'),

  act(board, putActs.barJump, putLabel('barJump'), '1'),
  act(board, putActs.spread, putLabel('spread'), '2'),
  act(board, putActs.panel, putLabel('panel'), '3'),
  act(board, putActs.wall, putLabel('wall'), '4'),
  act(board, putActs.longJump, putLabel('longJump'), '5'),
  act(board, putActs.tyre, putLabel('tyre'), '6'),
  act(board, putActs.tunnel, putLabel('tunnel'), '7'),
  act(board, putActs.weavePoles, putLabel('weavePoles'), '8'),
  act(board, putActs.aFrame, putLabel('aFrame'), '9'),
  act(board, putActs.dogWalk, putLabel('dogWalk'), '0'),
  act(board, putActs.seeSaw, putLabel('seeSaw'), 's'),
  act(board, putActs.table, putLabel('table'), 't'),

  act(board, 'course.give', draw.give, 'Enter'),
  act(board, 'course.otherWay', draw.otherWay, 'v'),
  act(board, 'course.backside', draw.backside, 'b'),
  act(board, 'course.wrap', draw.wrap, 'c'),
  act(board, 'course.takeOff', draw.takeOff, 'o'),

  act(board, 'course.nextPiece', draw.nextPiece, 'j', held),
  act(board, 'course.previousPiece', draw.previousPiece, 'k', held),
  act(board, 'course.nextToo', draw.nextToo, ';', held),
  act(board, 'course.all', draw.all, 'i', { also: ['Ctrl+a'] }),
  act(board, 'course.turnLeft', draw.turnLeft, 'q', held),
  act(board, 'course.turnRight', draw.turnRight, 'e', held),
  act(board, 'course.turnLeftFine', draw.turnLeftFine, '[', held),
  act(board, 'course.turnRightFine', draw.turnRightFine, ']', held),
  act(board, 'course.bendLeft', draw.bendLeft, '<', held),
  act(board, 'course.bendRight', draw.bendRight, '>', held),
  act(board, 'course.mirror', draw.mirror, 'm'),
  act(board, 'course.row', draw.row, 'r'),
  act(board, 'course.heading', draw.heading, 'h'),
  act(board, 'course.evenly', draw.evenly, 'u'),
  act(board, 'course.duplicate', draw.duplicate, 'd', { also: ['Ctrl+d'] }),
  act(board, 'course.remove', draw.remove, 'Delete'),

  act(board, 'course.wheel', draw.wheel, 'w'),
  act(board, 'course.start', draw.start, 'Home'),
  act(board, 'course.finish', draw.finish, 'End'),
  act(board, 'course.grid', draw.grid, 'g'),
  act(board, 'course.fit', draw.fit, 'f'),
  act(board, 'course.zoomIn', draw.zoomIn, '+', { also: ['='], repeat: true }),
  act(board, 'course.zoomOut', draw.zoomOut, '-', held),
  act(board, 'course.leave', draw.leave, 'Escape'),
]);

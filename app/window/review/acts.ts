import { captureSpeedWords } from '../../../src/words/captureSpeed.ts';
import { clipCutWords } from '../../../src/words/clipCut.ts';
import { copyWords } from '../../../src/words/copies.ts';
import { lookWords } from '../../../src/words/look.ts';
import { realLineWords } from '../../../src/words/realLine.ts';
import { reviewScreenWords } from '../../../src/words/reviewScreen.ts';
import { defineActs, type Act } from '../keys/act.ts';
import { groundActs } from './ground/acts.ts';

const words = reviewScreenWords.acts;
const speedKeys = captureSpeedWords.keys;
const cutKeys = clipCutWords.keys;
const looking = lookWords.acts;
const line = realLineWords.keys;

/**
 * Places of this room. `marking` surrounds what is done hands on: obstacles, a cross, the start line. Palettes and
 * the pen stand beside it, so that their letters are free.
 */
const everywhere = 'review';
const marking = 'review.marking';
const obstacles = 'review.marking.obstacles';
const cross = 'review.marking.cross';
const start = 'review.marking.start';
const events = 'review.events';
const refusal = 'review.refusal';
const crossKind = 'review.crossKind';
const pen = 'review.pen';
const speed = 'review.speed';
const cut = 'review.cut';
const moment = 'review.moment';
const look = 'review.look';
const track = 'review.track';

type More = Pick<Act, 'also' | 'repeat'>;

function act<const N extends string>(place: string, name: N, label: string, key: string, more: More = {}) {
  return { name, label, key, place, ...more };
}

const held: More = { repeat: true };

/** Every act of the review screen with its default key. */
export const reviewActs = defineActs([
  act(everywhere, 'review.play', words.play, 'Space'),
  act(everywhere, 'review.nextFrame', words.nextFrame, 'ArrowRight', held),
  act(everywhere, 'review.previousFrame', words.previousFrame, 'ArrowLeft', held),
  act(everywhere, 'review.tenForward', words.tenForward, '.', { also: ['Shift+ArrowRight'], repeat: true }),
  act(everywhere, 'review.tenBack', words.tenBack, ',', { also: ['Shift+ArrowLeft'], repeat: true }),
  act(everywhere, 'review.nextMark', words.nextMark, 'ArrowDown', held),
  act(everywhere, 'review.previousMark', words.previousMark, 'ArrowUp', held),
  act(everywhere, 'review.first', words.first, 'Home'),
  act(everywhere, 'review.last', words.last, 'End'),
  act(everywhere, 'review.slower', words.slower, '['),
  act(everywhere, 'review.faster', words.faster, ']'),
  act(everywhere, 'review.zoomIn', words.zoomIn, '+', { also: ['='], repeat: true }),
  act(everywhere, 'review.zoomOut', words.zoomOut, '-', held),
  act(everywhere, 'review.nearer', looking.nearer, 'PageUp', held),
  act(everywhere, 'review.further', looking.further, 'PageDown', held),
  act(everywhere, 'review.laid', looking.laid, '/'),
  act(everywhere, 'review.strip', looking.strip, "'"),
  act(everywhere, 'review.loopEnds', looking.loopEnds, ';'),
  act(everywhere, 'review.panel', words.panel, '\\'),
  act(everywhere, 'review.leave', words.leave, 'Escape'),

  act(marking, 'review.asFilmed', speedKeys.asFilmed, 'i'),
  act(marking, 'review.loop', words.loop, 'o'),
  act(marking, 'review.mute', words.mute, 'x'),
  act(marking, 'review.otherClip', words.otherClip, 'q'),
  act(marking, 'review.all', words.all, 'a'),
  act(marking, 'review.nextTab', words.nextTab, 't'),
  act(marking, 'review.table', words.table, 'b'),
  act(marking, 'review.look', looking.open, 'F9'),
  act(marking, 'review.move', words.move, 'm'),
  act(marking, 'review.nudgeBack', words.nudgeBack, 'h', held),
  act(marking, 'review.nudgeOn', words.nudgeOn, 'j', held),
  act(marking, 'review.unsure', words.unsure, 'u'),
  act(marking, 'review.edit', words.edit, 'Enter'),
  act(marking, 'review.remove', words.remove, 'Delete'),
  act(marking, 'review.number0', words.number(0), '0'),
  act(marking, 'review.number1', words.number(1), '1'),
  act(marking, 'review.number2', words.number(2), '2'),
  act(marking, 'review.number3', words.number(3), '3'),
  act(marking, 'review.number4', words.number(4), '4'),
  act(marking, 'review.number5', words.number(5), '5'),
  act(marking, 'review.number6', words.number(6), '6'),
  act(marking, 'review.number7', words.number(7), '7'),
  act(marking, 'review.number8', words.number(8), '8'),
  act(marking, 'review.number9', words.number(9), '9'),

  act(obstacles, 'review.in', words.in, 'd'),
  act(obstacles, 'review.out', words.out, 'f'),
  act(obstacles, 'review.whole', words.whole, 'g'),
  act(obstacles, 'review.events', words.events, 'e'),
  act(obstacles, 'review.cross', words.cross, 'c'),
  act(obstacles, 'review.start', words.start, 's'),
  act(obstacles, 'review.pen', words.pen, 'p'),
  act(obstacles, 'review.speed', speedKeys.open, 'k'),
  act(obstacles, 'review.cut', cutKeys.open, 'l'),
  act(obstacles, 'review.copy', copyWords.make, 'w'),
  act(obstacles, 'review.lineUp', words.lineUp, 'n'),

  act(obstacles, 'review.line', line.page, 'r'),
  act(obstacles, 'review.track', line.open, 'v'),

  act(cross, 'review.cross.feet', words.crossFeet, 'f'),
  act(cross, 'review.cross.shoulders', words.crossShoulders, 's'),
  act(cross, 'review.cross.slowing', words.crossSlowing, 'w'),
  act(cross, 'review.cross.voice', words.crossVoice, 'v'),
  act(cross, 'review.cross.finished', words.crossFinished, 'e'),
  act(cross, 'review.cross.committed', words.crossCommitted, 'c'),
  act(cross, 'review.cross.takeOff', words.crossTakeOff, 'd'),
  act(cross, 'review.cross.landing', words.crossLanding, 'l'),
  act(cross, 'review.cross.kind', words.crossKind, 'k'),

  act(crossKind, 'review.kind.front', words.kindFront, 'f'),
  act(crossKind, 'review.kind.blind', words.kindBlind, 'b'),
  act(crossKind, 'review.kind.rear', words.kindRear, 'r'),
  act(crossKind, 'review.kind.leadOutPivot', words.kindLeadOutPivot, 'p'),
  act(crossKind, 'review.kind.serpentine', words.kindSerpentine, 's'),
  act(crossKind, 'review.kind.threadle', words.kindThreadle, 't'),

  act(start, 'review.start.setUp', words.startSetUp, 's'),
  act(start, 'review.start.fake', words.startFake, 'f'),
  act(start, 'review.start.shift', words.startShift, 'w'),
  act(start, 'review.start.step', words.startStep, 'p'),
  act(start, 'review.start.release', words.startRelease, 'r'),
  act(start, 'review.start.nextTry', words.startNextTry, 'n'),
  act(start, 'review.start.paws', line.paws, 'k'),

  act(events, 'review.event.barDown', words.eventBarDown, 'b'),
  act(events, 'review.event.refusal', words.eventRefusal, 'r'),
  act(events, 'review.event.offCourse', words.eventOffCourse, 'o'),
  act(events, 'review.event.missedEntry', words.eventMissedEntry, 'm'),
  act(events, 'review.event.poppedOut', words.eventPoppedOut, 'p'),
  act(events, 'review.event.missedContact', words.eventMissedContact, 'c'),
  act(events, 'review.event.wide', words.eventWide, 'w'),
  act(events, 'review.event.lateCross', words.eventLateCross, 'l'),
  act(events, 'review.event.step', words.eventStep, 'k'),
  act(events, 'review.event.fake', words.eventFake, 'f'),
  act(events, 'review.event.release', words.eventRelease, 'g'),
  act(events, 'review.event.happy', words.eventHappy, 'h'),
  act(events, 'review.event.worried', words.eventWorried, 'u'),
  act(events, 'review.event.reward', words.eventReward, 't'),
  act(events, 'review.event.note', words.eventNote, 'n'),
  act(events, 'review.event.clockStart', words.eventClockStart, 's'),
  act(events, 'review.event.clockStop', words.eventClockStop, 'e'),
  act(events, 'review.event.newKind', words.eventNewKind, 'a'),
  act(events, 'review.own1', words.own(1), '1'),
  act(events, 'review.own2', words.own(2), '2'),
  act(events, 'review.own3', words.own(3), '3'),
  act(events, 'review.own4', words.own(4), '4'),
  act(events, 'review.own5', words.own(5), '5'),
  act(events, 'review.own6', words.own(6), '6'),
  act(events, 'review.own7', words.own(7), '7'),
  act(events, 'review.own8', words.own(8), '8'),
  act(events, 'review.own9', words.own(9), '9'),

  act(refusal, 'review.refusal.stopped', words.refusalStopped, 's'),
  act(refusal, 'review.refusal.ranBy', words.refusalRanBy, 'r'),
  act(refusal, 'review.refusal.throughFrame', words.refusalThroughFrame, 'f'),
  act(refusal, 'review.refusal.walkedThrough', words.refusalWalkedThrough, 'w'),
  act(refusal, 'review.refusal.headInTunnel', words.refusalHeadInTunnel, 'h'),

  act(speed, 'review.speed.type', speedKeys.type, 'Enter'),
  act(speed, 'review.speed.wholeSlow', speedKeys.wholeSlow, 'w'),
  act(speed, 'review.speed.wholeLife', speedKeys.wholeLife, 'r'),
  act(speed, 'review.speed.fromSlow', speedKeys.fromSlow, 's'),
  act(speed, 'review.speed.fromLife', speedKeys.fromLife, 'e'),
  act(speed, 'review.speed.takeAway', speedKeys.takeAway, 'Delete'),
  act(speed, 'review.speed.countFrom', speedKeys.countFrom, 'a'),
  act(speed, 'review.speed.countTo', speedKeys.countTo, 'b'),

  act(cut, 'review.cut.begin', cutKeys.begin, 'b'),
  act(cut, 'review.cut.end', cutKeys.end, 'e'),
  act(cut, 'review.cut.name', cutKeys.name, 'n'),
  act(cut, 'review.cut.make', cutKeys.make, 'm'),
  act(cut, 'review.cut.beyond', cutKeys.beyond, 'v'),
  act(cut, 'review.cut.remove', cutKeys.remove, 'Delete'),

  act(moment, 'review.moment.same', words.momentSame, 's'),
  act(moment, 'review.moment.otherClip', words.otherClip, 'q'),

  ...groundActs,

  act(pen, 'review.pen.persimmon', words.penPersimmon, '1'),
  act(pen, 'review.pen.chalk', words.penChalk, '2'),
  act(pen, 'review.pen.sky', words.penSky, '3'),
  act(pen, 'review.pen.sun', words.penSun, '4'),
  act(pen, 'review.pen.back', words.penBack, 'b'),
  act(pen, 'review.pen.clear', words.penClear, 'Delete'),

  act(track, 'review.track.up', line.up, 'i', held),
  act(track, 'review.track.down', line.down, 'k', held),
  act(track, 'review.track.left', line.left, 'j', held),
  act(track, 'review.track.right', line.right, 'l', held),
  act(track, 'review.track.fine', line.fine, 'f'),
  act(track, 'review.track.put', line.put, 'Enter'),
  act(track, 'review.track.ground', line.ground, 'g'),
  act(track, 'review.track.air', line.air, 'a'),
  act(track, 'review.track.skip', line.skip, 'n'),
  act(track, 'review.track.back', line.back, 'b'),
  act(track, 'review.track.remove', line.remove, 'Delete'),
  act(track, 'review.track.dog', line.dog, 'd'),
  act(track, 'review.track.handler', line.handler, 'h'),
  act(track, 'review.track.point', line.point, 'p'),
  act(track, 'review.track.shorter', line.shorter, 'q'),
  act(track, 'review.track.longer', line.longer, 'w'),

  act(look, 'review.look.whole', looking.whole, 'v'),
  act(look, 'review.look.up', looking.up, 'i', held),
  act(look, 'review.look.down', looking.down, 'k', held),
  act(look, 'review.look.left', looking.left, 'j', held),
  act(look, 'review.look.right', looking.right, 'l', held),
  act(look, 'review.look.setPlace', looking.setPlace, 'f'),
  act(look, 'review.look.removePlace', looking.removePlace, 'r', { also: ['Delete'] }),
  act(look, 'review.look.nextPlace', looking.nextPlace, 'n'),
  act(look, 'review.look.previousPlace', looking.previousPlace, 'b'),
  act(look, 'review.look.each1', looking.each(1), '1'),
  act(look, 'review.look.each2', looking.each(2), '2'),
  act(look, 'review.look.each3', looking.each(3), '3'),
  act(look, 'review.look.darker', looking.darker, 'q', held),
  act(look, 'review.look.brighter', looking.brighter, 'w', held),
  act(look, 'review.look.lessContrast', looking.lessContrast, 'a', held),
  act(look, 'review.look.moreContrast', looking.moreContrast, 's', held),
  act(look, 'review.look.gammaDown', looking.gammaDown, 'x', held),
  act(look, 'review.look.gammaUp', looking.gammaUp, 'c', held),
  act(look, 'review.look.asFilmed', looking.asFilmed, 't'),
]);

import { useEffect, useMemo } from 'react';
import { copyWords } from '../../../src/words/copies.ts';
import { redoAct, undoAct } from '../frame/useFrameActs.ts';
import { useActs, type ActHandlers } from '../keys/useActs.ts';
import { useReview, useWorkbench } from '../stores/react.ts';
import { useDesk, useDeskView } from './DeskContext.ts';
import type { Desk } from './desk/desk.ts';
import type { Hands } from './desk/hands.ts';
import type { ModeName } from './desk/view.ts';
import type { Look } from './look/look.ts';
import { alwaysLooking, lookingCloser } from './look/acts.ts';
import { markedSpanOf } from './useLineContent.ts';

type Doing = ActHandlers;

/** Registers every key of this screen; which are awake depends on what the hands are at. */
export function useReviewActs(): void {
  const { desk, hands, look } = useDesk();
  const workbench = useWorkbench();
  const mode = useDeskView((v) => v.mode.name);
  const severalClips = useReview((v) => (v.state?.footage.length ?? 0) > 1);
  const acts = useMemo<Doing>(() => {
    const all: Doing = {
      ...getAbout(desk, hands, look),
      ...alwaysLooking(desk, look),
      'frame.undo': () => void undoQuietly(workbench, desk),
      'frame.redo': () => void redoQuietly(workbench, desk),
    };
    if (mode === 'obstacles' || mode === 'cross' || mode === 'start') {
      Object.assign(
        all,
        marking(desk, hands, () => markedSpanOf(workbench)),
      );
      if (mode === 'obstacles') all['review.copy'] = () => void askForCopy(workbench, desk);
      if (severalClips) all['review.otherClip'] = desk.otherClip;
    }
    Object.assign(all, inMode(mode, desk, hands, look));
    return all;
  }, [desk, hands, look, workbench, mode, severalClips]);
  useActs(acts);
  useEffect(() => {
    const { release } = desk;
    // A key let go of while another window has the focus is never told of.
    for (const end of ['keyup', 'blur'] as const) window.addEventListener(end, release);
    return () => {
      release();
      for (const end of ['keyup', 'blur'] as const) window.removeEventListener(end, release);
    };
  }, [desk]);
}

/** Asks for a working copy of the clip on the desk; the picture goes over to it when it is ready. */
async function askForCopy(workbench: ReturnType<typeof useWorkbench>, desk: Desk): Promise<void> {
  const { footageId } = desk.store.getState();
  const use = workbench.review.getState().state?.footage.find((f) => f.id === footageId);
  const clip = use && workbench.library.getState().clips.get(use.clipId);
  if (!clip) return;
  if (clip.copy !== null) {
    desk.say(copyWords.there);
    return;
  }
  try {
    await workbench.host.start('clip.workingCopy', { clipId: clip.id });
    desk.say(copyWords.asked);
  } catch (error) {
    workbench.notices.getState().trouble(error);
  }
}

/** Undo and redo say what they did at the desk, so that no notice moves the picture. */
async function undoQuietly(workbench: ReturnType<typeof useWorkbench>, desk: Desk): Promise<void> {
  const { canUndo, underWay } = workbench.review.getState();
  if (canUndo === null && underWay === 0) await undoAct(workbench);
  else await workbench.review.undo();
  desk.dropLostSelection();
}

async function redoQuietly(workbench: ReturnType<typeof useWorkbench>, desk: Desk): Promise<void> {
  if (workbench.review.getState().canRedo === null) await redoAct(workbench);
  else await workbench.review.redo();
  desk.dropLostSelection();
}

function getAbout(desk: Desk, hands: Hands, look: Look): Doing {
  return {
    'review.play': () => {
      desk.play();
    },
    'review.nextFrame': (press) => {
      if (press.repeat) desk.hold(1);
      else desk.step(1);
    },
    'review.previousFrame': (press) => {
      if (press.repeat) desk.hold(-1);
      else desk.step(-1);
    },
    'review.tenForward': () => {
      desk.step(10);
    },
    'review.tenBack': () => {
      desk.step(-10);
    },
    'review.nextMark': () => {
      desk.toMark(1);
    },
    'review.previousMark': () => {
      desk.toMark(-1);
    },
    'review.first': () => {
      desk.toEnd('first');
    },
    'review.last': () => {
      desk.toEnd('last');
    },
    'review.slower': () => {
      desk.faster(-1);
    },
    'review.faster': () => {
      desk.faster(1);
    },
    'review.zoomIn': () => {
      desk.zoom(0.5);
    },
    'review.zoomOut': () => {
      desk.zoom(2);
    },
    'review.panel': () => {
      desk.set({ folded: !desk.store.getState().folded });
    },
    'review.leave': () => {
      const { mode, table, editing } = desk.store.getState();
      const atRest = mode.name === 'obstacles' && !table && !editing;
      if (atRest && look.store.getState().laid) look.liftOff();
      else hands.leave();
    },
  };
}

function marking(desk: Desk, hands: Hands, marked: () => ReturnType<typeof markedSpanOf>): Doing {
  const acts: Doing = {
    'review.loop': () => {
      desk.toggleLoop();
    },
    'review.mute': () => {
      desk.toggleMute();
    },
    'review.all': () => {
      desk.showAll(marked());
    },
    'review.nextTab': () => {
      desk.nextTab();
    },
    'review.table': () => {
      desk.set({ table: !desk.store.getState().table });
    },
    'review.look': () => {
      desk.enter({ name: 'look', from: desk.store.getState().mode });
    },
    'review.move': () => {
      hands.move();
    },
    'review.nudgeBack': () => {
      hands.nudge(-1);
    },
    'review.nudgeOn': () => {
      hands.nudge(1);
    },
    'review.unsure': () => {
      hands.unsure();
    },
    'review.edit': () => {
      hands.enter();
    },
    'review.remove': () => {
      hands.remove();
    },
  };
  for (const digit of [0, 1, 2, 3, 4, 5, 6, 7, 8, 9] as const) {
    acts[`review.number${digit}`] = () => {
      hands.typeDigit(digit);
    };
  }
  return acts;
}

function inMode(mode: ModeName, desk: Desk, hands: Hands, look: Look): Doing {
  switch (mode) {
    case 'obstacles':
      return {
        'review.in': () => {
          hands.take('in');
        },
        'review.out': () => {
          hands.take('out');
        },
        'review.whole': () => {
          hands.take('whole');
        },
        'review.events': () => {
          hands.openEvents();
        },
        'review.cross': () => {
          hands.openCross();
        },
        'review.start': () => {
          desk.enter({ name: 'start' });
          desk.set({ tab: 'start' });
        },
        'review.lineUp': () => {
          desk.pause();
          desk.set({ lining: true });
        },
        'review.pen': () => {
          desk.pause();
          desk.enter({ name: 'pen' });
        },
      };
    case 'cross':
      return {
        ...each(['feet', 'shoulders', 'slowing', 'voice'] as const, (cue) => [
          `review.cross.${cue}`,
          () => {
            hands.crossMoment('cueBegins', cue);
          },
        ]),
        'review.cross.finished': () => {
          hands.crossMoment('cueEnds');
        },
        'review.cross.committed': () => {
          hands.crossMoment('committed');
        },
        'review.cross.takeOff': () => {
          hands.crossMoment('takeOff');
        },
        'review.cross.landing': () => {
          hands.crossMoment('landing');
        },
        'review.cross.kind': () => {
          hands.askKind();
        },
      };
    case 'crossKind':
      return each(['front', 'blind', 'rear', 'leadOutPivot', 'serpentine', 'threadle'] as const, (kind) => [
        `review.kind.${kind}`,
        () => {
          hands.chooseKind(kind);
        },
      ]);
    case 'start':
      return {
        ...each(['setUp', 'fake', 'shift', 'step', 'release'] as const, (part) => [
          `review.start.${part}`,
          () => {
            hands.startMoment(part);
          },
        ]),
        'review.start.nextTry': () => {
          hands.nextTry();
        },
      };
    case 'events':
      return {
        ...each(
          [
            'barDown',
            'offCourse',
            'missedEntry',
            'poppedOut',
            'missedContact',
            'wide',
            'lateCross',
            'happy',
            'worried',
            'reward',
            'clockStart',
            'clockStop',
          ] as const,
          (event) => [
            `review.event.${event}`,
            () => {
              hands.note(event);
            },
          ],
        ),
        ...each(['step', 'fake', 'release'] as const, (part) => [
          `review.event.${part}`,
          () => {
            hands.noteStart(part);
          },
        ]),
        'review.event.refusal': () => {
          hands.narrow('refusal');
        },
        'review.event.note': () => {
          desk.pause();
          hands.note('note');
          desk.set({ editing: true, folded: false, tab: 'marks' });
        },
        'review.event.newKind': () => {
          desk.pause();
          hands.narrow('newKind');
        },
        ...each([1, 2, 3, 4, 5, 6, 7, 8, 9] as const, (n) => [
          `review.own${n}`,
          () => {
            hands.noteOwn(n - 1);
          },
        ]),
      };
    case 'refusal':
      return each(['stopped', 'ranBy', 'throughFrame', 'walkedThrough', 'headInTunnel'] as const, (kind) => [
        `review.refusal.${kind}`,
        () => {
          hands.note('refusal', kind);
        },
      ]);
    case 'pen':
      return {
        ...each(['persimmon', 'chalk', 'sky', 'sun'] as const, (ink) => [
          `review.pen.${ink}`,
          () => {
            desk.set({ ink });
          },
        ]),
        'review.pen.back': () => {
          hands.strokeBack();
        },
        'review.pen.clear': () => {
          hands.clearDrawing();
        },
      };
    case 'moment':
      return {
        'review.moment.same': () => {
          hands.sameMoment();
        },
        'review.moment.otherClip': desk.otherClip,
      };
    case 'look':
      return lookingCloser(look);
    case 'newKind':
    case 'ground':
    case 'track':
    case 'speed':
    case 'cut':
      return {};
  }
}

function each<T, N extends keyof Doing>(
  items: readonly T[],
  make: (item: T) => readonly [N, () => void],
): Doing {
  return Object.fromEntries(items.map(make));
}

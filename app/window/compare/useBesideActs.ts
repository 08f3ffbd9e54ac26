import { useActs } from '../keys/useActs.ts';
import { useWorkbench } from '../stores/react.ts';
import type { CourseTime } from './courseTime.ts';
import type { Lockstep } from './lockstep.ts';

interface BesideActs {
  readonly lockstep: Lockstep;
  readonly course: CourseTime;
  readonly ids: readonly string[];
  onParts(): void;
  onOtherClips(): void;
}

/** What keys do while runs stand side by side. */
export function useBesideActs({ lockstep, course, ids, onParts, onOtherClips }: BesideActs): void {
  const { route } = useWorkbench();
  const to = (reviewIds: readonly string[]): void => {
    route.go({ screen: 'compare', reviewIds });
  };
  useActs({
    'compare.play': lockstep.toggle,
    'compare.nextFrame': () => {
      lockstep.step(1);
    },
    'compare.previousFrame': () => {
      lockstep.step(-1);
    },
    'compare.tenForward': () => {
      lockstep.step(10);
    },
    'compare.tenBack': () => {
      lockstep.step(-10);
    },
    'compare.nextObstacle': () => {
      course.stepPlace(1);
    },
    'compare.previousObstacle': () => {
      course.stepPlace(-1);
    },
    'compare.first': () => {
      lockstep.toEnd('first');
    },
    'compare.last': () => {
      lockstep.toEnd('last');
    },
    'compare.slower': () => {
      lockstep.faster(-1);
    },
    'compare.faster': () => {
      lockstep.faster(1);
    },
    'compare.lock': () => {
      lockstep.setLock(lockstep.store.getState().lock === 'place' ? 'clock' : 'place');
    },
    'compare.parts': ids.length > 2 ? onParts : undefined,
    'compare.otherClips': onOtherClips,
    'compare.measure': () => {
      to([...ids.slice(1), ...ids.slice(0, 1)]);
    },
    'compare.choose': () => {
      to(ids.slice(0, 1));
    },
  });
}

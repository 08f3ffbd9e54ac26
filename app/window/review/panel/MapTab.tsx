import { useMemo } from 'react';
import { reviewScreenWords } from '../../../../src/words/reviewScreen.ts';
import { Button } from '../../look/Button.tsx';
import { CourseMap } from '../../map/CourseMap.tsx';
import { usePicture } from '../../map/usePicture.ts';
import { useWorkbench } from '../../stores/react.ts';
import { useDesk, useDeskView, useOpenReview } from '../DeskContext.ts';
import { useHand } from '../useHand.ts';
import { Empty } from './Empty.tsx';
import styles from './MapTab.module.css';
import { upright } from './turned.ts';

const words = reviewScreenWords.map;

/** The course; its numbers and the posts on the line of time are the same things. */
export function MapTab() {
  const { desk } = useDesk();
  const { route } = useWorkbench();
  const { id, course, marks } = useOpenReview();
  const selected = useDeskView((v) => v.selected);
  const pictureUrl = usePicture(course.mapPicture?.pictureId);
  const hand = useHand();
  const sheet = useMemo(() => upright(course), [course]);
  const chosen = marks.find((m) => m.id === selected);
  const place = chosen && 'place' in chosen ? (chosen.place ?? null) : null;
  const known = course.mapPicture !== undefined || course.obstacles.some((o) => o.stand);
  return (
    <div className={styles['map']}>
      {course.steps.length > 0 && (
        <>
          <div className={styles['sheet']}>
            <CourseMap
              course={sheet}
              selectedPlace={place ?? hand.place}
              pictureUrl={pictureUrl}
              onSelect={(n) => {
                desk.goToPlace(n);
              }}
            />
          </div>
          <p className={styles['soft']}>{words.hint}</p>
        </>
      )}
      {!known && (
        <Empty title={words.empty} text={words.emptyNext}>
          <Button
            onClick={() => {
              route.go({ screen: 'course', reviewId: id });
            }}
          >
            {words.toCourse}
          </Button>
        </Empty>
      )}
    </div>
  );
}

import { Image as ImageIcon, MousePointerClick, Trash2 } from 'lucide-react';
import { useEffect, useEffectEvent, useState } from 'react';
import type { PickedFile } from '../../../src/host/contract/shell.ts';
import { courseWords } from '../../../src/words/course.ts';
import { useActs } from '../keys/useActs.ts';
import { Button } from '../look/Button.tsx';
import { Choice } from '../look/Field.tsx';
import { CourseMap } from '../map/CourseMap.tsx';
import { usePicture } from '../map/usePicture.ts';
import { useWorkbench } from '../stores/react.ts';
import styles from './MapPane.module.css';
import { PictureNumbers } from './PictureNumbers.tsx';
import { useCourse } from './useCourse.ts';

const words = courseWords.picture;
const labels = courseWords.labels;

interface MapPaneProps {
  readonly selected: number | null;
  readonly onSelect: (place: number) => void;
}

/** The map: the drawn plan, the picture of the judge's map with its numbers, or the way to attach one. */
export function MapPane({ selected, onSelect }: MapPaneProps) {
  const { host, shell, notices, intake } = useWorkbench();
  const { state, changeCourse } = useCourse();
  const { course } = state;
  const [taking, setTaking] = useState(false);
  const [placing, setPlacing] = useState(false);
  const drawn = course.obstacles.filter((o) => o.stand).length > 1;
  const [view, setView] = useState<'plan' | 'photo'>(drawn ? 'plan' : 'photo');
  const picture = course.mapPicture;
  const url = usePicture(picture?.pictureId);
  const showPicture = picture !== undefined && (!drawn || view === 'photo');

  const take = async (file: PickedFile): Promise<void> => {
    setTaking(true);
    try {
      const { pictureId, name, width, height } = await host.call('picture.keep', {
        source: await file.source(),
      });
      changeCourse(labels.picture, (c) => ({ ...c, mapPicture: { pictureId, name, width, height } }));
      setView('photo');
      setPlacing(course.steps.some((step) => !step.onPicture));
    } catch (error) {
      notices.getState().trouble(error);
    } finally {
      setTaking(false);
    }
  };
  const attach = (): void => {
    shell.chooseFiles('picture', false).then(
      ([file]) => {
        if (file) void take(file);
      },
      (error: unknown) => {
        notices.getState().trouble(error);
      },
    );
  };
  const takeDropped = useEffectEvent((file: PickedFile) => void take(file));
  useEffect(() => intake.onPicture((file) => takeDropped(file)), [intake]);
  const togglePlacing = (): void => {
    setView('photo');
    setPlacing((on) => !on);
  };
  useActs({
    'course.attachPicture': attach,
    'course.placeNumbers': picture && course.steps.length > 0 ? togglePlacing : undefined,
  });

  return (
    <section className={styles['pane']} aria-label={courseWords.title}>
      <div className={styles['tools']}>
        {drawn && picture && (
          <Choice
            label={words.view}
            value={view}
            options={[
              ['plan', words.plan],
              ['photo', words.photo],
            ]}
            onChange={setView}
          />
        )}
        <Button icon={<ImageIcon aria-hidden />} act="course.attachPicture" onClick={attach}>
          {picture ? words.other : words.attach}
        </Button>
        {picture && course.steps.length > 0 && (
          <Button
            icon={<MousePointerClick aria-hidden />}
            act="course.placeNumbers"
            pressed={placing && showPicture}
            onClick={togglePlacing}
          >
            {placing && showPicture ? words.done : words.place}
          </Button>
        )}
        {picture && (
          <Button
            kind="quiet"
            icon={<Trash2 aria-hidden />}
            onClick={() => {
              setPlacing(false);
              changeCourse(labels.pictureOff, ({ mapPicture: _, ...rest }) => rest);
            }}
          >
            {words.remove}
          </Button>
        )}
        {taking && <p role="status">{words.reading}</p>}
      </div>
      {showPicture && url ? (
        <PictureNumbers
          key={url}
          url={url}
          placing={placing}
          selected={selected}
          onSelect={onSelect}
          onPlaced={() => {
            setPlacing(false);
          }}
        />
      ) : (
        <>
          {!drawn && <p className={styles['intro']}>{words.intro}</p>}
          <div className={styles['map']}>
            {course.steps.length > 0 && (
              <CourseMap course={course} selectedPlace={selected} onSelect={onSelect} pictureUrl={url} />
            )}
          </div>
        </>
      )}
    </section>
  );
}

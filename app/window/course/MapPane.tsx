import { Image as ImageIcon, MousePointerClick, Trash2 } from 'lucide-react';
import { useEffect, useEffectEvent, useState } from 'react';
import type { PickedFile } from '../../../src/host/contract/shell.ts';
import { courseWords } from '../../../src/words/course.ts';
import { useActs } from '../keys/useActs.ts';
import { Button } from '../look/Button.tsx';
import { usePicture } from '../map/usePicture.ts';
import { usePreferences, useWorkbench } from '../stores/react.ts';
import { useBoard } from './BoardContext.ts';
import { BoardTools, ToolHint } from './BoardTools.tsx';
import { DrawingBoard } from './board/DrawingBoard.tsx';
import { useBoardActs } from './board/useBoardActs.ts';
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
  const picture = course.mapPicture;
  const [view, setView] = useState<'plan' | 'photo'>(drawn || !picture ? 'plan' : 'photo');
  const url = usePicture(picture?.pictureId);
  const showPicture = picture !== undefined && view === 'photo';

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
  useEffect(() => intake.onDropped('picture', (file) => takeDropped(file)), [intake]);
  const togglePlacing = (): void => {
    setView('photo');
    setPlacing((on) => !on);
  };
  useActs({
    'course.attachPicture': attach,
    'course.placeNumbers': showPicture && course.steps.length > 0 ? togglePlacing : undefined,
  });

  return (
    <section className={styles['pane']} aria-label={courseWords.title}>
      <div className={styles['tools']}>
        {picture && (
          <div role="group" aria-label={words.view} className={styles['views']}>
            {(['plan', 'photo'] as const).map((which) => (
              <Button
                key={which}
                pressed={view === which}
                onClick={() => {
                  setView(which);
                }}
              >
                {words[which]}
              </Button>
            ))}
          </div>
        )}
        <Button icon={<ImageIcon aria-hidden />} act="course.attachPicture" onClick={attach}>
          {picture ? words.other : words.attach}
        </Button>
        {showPicture && course.steps.length > 0 && (
          <Button
            icon={<MousePointerClick aria-hidden />}
            act="course.placeNumbers"
            pressed={placing}
            onClick={togglePlacing}
          >
            {placing ? words.done : words.place}
          </Button>
        )}
        {picture && (
          <Button
            kind="quiet"
            icon={<Trash2 aria-hidden />}
            onClick={() => {
              setPlacing(false);
              setView('plan');
              changeCourse(labels.pictureOff, ({ mapPicture: _, underlay: __, ...rest }) => rest);
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
        <Plan />
      )}
    </section>
  );
}

/** The drawing with its tools. */
function Plan() {
  const board = useBoard();
  const { preferences } = useWorkbench();
  const { state } = useCourse();
  const lengths = usePreferences((p) => p.lengths);
  useBoardActs(board, (boardGrid) => void preferences.change({ boardGrid }));
  return (
    <>
      <div>
        <BoardTools />
        <ToolHint />
      </div>
      <DrawingBoard board={board} seen={[state.course, lengths]} />
    </>
  );
}

import { Image as ImageIcon, MousePointerClick, ScanLine, Trash2 } from 'lucide-react';
import { useEffect, useEffectEvent, useState } from 'react';
import type { PickedFile } from '../../../src/host/contract/shell.ts';
import { courseWords } from '../../../src/words/course.ts';
import { traceWords } from '../../../src/words/trace.ts';
import { useActs } from '../keys/useActs.ts';
import { Button } from '../look/Button.tsx';
import { usePicture } from '../map/usePicture.ts';
import { useBookOf } from '../stores/bookOf.ts';
import { usePreferences, useWorkbench } from '../stores/react.ts';
import { useBoard } from './BoardContext.ts';
import { BoardTools, ToolHint, ViewTools } from './BoardTools.tsx';
import { DrawingBoard } from './board/DrawingBoard.tsx';
import { useBoardActs } from './board/useBoardActs.ts';
import styles from './MapPane.module.css';
import { PictureNumbers } from './PictureNumbers.tsx';
import { LayPicture } from './trace/LayPicture.tsx';
import { PdfPages, type PdfShown } from './trace/PdfPages.tsx';
import { UnderlayPicture } from './trace/UnderlayPicture.tsx';
import { UnderlayTools } from './trace/UnderlayTools.tsx';
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
  const [laying, setLaying] = useState(false);
  const [pdf, setPdf] = useState<PdfShown | null>(null);
  const board = useBoard();
  const drawn = course.obstacles.filter((o) => o.stand).length > 1;
  const picture = course.mapPicture;
  const [view, setView] = useState<'plan' | 'photo'>(drawn || !picture ? 'plan' : 'photo');
  const url = usePicture(picture?.pictureId);
  const showPicture = picture !== undefined && view === 'photo';

  const take = async (file: PickedFile, page = 1): Promise<void> => {
    setTaking(true);
    try {
      const {
        pages,
        mediaId: _,
        ...mapPicture
      } = await host.call('picture.keep', {
        source: await file.source(),
        page,
      });
      // Where the picture before lay says nothing of this one.
      changeCourse(labels.picture, ({ underlay: __, ...c }) => ({ ...c, mapPicture }));
      setPdf(pages > 1 ? { file, page, pages } : null);
      setLaying(false);
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
  const lay = (): void => {
    setPlacing(false);
    setView('photo');
    setLaying((on) => !on);
  };
  useActs({
    'course.attachPicture': attach,
    'course.layPicture': picture ? lay : undefined,
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
                  setLaying(false);
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
        {showPicture && !laying && course.steps.length > 0 && (
          <Button
            icon={<MousePointerClick aria-hidden />}
            act="course.placeNumbers"
            pressed={placing}
            onClick={togglePlacing}
          >
            {placing ? words.done : words.place}
          </Button>
        )}
        {showPicture && !laying && (
          <Button icon={<ScanLine aria-hidden />} act="course.layPicture" onClick={lay}>
            {course.underlay ? traceWords.again : traceWords.lay}
          </Button>
        )}
        {showPicture && pdf && (
          <PdfPages
            shown={pdf}
            disabled={taking}
            onPage={(page) => {
              void take(pdf.file, page);
            }}
          />
        )}
        {picture && (
          <Button
            kind="quiet"
            icon={<Trash2 aria-hidden />}
            onClick={() => {
              setPlacing(false);
              setLaying(false);
              setPdf(null);
              setView('plan');
              changeCourse(labels.pictureOff, ({ mapPicture: _, underlay: __, ...rest }) => rest);
            }}
          >
            {words.remove}
          </Button>
        )}
        {taking && <p role="status">{words.reading}</p>}
        {!showPicture && <ViewTools />}
      </div>
      {showPicture && laying && url ? (
        <LayPicture
          key={url}
          picture={picture}
          url={url}
          onDone={(laid) => {
            setLaying(false);
            if (!laid) return;
            setView('plan');
            board.fit();
            if (board.getState().grid === 'snap') {
              board.setState({ grid: 'shown' });
              notices.getState().say(traceWords.laid);
            }
          }}
        />
      ) : showPicture && url ? (
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
        <Plan url={url} onLay={lay} />
      )}
    </section>
  );
}

/** The drawing with its tools. */
function Plan({ url, onLay }: { readonly url: string | null; readonly onLay: () => void }) {
  const board = useBoard();
  const { preferences } = useWorkbench();
  const { state } = useCourse();
  const lengths = usePreferences((p) => p.lengths);
  const { book } = useBookOf(state.course);
  useBoardActs(board, (boardGrid) => void preferences.change({ boardGrid }));
  return (
    <>
      <div>
        <BoardTools />
        <UnderlayTools onLay={onLay} />
        <ToolHint />
      </div>
      <DrawingBoard
        board={board}
        seen={[state.course, lengths, book]}
        under={state.course.underlay && url && <UnderlayPicture board={board} url={url} />}
      />
    </>
  );
}

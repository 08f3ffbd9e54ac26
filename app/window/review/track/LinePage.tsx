import { realLineWords } from '../../../../src/words/realLine.ts';
import { Button } from '../../look/Button.tsx';
import { useWorkbench } from '../../stores/react.ts';
import { useDesk, useDeskView, useLines, useOpenReview, useTrack } from '../DeskContext.ts';
import { Empty } from '../panel/Empty.tsx';
import { HandlerPart } from './HandlerPart.tsx';
import { Here } from './Here.tsx';
import { LineLayers } from './LineLayers.tsx';
import { AlongLine, LineMap } from './LineMap.tsx';
import styles from './LinePage.module.css';
import { MarkTools } from './MarkTools.tsx';
import { LeftOutPart } from './LeftOutPart.tsx';
import { ProposedPart } from './ProposedPart.tsx';
import { StretchPart } from './StretchPart.tsx';

const words = realLineWords.page;

/** The line that she really ran: marking it, seeing it, and what it says. */
export function LinePage() {
  const { track } = useDesk();
  const marking = useDeskView((v) => v.mode.name === 'track');
  const wait = useTrack((v) => v.during === 'wait');
  const need = useLines((v) => v.need);
  return (
    <div className={styles['page']}>
      {marking && !wait ? (
        <MarkTools />
      ) : (
        need !== 'clip' && (
          <div className={styles['row']}>
            <Button
              kind={need === 'marks' ? 'main' : 'plain'}
              act="review.track"
              onClick={() => {
                track.open();
              }}
            >
              {words.mark}
            </Button>
          </div>
        )
      )}
      {need === null ? <Told /> : <Needs need={need} />}
    </div>
  );
}

function Told() {
  return (
    <>
      <LineMap />
      <AlongLine />
      <LineLayers />
      <Here />
      <ProposedPart />
      <StretchPart />
      <HandlerPart />
      <LeftOutPart />
      <p className={styles['soft']}>{words.caution}</p>
    </>
  );
}

/** What the line would need, and the way there. */
function Needs({ need }: { readonly need: 'clip' | 'course' | 'fit' | 'marks' }) {
  const { route } = useWorkbench();
  const { ground } = useDesk();
  const { id } = useOpenReview();
  const told = words.needs[need];
  return (
    <>
      {need === 'marks' && <LineMap />}
      <Empty title={told.title} text={told.text}>
        {need === 'course' && (
          <Button
            kind="main"
            onClick={() => {
              route.go({ screen: 'course', reviewId: id });
            }}
          >
            {words.toCourse}
          </Button>
        )}
        {need === 'fit' && (
          <Button kind="main" act="review.ground" onClick={ground.open}>
            {words.toFit}
          </Button>
        )}
        {need === 'clip' && (
          <Button
            kind="main"
            onClick={() => {
              route.go({ screen: 'library' });
            }}
          >
            {words.toLibrary}
          </Button>
        )}
      </Empty>
      {need === 'marks' && <LeftOutPart />}
    </>
  );
}

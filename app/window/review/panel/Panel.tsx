import { useRef, type KeyboardEvent } from 'react';
import { captureSpeedWords } from '../../../../src/words/captureSpeed.ts';
import { clipCutWords } from '../../../../src/words/clipCut.ts';
import { lookWords } from '../../../../src/words/look.ts';
import { reviewScreenWords } from '../../../../src/words/reviewScreen.ts';
import { CutPage } from '../clip/CutPage.tsx';
import { SpeedPage } from '../clip/SpeedPage.tsx';
import { useDesk, useDeskView } from '../DeskContext.ts';
import { tabs, type Tab } from '../desk/view.ts';
import { GroundPage } from '../ground/GroundPage.tsx';
import { CrossesTab } from './CrossesTab.tsx';
import { LookTab } from './LookTab.tsx';
import { LinePage } from '../track/LinePage.tsx';
import { MapTab } from './MapTab.tsx';
import { MarksTab } from './MarksTab.tsx';
import styles from './Panel.module.css';
import { PenTab } from './PenTab.tsx';
import { SplitsTab } from './SplitsTab.tsx';
import { StartTab } from './StartTab.tsx';

const words = reviewScreenWords.tabs;

const pages: Readonly<Record<Tab, () => React.ReactNode>> = {
  marks: MarksTab,
  crosses: CrossesTab,
  start: StartTab,
  splits: SplitsTab,
  line: LinePage,
  map: MapTab,
  ground: GroundPage,
};

/** The pages beside the picture. While the pen is out, or one looks closer, the tools for that stand here instead. */
export function Panel() {
  const { desk } = useDesk();
  const tab = useDeskView((v) => v.tab);
  const pen = useDeskView((v) => v.mode.name === 'pen');
  const cut = useDeskView((v) => v.mode.name === 'cut');
  const speed = useDeskView((v) => v.mode.name === 'speed');
  const looking = useDeskView((v) => v.mode.name === 'look');
  const list = useRef<HTMLDivElement>(null);
  const onKeyDown = (event: KeyboardEvent): void => {
    const by = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : 0;
    if (by === 0) return;
    event.preventDefault();
    const next = tabs[(tabs.indexOf(tab) + by + tabs.length) % tabs.length] ?? 'marks';
    desk.showTab(next);
    list.current?.querySelector<HTMLElement>(`[data-tab="${next}"]`)?.focus();
  };
  const Page = pages[tab];
  if (pen) {
    return (
      <aside className={styles['panel']} aria-label={words.pen}>
        <PenTab />
      </aside>
    );
  }
  if (cut) {
    return (
      <aside className={styles['panel']} aria-label={clipCutWords.title}>
        <CutPage />
      </aside>
    );
  }
  if (speed) {
    return (
      <aside className={styles['panel']} aria-label={captureSpeedWords.title}>
        <SpeedPage />
      </aside>
    );
  }
  if (looking) {
    return (
      <aside className={styles['panel']} aria-label={lookWords.panel.label}>
        <LookTab />
      </aside>
    );
  }
  return (
    <aside className={styles['panel']} aria-label={words.label}>
      <div ref={list} className={styles['tabs']} role="tablist" aria-label={words.label}>
        {tabs.map((name) => (
          <button
            key={name}
            type="button"
            role="tab"
            id={`review-tab-${name}`}
            data-tab={name}
            className={styles['tab']}
            aria-selected={name === tab}
            aria-controls="review-page"
            tabIndex={name === tab ? 0 : -1}
            onKeyDown={onKeyDown}
            onClick={() => {
              desk.showTab(name);
            }}
          >
            {words[name]}
          </button>
        ))}
      </div>
      <div
        id="review-page"
        className={styles['page']}
        role="tabpanel"
        aria-labelledby={`review-tab-${tab}`}
        tabIndex={0}
      >
        <h2 className={styles['unseen']}>{words[tab]}</h2>
        <Page />
      </div>
    </aside>
  );
}

import {
  BookOpen,
  Columns2,
  FileText,
  Film,
  Keyboard,
  Map as MapIcon,
  Settings,
  type LucideIcon,
} from 'lucide-react';
import { windowWords } from '../../../src/words/window.ts';
import { Key } from '../keys/Key.tsx';
import type { ActName } from '../keys/allActs.ts';
import { useReview, useRoute, useWorkbench } from '../stores/react.ts';
import { addressOf, type ReviewScreenName, type Route, type ScreenName } from '../stores/route.ts';
import styles from './Bar.module.css';

interface Entry {
  readonly screen: ScreenName;
  readonly icon: LucideIcon;
  readonly act: ActName;
}

const entries: readonly Entry[] = [
  { screen: 'library', icon: BookOpen, act: 'frame.library' },
  { screen: 'course', icon: MapIcon, act: 'frame.course' },
  { screen: 'review', icon: Film, act: 'frame.review' },
  { screen: 'compare', icon: Columns2, act: 'frame.compare' },
  { screen: 'report', icon: FileText, act: 'frame.report' },
  { screen: 'settings', icon: Settings, act: 'frame.settings' },
];

const needsReview = (screen: ScreenName): screen is ReviewScreenName =>
  screen !== 'library' && screen !== 'settings' && screen !== 'compare';

/** The bar on the left: where one can go, in words. Screens of a review say what they wait for until one is open. */
export function Bar({ onKeys }: { readonly onKeys: () => void }) {
  const { notices } = useWorkbench();
  const here = useRoute();
  const reviewId = useReview((view) => view.id);
  const routeTo = (screen: ScreenName): Route | null => {
    if (screen === 'compare') return { screen, reviewIds: reviewId === null ? [] : [reviewId] };
    if (!needsReview(screen)) return { screen };
    return reviewId === null ? null : { screen, reviewId };
  };
  return (
    <nav className={styles['bar']} aria-label={windowWords.bar}>
      <ul className={styles['list']}>
        {entries.map(({ screen, icon: Icon, act }) => {
          const route = routeTo(screen);
          const word = windowWords.screens[screen];
          const face = (
            <>
              <Icon aria-hidden />
              <span>{word}</span>
              <Key act={act} />
            </>
          );
          return (
            <li key={screen} className={screen === 'settings' ? styles['last'] : undefined}>
              {route ? (
                <a
                  className={styles['entry']}
                  href={addressOf(route)}
                  aria-current={here.screen === screen ? 'page' : undefined}
                >
                  {face}
                </a>
              ) : (
                <button
                  type="button"
                  className={styles['entry']}
                  aria-disabled="true"
                  aria-description={windowWords.needsReview}
                  title={windowWords.needsReview}
                  onClick={() => {
                    notices.getState().say(windowWords.needsReview);
                  }}
                >
                  {face}
                </button>
              )}
            </li>
          );
        })}
        <li>
          <button type="button" className={styles['entry']} onClick={onKeys} title={windowWords.acts.keys}>
            <Keyboard aria-hidden />
            <span>{windowWords.keySheet.title}</span>
            <Key act="frame.keys" />
          </button>
        </li>
      </ul>
    </nav>
  );
}

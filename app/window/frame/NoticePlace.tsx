import { CircleCheck, TriangleAlert, X } from 'lucide-react';
import { windowWords } from '../../../src/words/window.ts';
import { Button } from '../look/Button.tsx';
import { useNotices } from '../stores/react.ts';
import styles from './NoticePlace.module.css';

/** Notices under the screen. They push the screen up a little and cover nothing. */
export function NoticePlace() {
  const list = useNotices((n) => n.list);
  const dismiss = useNotices((n) => n.dismiss);
  return (
    <section aria-label={windowWords.notices.place} aria-live="polite" className={styles['place']}>
      {list.map((notice) => (
        <div key={notice.id} className={`${styles['notice']} ${styles[notice.tone]}`}>
          {notice.tone === 'trouble' ? <TriangleAlert aria-hidden /> : <CircleCheck aria-hidden />}
          <div className={styles['text']}>
            <p>{notice.text}</p>
            {notice.details !== undefined && (
              <details>
                <summary>{windowWords.notices.more}</summary>
                <pre className={styles['details']}>{notice.details}</pre>
              </details>
            )}
          </div>
          {notice.act && (
            <Button
              onClick={() => {
                notice.act?.run();
                dismiss(notice.id);
              }}
            >
              {notice.act.label}
            </Button>
          )}
          <Button
            kind="quiet"
            icon={<X aria-hidden />}
            onClick={() => {
              dismiss(notice.id);
            }}
          >
            {windowWords.notices.dismiss}
          </Button>
        </div>
      ))}
    </section>
  );
}

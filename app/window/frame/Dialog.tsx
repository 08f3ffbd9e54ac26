import { useLayoutEffect, useRef, type ReactNode } from 'react';
import styles from './Dialog.module.css';

interface DialogProps {
  readonly open: boolean;
  readonly title: string;
  readonly wide?: boolean;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

/**
 * A dialog of the platform's own: keeps the focus inside, Escape closes it, the focus goes back after. What carries
 * `data-first` has the focus when it opens.
 */
export function Dialog({ open, title, wide = false, onClose, children }: DialogProps) {
  const ref = useRef<HTMLDialogElement>(null);
  // Before the screen is painted, so that the next key finds what is seen.
  useLayoutEffect(() => {
    const dialog = ref.current;
    if (open && dialog && !dialog.open) {
      dialog.showModal();
      const first = dialog.querySelector<HTMLElement>('[data-first]');
      first?.focus();
      // What has the focus may lie at the end of a long sheet, which is read from its beginning.
      dialog.scrollTop = 0;
      if (first instanceof HTMLInputElement) first.select();
    }
    if (!open) dialog?.close();
  }, [open]);
  return (
    <dialog
      ref={ref}
      className={`${styles['dialog']} ${wide ? styles['wide'] : ''}`}
      aria-label={title}
      // Closing follows from what the owner says; the browser's own closing would tell of it only later, and a dialog
      // opened again meanwhile would be closed by the news.
      onCancel={(event) => {
        if (event.target !== ref.current) return;
        event.preventDefault();
        onClose();
      }}
      onClose={(event) => {
        if (event.target === ref.current && open && !ref.current.open) onClose();
      }}
    >
      {open && (
        <>
          <h2 className={styles['title']}>{title}</h2>
          {children}
        </>
      )}
    </dialog>
  );
}

import { ChevronLeft, ChevronRight } from 'lucide-react';
import type { PickedFile } from '../../../../src/host/contract/shell.ts';
import { traceWords } from '../../../../src/words/trace.ts';
import { Button } from '../../look/Button.tsx';
import styles from './UnderlayTools.module.css';

const words = traceWords.page;

/** A PDF of several pages that was just attached, and the page that is shown. */
export interface PdfShown {
  readonly file: PickedFile;
  readonly page: number;
  readonly pages: number;
}

interface PdfPagesProps {
  readonly shown: PdfShown;
  readonly disabled: boolean;
  readonly onPage: (page: number) => void;
}

/** Which page of a PDF is the map. */
export function PdfPages({ shown: { page, pages }, disabled, onPage }: PdfPagesProps) {
  const turn = (by: 1 | -1) => ({
    disabled: disabled || page + by < 1 || page + by > pages,
    onClick: () => {
      onPage(page + by);
    },
  });
  return (
    <div className={styles['tools']} role="group" aria-label={words.label}>
      <Button kind="quiet" icon={<ChevronLeft aria-hidden />} aria-label={words.previous} {...turn(-1)}>
        {''}
      </Button>
      <span>{words.of(page, pages)}</span>
      <Button kind="quiet" icon={<ChevronRight aria-hidden />} aria-label={words.next} {...turn(1)}>
        {''}
      </Button>
    </div>
  );
}

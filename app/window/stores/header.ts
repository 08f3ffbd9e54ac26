import type { Header } from '../../../src/review/document.ts';
import { useReview, useWorkbench } from './react.ts';

/** What the open review says about itself, and the way to change some of it. */
export interface HeaderDesk {
  readonly header: Header;
  change(label: string, part: Partial<Header>): void;
  changeWords(label: string, part: Partial<Header['words']>): void;
}

export function useHeader(): HeaderDesk {
  const { review } = useWorkbench();
  const shown = useReview((view) => view.state);
  if (!shown) throw new Error('A screen of a review was drawn without one.');
  const now = () => review.getState().state ?? shown;
  return {
    header: shown.header,
    change(label, part) {
      const { id, header } = now();
      void review.apply(label, [{ kind: 'header', id, body: { ...header, ...part } }]);
    },
    changeWords(label, part) {
      const { id, header } = now();
      const body = { ...header, words: { ...header.words, ...part } };
      void review.apply(label, [{ kind: 'header', id, body }]);
    },
  };
}

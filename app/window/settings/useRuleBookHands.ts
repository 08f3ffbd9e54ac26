import { useEffect, useEffectEvent, useState } from 'react';
import type { PickedFile } from '../../../src/host/contract/shell.ts';
import type { RuleBookSummary } from '../../../src/host/contract/shapes.ts';
import { ruleBooksWords as words } from '../../../src/words/ruleBooks.ts';
import { useSaveCopy } from '../handOver/useSaveCopy.ts';
import { useWorkbench } from '../stores/react.ts';

/** A file whose book would take the place of another. */
export interface Differing {
  readonly file: PickedFile;
  /** The book in the file. */
  readonly book: RuleBookSummary;
}

export interface RuleBookHands {
  /** Asks for a file and takes the book in it in. */
  take(): void;
  /** A file that waits for an answer: replace the book that is here, or leave it. */
  readonly differing: Differing | null;
  replace(): void;
  leave(): void;
  remove(book: RuleBookSummary): void;
  save(book: RuleBookSummary): void;
}

/** What can be done with the rule books of the library, with a way back from each. Takes dropped ones too. */
export function useRuleBookHands(): RuleBookHands {
  const { host, shell, notices, intake } = useWorkbench();
  const saveCopy = useSaveCopy();
  const [differing, setDiffering] = useState<Differing | null>(null);
  const tell = (error: unknown): void => {
    notices.getState().trouble(error);
  };
  /** Says what was done, with a way to take it back. */
  const done = (text: string, name: string, act: number | null): void => {
    if (act === null) {
      notices.getState().say(text);
      return;
    }
    const run = (): void => {
      host.call('ruleBook.takeBack', { act }).then(() => {
        notices.getState().say(words.undone(name));
      }, tell);
    };
    notices.getState().say(text, { label: words.undo, run });
  };
  const takeFile = async (file: PickedFile, replace: boolean): Promise<void> => {
    const { was, act, book } = await host.call('ruleBook.take', { source: await file.source(), replace });
    setDiffering(was === 'other' ? { file, book } : null);
    if (was === 'new') done(words.taken(book.name), book.name, act);
    if (was === 'replaced') done(words.replaced(book.name), book.name, act);
    if (was === 'same') done(words.same(book.name), book.name, null);
  };

  const takeDropped = useEffectEvent((file: PickedFile) => {
    takeFile(file, false).catch(tell);
  });
  useEffect(() => intake.onDropped('rules', (file) => takeDropped(file)), [intake]);

  return {
    differing,
    take() {
      shell
        .chooseFiles('rules', false)
        .then(async ([file]) => {
          if (file) await takeFile(file, false);
        })
        .catch(tell);
    },
    replace() {
      if (differing) takeFile(differing.file, true).catch(tell);
    },
    leave() {
      setDiffering(null);
    },
    remove({ id, name }) {
      host.call('ruleBook.remove', { id }).then(({ act }) => {
        done(words.removed(name), name, act);
      }, tell);
    },
    save({ id, name }) {
      void saveCopy(host.call('ruleBook.write', { id }), words.saved(name));
    },
  };
}

import { createStore, type StoreApi } from 'zustand/vanilla';
import { windowWords } from '../../../src/words/window.ts';
import { HostTrouble } from '../../../src/host/contract/link.ts';

/** A sentence for the coach, with at most one thing to do about it. */
export interface Notice {
  readonly id: number;
  /** `trouble` stays until it is put away; `done` gives way to the next `done`. */
  readonly tone: 'trouble' | 'done';
  readonly text: string;
  /** For a bug report; folded away. */
  readonly details?: string;
  readonly act?: { readonly label: string; run(): void };
}

export interface Notices {
  readonly list: readonly Notice[];
  say(text: string, act?: Notice['act']): number;
  /** Shows an error in the reader's words. Stopped work is no trouble and is not shown. */
  trouble(error: unknown, sentence?: (why: string) => string): number | undefined;
  dismiss(id: number): void;
}

export type NoticesStore = StoreApi<Notices>;

/** At most this many troubles stay on screen; the oldest give way. */
const mostTroubles = 4;

/** The notices of one window. */
export function createNotices(): NoticesStore {
  let next = 1;
  return createStore<Notices>()((set) => {
    const add = (notice: Omit<Notice, 'id'>): number => {
      const id = next++;
      set(({ list }) => {
        const kept = list.filter((n) =>
          notice.tone === 'done' ? n.tone !== 'done' : n.tone === 'done' || n.text !== notice.text,
        );
        const all = [...kept, { ...notice, id }];
        const troubles = all.filter((n) => n.tone === 'trouble');
        const old = new Set(troubles.slice(0, Math.max(0, troubles.length - mostTroubles)));
        return { list: all.filter((n) => !old.has(n)) };
      });
      return id;
    };
    return {
      list: [],
      say: (text, act) => add({ tone: 'done', text, ...(act ? { act } : {}) }),
      trouble(error, sentence = (why) => why) {
        if (error instanceof HostTrouble && error.code === 'cancelled') return undefined;
        const { why, details } = whyOf(error);
        return add({ tone: 'trouble', text: sentence(why), ...(details === undefined ? {} : { details }) });
      },
      dismiss(id) {
        set(({ list }) => ({ list: list.filter((n) => n.id !== id) }));
      },
    };
  });
}

/** An error as a sentence; what is not written for the reader goes into the details. */
export function whyOf(error: unknown): { readonly why: string; readonly details?: string } {
  if (error instanceof HostTrouble) return { why: error.message };
  const details = error instanceof Error ? (error.stack ?? error.message) : String(error);
  return { why: windowWords.unexpected, details };
}

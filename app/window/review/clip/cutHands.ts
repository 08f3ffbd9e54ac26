import type { FootageUse, RunInClip } from '../../../../src/review/document.ts';
import { clipCutWords } from '../../../../src/words/clipCut.ts';
import type { Desk } from '../desk/desk.ts';
import { begins, ends, named, removed, runAt, type CutEdit } from './cutEdits.ts';

const words = clipCutWords;

/** What the hands do to find runs in a clip, or to move the cut of a review. Each method is one press. */
export interface CutHands {
  open(): void;
  begin(): void;
  end(): void;
  name(id: string, names: Partial<Pick<RunInClip, 'dog' | 'handler'>>): void;
  remove(id?: string): void;
  wholeClip(): void;
  toggleBeyond(): void;
  /** Notes which reviews were made of which runs. */
  made(footageId: string, reviews: ReadonlyMap<string, string>): void;
}

export function createCutHands(desk: Desk): CutHands {
  const here = (): { readonly use: FootageUse; readonly at: number } | null => {
    const { footageId, frame } = desk.store.getState();
    const use = desk.ports.review()?.footage.find((f) => f.id === footageId);
    const at = desk.clock()?.table.pts[frame];
    if (use && at !== undefined) return { use, at };
    desk.say(words.said.noClip);
    return null;
  };

  const put = (edit: CutEdit): void => {
    if ('refused' in edit) desk.say(edit.refused);
    else
      desk.do({ label: edit.label, changes: [{ kind: 'footage', id: edit.use.id, body: { ...edit.use } }] });
  };

  return {
    open() {
      if (!here()) return;
      desk.enter({ name: 'cut' });
      desk.set({ folded: false, table: false });
    },
    begin() {
      const clip = here();
      if (clip) put(begins(clip.use, clip.at, desk.ports.makeId()));
    },
    end() {
      const clip = here();
      if (clip) put(ends(clip.use, clip.at));
    },
    name(id, names) {
      const clip = here();
      if (clip) put(named(clip.use, id, names));
    },
    remove(id) {
      const clip = here();
      if (!clip) return;
      const run = id ?? runAt(clip.use.runs ?? [], clip.at)?.id;
      if (run !== undefined) put(removed(clip.use, run));
    },
    wholeClip() {
      const clip = here();
      if (!clip?.use.cut) return;
      const { cut: _gone, ...use } = clip.use;
      put({ use, label: words.acts.whole });
    },
    toggleBeyond() {
      const beyond = !desk.store.getState().beyond;
      desk.lookBeyond(beyond);
      desk.say(beyond ? words.said.beyond : words.said.within);
    },
    made(footageId, reviews) {
      const use = desk.ports.review()?.footage.find((f) => f.id === footageId);
      if (!use?.runs || reviews.size === 0) return;
      const runs = use.runs.map((run) => {
        const reviewId = reviews.get(run.id);
        return reviewId === undefined ? run : { ...run, reviewId };
      });
      put({ use: { ...use, runs }, label: words.acts.made(reviews.size) });
    },
  };
}

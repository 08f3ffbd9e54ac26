import type { z } from 'zod';
import type { topics, TopicEvent, TopicName } from './contract/calls.ts';
import { clipsOpened } from './copyQueue.ts';
import type { Desk } from './desk.ts';
import { readPreferences } from './preferences.ts';
import { ruleBookSummaries } from './ruleBooks.ts';

/** Tells the whole at once, then what changes, until it is stopped. Throws where there is nothing to watch. */
type Watcher<N extends TopicName> = (
  desk: Desk,
  args: z.output<(typeof topics)[N]['args']>,
  on: (event: TopicEvent<N>) => void,
) => () => void;

export const watchers = {
  library(desk, _args, on) {
    const tell = (): void =>
      on({
        reviews: desk.library.reviews.list().map((r) => ({ ...r, clipIds: [...r.clipIds] })),
        clips: desk.clips.summaries(),
      });
    tell();
    return desk.hub.onLibrary(tell);
  },

  ruleBooks(desk, _args, on) {
    const tell = (): void => on({ books: ruleBookSummaries(desk.library) });
    tell();
    return desk.hub.onRuleBooks(tell);
  },

  dogs(desk, _args, on) {
    const tell = (): void =>
      on({ dogs: desk.library.dogs.list().map(({ body, ...kept }) => ({ ...kept, dog: body })) });
    tell();
    return desk.hub.onDogs(tell);
  },

  preferences(desk, _args, on) {
    const tell = (): void => on(readPreferences(desk.library.notes));
    tell();
    return desk.hub.onPreferences(tell);
  },

  review(desk, { reviewId }, on) {
    const whole = desk.library.reviews.whole(reviewId);
    on({ type: 'whole', ...whole });
    const stop = desk.hub.onAct(reviewId, on);
    clipsOpened(desk, whole.state);
    return stop;
  },

  jobs(desk, _args, on) {
    const tell = (): void => on({ jobs: desk.jobs.list() });
    tell();
    return desk.hub.onJobs(tell);
  },
} satisfies { readonly [N in TopicName]: Watcher<N> };

import type { z } from 'zod';
import type { CallName, calls, JobReport } from '../../../src/host/contract/calls.ts';
import type { Wire } from '../../../src/host/contract/link.ts';
import type { HostMessage, WindowMessage } from '../../../src/host/contract/messages.ts';
import {
  Preferences,
  type ClipSummary,
  type FileEntry,
  type Trouble,
} from '../../../src/host/contract/shapes.ts';
import { countedCourse } from '../../../src/course/course.ts';
import { emptyPlan } from '../../../src/plan/plan.ts';
import { Header } from '../../../src/review/document.ts';
import { applyChanges, type Change, type ReviewState } from '../../../src/review/entities.ts';
import { memoryDogs } from './memoryDogs.ts';
import { memoryRuleBooks } from './memoryRuleBooks.ts';

/**
 * A host in memory for tests of the window: it keeps acts and answers like the real one, but has no disk, no
 * ffmpeg and no checks of content. The real host has tests of its own; both speak through the same link.
 */
export interface MemoryHost {
  readonly wire: Wire;
  /** Every call and job that arrived, by name, in order. */
  readonly asked: { readonly name: string; readonly args: unknown }[];
  addReview(state: Partial<ReviewState> & { readonly id: string; readonly title: string }): void;
  /** @param timeBase seconds a tick of the frames' times, as a fraction */
  addClip(
    clip: Partial<ClipSummary> & { readonly id: string },
    pts?: readonly number[],
    timeBase?: readonly [number, number],
  ): void;
  addJob(job: JobReport): void;
  review(id: string): ReviewState | undefined;
  preferences(): Preferences;
  /** As another window would change them. */
  setPreferences(part: Partial<Preferences>): void;
  /** The next call (or job) of this name is answered with this trouble. */
  refuse(name: string, trouble: Trouble): void;
  /** The next call of this name is done, but its answer never arrives. */
  loseAnswer(name: string): void;
  /** Answers wait until `release` is called. */
  hold(): void;
  release(): void;
  files: Readonly<Record<string, readonly FileEntry[]>>;
  /** Puts a dog in as another window would, or tells those that are kept. */
  readonly dogs: Pick<ReturnType<typeof memoryDogs>, 'put' | 'event' | 'file'>;
  /** Puts a rule book in, or makes a file of one that can be taken in. */
  readonly ruleBooks: Pick<ReturnType<typeof memoryRuleBooks>, 'put' | 'file'>;
}

interface Kept {
  state: ReviewState;
  removed: boolean;
  act: number;
  done: { label: string; actId: string; before: ReviewState; after: ReviewState }[];
  undone: { label: string; actId: string; before: ReviewState; after: ReviewState }[];
}

/** What each call does, given its checked arguments. */
type Answers = { readonly [N in CallName]?: (args: z.output<(typeof calls)[N]['args']>) => unknown };

const clipDefaults: Omit<ClipSummary, 'id'> = {
  name: 'clip.mp4',
  sha256: 'a'.repeat(64),
  bytes: 48_200_000,
  width: 1280,
  height: 720,
  rotation: 0,
  container: 'mp4',
  codec: 'h264',
  pixelFormat: 'yuv420p',
  sound: 'aac',
  frames: 100,
  seconds: 4,
  state: 'ready',
  why: null,
  mediaId: 'media-1',
  slow: null,
  copy: null,
  copyWish: null,
  shown: { width: 1280, height: 720 },
  interlaced: false,
  fields: false,
};

export function memoryHost(): MemoryHost {
  let toWindow: (message: unknown) => void = () => undefined;
  const asked: { name: string; args: unknown }[] = [];
  const reviews = new Map<string, Kept>();
  const clips = new Map<string, ClipSummary>();
  const frames = new Map<
    string,
    { readonly pts: readonly number[]; readonly timeBase: readonly [number, number] }
  >();
  let jobs: JobReport[] = [];
  let preferences = Preferences.parse({});
  const refusals = new Map<string, Trouble>();
  const lost = new Set<string>();
  const subscriptions = new Map<number, { topic: string; args: Record<string, string>; seq: number }>();
  let held: HostMessage[] | null = null;
  let counter = 0;

  const send = (message: HostMessage): void => {
    if (held) held.push(message);
    else toWindow(structuredClone(message));
  };
  const tell = (topic: string, event: unknown, reviewId?: string): void => {
    for (const [n, s] of subscriptions) {
      if (s.topic !== topic || (reviewId !== undefined && s.args['reviewId'] !== reviewId)) continue;
      s.seq += 1;
      send({ type: 'event', n, seq: s.seq, event });
    }
  };
  const undoState = (kept: Kept) => ({
    canUndo: kept.done.at(-1)?.label ?? null,
    canRedo: kept.undone.at(-1)?.label ?? null,
  });
  const library = () => ({
    reviews: [...reviews.values()]
      .filter((r) => !r.removed)
      .map(({ state, act }) => ({
        id: state.id,
        title: state.header.title,
        dog: state.header.dog,
        handler: state.header.handler,
        day: state.header.day,
        runKind: state.header.runKind,
        obstacles: state.course.steps.length,
        marks: state.marks.length,
        clipIds: state.footage.map((f) => f.clipId),
        lastAct: act,
      })),
    clips: [...clips.values()],
  });
  const tellLibrary = (): void => {
    tell('library', library());
  };
  const reviewOf = (id: unknown): Kept => {
    const kept = reviews.get(String(id));
    if (!kept || kept.removed)
      throw Object.assign(new Error('There is no such review.'), { code: 'notFound' });
    return kept;
  };
  /** The changes that lead from one state to another, entity by entity. */
  const between = (from: ReviewState, to: ReviewState): Change[] => {
    const changes: Change[] = [];
    if (from.header !== to.header) changes.push({ kind: 'header', id: to.id, body: to.header });
    if (from.course !== to.course) changes.push({ kind: 'course', id: to.id, body: to.course });
    if (from.plan !== to.plan) changes.push({ kind: 'plan', id: to.id, body: to.plan });
    const lists = [
      ['footage', from.footage, to.footage],
      ['mark', from.marks, to.marks],
      ['cross', from.crosses, to.crosses],
      ['drawing', from.drawings, to.drawings],
      ['track', from.tracks, to.tracks],
      ['fit', from.fits, to.fits],
    ] as const;
    for (const [kind, a, b] of lists) {
      for (const x of a) if (!b.some((y) => y.id === x.id)) changes.push({ kind, id: x.id, body: null });
      for (const y of b)
        if (!(a as readonly unknown[]).includes(y)) changes.push({ kind, id: y.id, body: y } as Change);
    }
    return changes;
  };
  const act = (kept: Kept, actId: string, label: string, changes: readonly Change[]) => {
    kept.act += 1;
    const now = undoState(kept);
    tell('review', { type: 'act', act: kept.act, actId, label, changes, ...now }, kept.state.id);
    tellLibrary();
    return { act: kept.act, ...now };
  };

  const copies = () => {
    const there = [...clips.values()].flatMap(({ copy }) => (copy ? [copy.bytes] : []));
    const bytes = there.reduce((sum, b) => sum + b, 0);
    return { count: there.length, bytes, most: preferences.copiesMost * 1e9, open: 0 };
  };

  const ruleBooks = memoryRuleBooks(() => {
    tell('ruleBooks', ruleBooks.event());
  });

  const dogs = memoryDogs(() => {
    tell('dogs', dogs.event());
  });

  const answers: Answers = {
    ...dogs.answers,
    ...ruleBooks.answers,
    'library.about': () => ({
      folder: '/home/coach/Walkback',
      version: '0.1.0',
      demo: false,
      fresh: false,
      ffmpeg: 'ffmpeg 5.1.8, of this system',
      shell: 'test',
    }),
    'preferences.get': () => preferences,
    'preferences.set': (args) => {
      host.setPreferences(args.preferences);
      return preferences;
    },
    'review.create': (args) => {
      const id = `review-${++counter}`;
      const { clipIds } = args;
      host.addReview({
        id,
        title: args.title,
        header: Header.parse({ title: args.title, dog: args.dog, handler: args.handler }),
        course: countedCourse(args.obstacles),
        footage: clipIds.map((clipId) => ({
          id: `use-${clipId}`,
          clipId,
          name: clips.get(clipId)?.name ?? 'clip',
          speed: [],
          offset: 0,
          rate: 1,
        })),
      });
      return { reviewId: id };
    },
    'review.apply': (args) => {
      const kept = reviewOf(args.reviewId);
      const known = kept.done.find((d) => d.actId === args.actId);
      if (known) return { act: kept.act, ...undoState(kept) };
      const { changes } = args;
      const before = kept.state;
      kept.state = applyChanges(before, changes);
      kept.done.push({ label: args.label, actId: args.actId, before, after: kept.state });
      kept.undone = [];
      return act(kept, args.actId, args.label, changes);
    },
    'review.undo': (args) => {
      const kept = reviewOf(args.reviewId);
      const last = kept.done.pop();
      if (!last) throw Object.assign(new Error('There is nothing to undo.'), { code: 'conflict' });
      kept.undone.push(last);
      const changes = between(kept.state, last.before);
      kept.state = last.before;
      return act(kept, `undo-${kept.act}`, last.label, changes);
    },
    'review.redo': (args) => {
      const kept = reviewOf(args.reviewId);
      const last = kept.undone.pop();
      if (!last) throw Object.assign(new Error('There is nothing to do again.'), { code: 'conflict' });
      kept.done.push(last);
      const changes = between(kept.state, last.after);
      kept.state = last.after;
      return act(kept, `redo-${kept.act}`, last.label, changes);
    },
    'review.remove': (args) => {
      reviewOf(args.reviewId).removed = true;
      tellLibrary();
      return {};
    },
    'review.restore': (args) => {
      const kept = reviews.get(args.reviewId);
      if (kept) kept.removed = false;
      tellLibrary();
      return {};
    },
    'clip.frames': (args) => {
      const times = frames.get(args.clipId);
      if (!times) throw Object.assign(new Error('There is no such clip.'), { code: 'notFound' });
      return { clipId: args.clipId, ...times };
    },
    'clip.relink': (args) => {
      const clip = clips.get(args.clipId);
      if (!clip) throw Object.assign(new Error('There is no such clip.'), { code: 'notFound' });
      const there = { ...clip, state: 'ready' as const, why: null, mediaId: 'media-1' };
      clips.set(clip.id, there);
      tellLibrary();
      return there;
    },
    'clip.original': (args) => {
      const clip = clips.get(args.clipId);
      if (!clip) throw Object.assign(new Error('There is no such clip.'), { code: 'notFound' });
      const there = { ...clip, copy: null, copyWish: 'declined' as const };
      clips.set(clip.id, there);
      tellLibrary();
      return there;
    },
    'clip.fields': (args) => {
      const clip = clips.get(args.clipId);
      if (!clip) throw Object.assign(new Error('There is no such clip.'), { code: 'notFound' });
      const there = { ...clip, fields: args.fields };
      clips.set(clip.id, there);
      tellLibrary();
      return there;
    },
    'copies.about': () => copies(),
    'copies.clear': () => {
      for (const [id, clip] of clips) clips.set(id, { ...clip, copy: null });
      tellLibrary();
      return copies();
    },
    'job.first': (args) => {
      const first = jobs.filter((job) => job.id === args.jobId);
      jobs = [...jobs.filter((job) => job.state === 'running'), ...first, ...jobs].filter(
        (job, i, all) => all.indexOf(job) === i,
      );
      tell('jobs', { jobs });
      return {};
    },
    'files.roots': () => ({
      folders: [{ name: 'Videos', path: '/home/coach/Videos', folder: true, bytes: null }],
    }),
    'files.list': (args) => ({ entries: host.files[args.folder] ?? [] }),
    'picture.keep': () => ({
      pictureId: 'picture-1',
      name: 'map.png',
      width: 900,
      height: 1200,
      mediaId: 'map',
      pages: 1,
    }),
    'picture.media': () => ({ mediaId: 'map' }),
    'job.cancel': (args) => {
      jobs = jobs.map((job) => (job.id === args.jobId ? { ...job, state: 'cancelled' as const } : job));
      tell('jobs', { jobs });
      return {};
    },
  };

  const work: Record<string, (args: Record<string, unknown>) => unknown> = {
    'clip.import': (args) => {
      const source = args['source'] as { path?: string; uploadId?: string };
      const id = `clip-${++counter}`;
      host.addClip({ id, name: source.path?.split('/').at(-1) ?? 'upload.mp4' });
      tellLibrary();
      return { clip: clips.get(id) };
    },
    'clip.workingCopy': (args) => ({ clip: clips.get(String(args['clipId'])) }),
    'review.import': () => {
      const id = `review-${++counter}`;
      host.addReview({ id, title: 'A review that was handed over' });
      tellLibrary();
      return { reviewId: id };
    },
    'clip.write': () => ({
      mediaId: 'clip-made-1',
      path: '/home/coach/Walkback/reports/Fen-evening-clip.mp4',
      name: 'Fen-evening-clip.mp4',
      bytes: 2_400_000,
    }),
    'report.write': () => ({
      mediaId: 'report-1',
      path: '/home/coach/Walkback/reports/Fen, evening.html',
      name: 'Fen, evening.html',
      bytes: 812_000,
    }),
  };

  const handle = (message: WindowMessage): void => {
    if (message.type === 'unsubscribe') {
      subscriptions.delete(message.n);
      return;
    }
    if (message.type === 'subscribe') {
      const args = message.args as Record<string, string>;
      const s = { topic: message.topic, args, seq: 0 };
      const first = firstEvent(message.topic, args);
      if (first === undefined) {
        const trouble: Trouble = { code: 'notFound', message: 'There is no such review in this library.' };
        send({ type: 'trouble', n: message.n, trouble });
        return;
      }
      subscriptions.set(message.n, s);
      s.seq = 1;
      send({ type: 'event', n: message.n, seq: 1, event: first });
      return;
    }
    asked.push({ name: message.name, args: message.args });
    const refusal = refusals.get(message.name);
    refusals.delete(message.name);
    if (refusal) {
      send({ type: 'trouble', n: message.n, trouble: refusal });
      return;
    }
    try {
      if (message.type === 'start')
        startJob(message.n, message.name, message.args as Record<string, unknown>);
      else {
        const answer = answers[message.name as CallName] as ((args: unknown) => unknown) | undefined;
        const result = answer?.(message.args);
        const trouble: Trouble = { code: 'internal', message: 'The answer was lost.' };
        if (lost.delete(message.name)) send({ type: 'trouble', n: message.n, trouble });
        else send({ type: 'answer', n: message.n, result });
      }
    } catch (error) {
      const { code = 'internal', message: text } = error as Error & { code?: Trouble['code'] };
      send({ type: 'trouble', n: message.n, trouble: { code, message: text } });
    }
  };

  const startJob = (n: number, name: string, args: Record<string, unknown>): void => {
    const id = `job-${++counter}`;
    const source = args['source'] as { path?: string } | undefined;
    const about = source?.path?.split('/').at(-1) ?? 'work';
    const subject = typeof args['clipId'] === 'string' ? args['clipId'] : null;
    const base = { id, name, about, subject, total: 1, trouble: null, result: null };
    jobs = [...jobs, { ...base, done: 0, state: 'running' }];
    send({ type: 'answer', n, result: id });
    tell('jobs', { jobs });
    queueMicrotask(() => {
      const bad = about.includes('broken');
      const trouble = bad ? { code: 'noVideo', message: `“${about}” has no video in it.` } : null;
      const result = bad ? null : work[name]?.(args);
      jobs = jobs.map((job) =>
        job.id === id
          ? { ...base, done: 1, state: bad ? ('failed' as const) : ('done' as const), trouble, result }
          : job,
      );
      tell('jobs', { jobs });
    });
  };

  const firstEvent = (topic: string, args: Record<string, string>): unknown => {
    if (topic === 'library') return library();
    if (topic === 'jobs') return { jobs };
    if (topic === 'dogs') return dogs.event();
    if (topic === 'preferences') return preferences;
    if (topic === 'ruleBooks') return ruleBooks.event();
    const kept = reviews.get(args['reviewId'] ?? '');
    if (!kept || kept.removed) return undefined;
    return { type: 'whole', state: kept.state, act: kept.act, ...undoState(kept) };
  };

  const host: MemoryHost = {
    asked,
    ruleBooks,
    dogs,
    files: {},
    wire: {
      send(message) {
        const copy = structuredClone(message);
        queueMicrotask(() => {
          handle(copy);
        });
      },
      listen(on) {
        toWindow = on;
      },
    },
    addReview({ title, ...state }) {
      const whole: ReviewState = {
        header: Header.parse({ title }),
        course: { name: '', obstacles: [], steps: [] },
        plan: emptyPlan(),
        footage: [],
        marks: [],
        crosses: [],
        drawings: [],
        tracks: [],
        fits: [],
        ...state,
      };
      reviews.set(state.id, { state: whole, removed: false, act: 1, done: [], undone: [] });
      tellLibrary();
    },
    addClip(clip, pts = Array.from({ length: 100 }, (_, i) => i * 512), timeBase = [1, 12_800]) {
      clips.set(clip.id, { ...clipDefaults, ...clip });
      frames.set(clip.id, { pts, timeBase });
      tellLibrary();
    },
    addJob(job) {
      jobs = [...jobs, job];
      tell('jobs', { jobs });
    },
    preferences: () => preferences,
    setPreferences(part) {
      preferences = { ...preferences, ...part };
      tell('preferences', preferences);
    },
    review: (id) => reviews.get(id)?.state,
    refuse: (name, trouble) => void refusals.set(name, trouble),
    loseAnswer: (name) => void lost.add(name),
    hold() {
      held = [];
    },
    release() {
      const waiting = held ?? [];
      held = null;
      for (const message of waiting) toWindow(structuredClone(message));
    },
  };
  return host;
}

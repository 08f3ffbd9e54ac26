import { z } from 'zod';
import { Course } from '../../course/course.ts';
import { ClipKind, ClipWish } from '../../report/clip/wish.ts';
import { courseForms } from '../../report/courseSheet/forms.ts';
import { scales } from '../../report/courseSheet/scale.ts';
import { reportCopies } from '../../report/copies.ts';
import { RuleBook } from '../../course/rules/book.ts';
import { Dog } from '../../line/dog.ts';
import { FootageUse } from '../../review/document.ts';
import { Change } from '../../review/entities.ts';
import { soundRefusals } from '../../time/lineUp/bySound.ts';
import {
  ClipFrames,
  ClipSummary,
  CopiesAbout,
  FileEntry,
  KeptDog,
  Preferences,
  ReportFile,
  ReviewSummary,
  RuleBookSummary,
} from './shapes.ts';

const none = z.strictObject({});
const Id = z.string().min(1).max(80);

/** Where the bytes of a file come from: a path (desktop, host's file list) or a finished upload (loopback). */
export const FileSource = z.union([
  z.strictObject({ path: z.string().min(1).max(4096) }),
  z.strictObject({ uploadId: Id }),
]);
export type FileSource = z.infer<typeof FileSource>;

/** A clip, or the part of it from one presentation time to another that a review is about. */
export const ClipPart = z.strictObject({
  clipId: Id,
  cut: z.strictObject({ from: z.int(), to: z.int() }).optional(),
});
export type ClipPart = z.infer<typeof ClipPart>;

export const ActResult = z.object({
  /** Number of the act in the review's log. */
  act: z.int(),
  canUndo: z.string().nullable(),
  canRedo: z.string().nullable(),
});

/** Calls: asked once, answered once. Arguments and results are checked on both sides. */
export const calls = {
  'library.about': {
    args: none,
    result: z.object({
      folder: z.string(),
      version: z.string(),
      demo: z.boolean(),
      /** True where this start of the host set the library up, demo included. */
      fresh: z.boolean(),
      ffmpeg: z.string(),
      shell: z.string(),
    }),
  },
  'preferences.get': { args: none, result: Preferences },
  'preferences.set': { args: z.strictObject({ preferences: Preferences }), result: Preferences },
  /** A new review. `obstacles` makes a counted course; clips become its footage. */
  'review.create': {
    args: z.strictObject({
      title: z.string().min(1).max(200),
      dog: z.string().max(80).default(''),
      handler: z.string().max(80).default(''),
      obstacles: z.int().min(0).max(200).default(0),
      clipIds: z.array(Id).max(40).default([]),
      /** Clips of which the review is about a part, or whose speed is known already. */
      uses: z
        .array(FootageUse.pick({ clipId: true, speed: true, offset: true, cut: true }))
        .max(40)
        .optional(),
    }),
    result: z.object({ reviewId: z.string() }),
  },
  /** One act: all changes or none, one entry of the log, one step of undo. The label is what undo names. */
  'review.apply': {
    args: z.strictObject({
      reviewId: Id,
      /** Made by the caller, so that a repeat after a lost answer is not done twice. */
      actId: Id,
      label: z.string().min(1).max(120),
      changes: z.array(Change).min(1).max(20_000),
    }),
    result: ActResult,
  },
  'review.undo': { args: z.strictObject({ reviewId: Id }), result: ActResult },
  'review.redo': { args: z.strictObject({ reviewId: Id }), result: ActResult },
  /** Removes a review from the list; its acts stay in the log. `review.restore` brings it back. */
  'review.remove': { args: z.strictObject({ reviewId: Id }), result: none },
  'review.restore': { args: z.strictObject({ reviewId: Id }), result: none },
  /** The review as one JSON document (text), footage facts included. */
  'review.document': { args: z.strictObject({ reviewId: Id }), result: z.object({ json: z.string() }) },
  'clip.frames': { args: z.strictObject({ clipId: Id }), result: ClipFrames },
  /** Gives a missing clip its file back. Refused unless the content is the same. */
  'clip.relink': { args: z.strictObject({ clipId: Id, source: FileSource }), result: ClipSummary },
  /**
   * The working copy is removed and not made again unless it is asked for. Refused (`conflict`) where the window
   * cannot show the original.
   */
  'clip.original': { args: z.strictObject({ clipId: Id }), result: ClipSummary },
  /**
   * Counts every half-picture of an interlaced clip as a frame, or whole pictures again. Refused (`conflict`) once
   * anything was marked on the clip: its frames would be others.
   */
  'clip.fields': { args: z.strictObject({ clipId: Id, fields: z.boolean() }), result: ClipSummary },
  /** One frame of a clip, upright, as a small picture (JPEG in base64); null where its footage is not at hand. */
  'clip.still': {
    args: z.strictObject({ clipId: Id, frame: z.int().min(0), width: z.int().min(40).max(1280) }),
    result: z.object({ jpeg: z.string().nullable() }),
  },
  /** What the working copies take up now, and what they may. */
  'copies.about': { args: none, result: CopiesAbout },
  /** Removes every working copy that no window is looking at. They are made again when they are needed. */
  'copies.clear': { args: none, result: CopiesAbout },
  'files.roots': { args: none, result: z.object({ folders: z.array(FileEntry) }) },
  'files.list': {
    args: z.strictObject({ folder: z.string().max(4096) }),
    result: z.object({ entries: z.array(FileEntry) }),
  },
  /** Keeps a picture of the judge's map (PNG, JPEG, WebP, or a page of a PDF) by content, with its media id. */
  'picture.keep': {
    args: z.strictObject({ source: FileSource, page: z.int().min(1).max(10_000).default(1) }),
    result: z.object({
      pictureId: z.string(),
      name: z.string(),
      width: z.int(),
      height: z.int(),
      mediaId: z.string(),
      /** Pages that there are to choose from: 1 where it is not a PDF. */
      pages: z.int(),
    }),
  },
  'picture.media': { args: z.strictObject({ pictureId: Id }), result: z.object({ mediaId: z.string() }) },
  /** Writes the course of a review to a file: a drawing, a plan, a picture, a sheet for the walk, or its data. */
  'course.export': {
    args: z.strictObject({
      reviewId: Id,
      form: z.enum(courseForms),
      paper: z.enum(['a4', 'a5']).default('a4'),
      /** One to so many; absent: the largest that fits. */
      scale: z.literal(scales).optional(),
    }),
    result: ReportFile,
  },
  /** The course in a course file, or in a drawing that Walkback exported. Nothing is changed by reading it. */
  'course.read': {
    args: z.strictObject({ source: FileSource }),
    result: z.object({
      course: Course,
      /** True where its map picture is not in this library; the course then comes without it. */
      pictureMissing: z.boolean(),
    }),
  },
  'ruleBook.read': {
    args: z.strictObject({ id: Id }),
    result: z.object({ book: RuleBook, content: z.string() }),
  },
  /**
   * Takes in a rule book that a user wrote, under the id it carries. `other`: one of this id with other entries is
   * there, and nothing was changed; ask again with `replace`. `act` can be taken back; null where nothing was done.
   */
  'ruleBook.take': {
    args: z.strictObject({ source: FileSource, replace: z.boolean().default(false) }),
    result: z.object({
      was: z.enum(['new', 'replaced', 'same', 'other']),
      act: z.int().nullable(),
      book: RuleBookSummary,
    }),
  },
  'ruleBook.remove': { args: z.strictObject({ id: Id }), result: z.object({ act: z.int() }) },
  /** Undoes an act on a rule book. Refused (`conflict`) where the book was changed since. */
  'ruleBook.takeBack': { args: z.strictObject({ act: z.int().min(1) }), result: none },
  /** Writes a rule book into the library's folder of things to hand over. */
  'ruleBook.write': { args: z.strictObject({ id: Id }), result: ReportFile },
  /**
   * Keeps a dog under her id, as a whole. `basedOn` is the revision that was changed, null for a new dog. Refused
   * (`conflict`) where she was changed meanwhile, or where another dog goes by one of her names. The same again
   * changes nothing: `same`, and no act.
   */
  'dog.save': {
    args: z.strictObject({ dog: Dog, basedOn: z.int().min(1).nullable() }),
    result: z.object({
      was: z.enum(['new', 'changed', 'same']),
      act: z.int().nullable(),
      dog: Dog,
      revision: z.int(),
    }),
  },
  'dog.remove': { args: z.strictObject({ id: Id }), result: z.object({ act: z.int() }) },
  /** Undoes an act on a dog. Refused (`conflict`) where she was changed since. */
  'dog.takeBack': { args: z.strictObject({ act: z.int().min(1) }), result: none },
  /**
   * Takes in the dog in a file. One of her id or of her names is the same dog, and keeps the id and the names that she
   * has here. `other`: what is known of her here differs and was left; ask again with `replace`. `there`: her name here
   * before. `act` can be taken back with `dog.takeBack`; null where nothing was done.
   */
  'dog.take': {
    args: z.strictObject({ source: FileSource, replace: z.boolean().default(false) }),
    result: z.object({
      was: z.enum(['new', 'replaced', 'same', 'other']),
      act: z.int().nullable(),
      dog: Dog,
      there: z.string().nullable(),
    }),
  },
  /** Writes a dog into the library's folder of things to hand over. */
  'dog.write': { args: z.strictObject({ id: Id }), result: ReportFile },
  /** Writes what a review says as data into the library's folder of things to hand over: one archive. */
  'report.figures': { args: z.strictObject({ reviewId: Id }), result: ReportFile },
  'job.cancel': { args: z.strictObject({ jobId: Id }), result: none },
  /** Of the work that waits in the same line, this comes first. */
  'job.first': { args: z.strictObject({ jobId: Id }), result: none },
  /** Opens an upload; the bytes then travel on the upload stream. */
  'upload.begin': {
    args: z.strictObject({
      name: z.string().min(1).max(255),
      bytes: z
        .int()
        .min(0)
        .max(2 ** 40),
    }),
    result: z.object({ uploadId: z.string() }),
  },
} as const;

export type CallName = keyof typeof calls;
export type CallArgs<N extends CallName> = z.input<(typeof calls)[N]['args']>;
export type CallResult<N extends CallName> = z.output<(typeof calls)[N]['result']>;

/** Jobs: long work with an id, progress and cancel. They run on in the host when a window goes away. */
export const jobs = {
  /** Reads a video: facts, every frame's time, content hash. The original is never touched. */
  'clip.import': { args: z.strictObject({ source: FileSource }), result: z.object({ clip: ClipSummary }) },
  /**
   * Lines a clip up with another of the same run by what both hear: media time of `to` when `of` is at media time 0.
   * Where that cannot be told the answer says why, for the reader.
   */
  'clips.lineUp': {
    args: z.strictObject({
      to: ClipPart,
      of: ClipPart,
      /** Metres between the cameras. */
      spacing: z.number().min(0).max(1000),
    }),
    result: z.discriminatedUnion('found', [
      z.object({
        found: z.literal(true),
        offset: z.number(),
        rate: z.number(),
        rateTold: z.boolean(),
        plusMinus: z.number(),
        compared: z.int(),
        agree: z.int(),
      }),
      z.object({ found: z.literal(false), why: z.enum(soundRefusals), words: z.string() }),
    ]),
  },
  'clip.workingCopy': { args: z.strictObject({ clipId: Id }), result: z.object({ clip: ClipSummary }) },
  /** Takes in a review file; footage is found beside it by content, or stays missing until it is linked. */
  'review.import': {
    args: z.strictObject({ source: FileSource }),
    result: z.object({ reviewId: z.string() }),
  },
  /** Writes the coaching report as one file into the library's reports folder. */
  'report.write': {
    args: z.strictObject({
      reviewId: Id,
      form: z.enum(['html', 'pdf']).default('html'),
      /** One page. */
      short: z.boolean().default(false),
      copy: z.enum(reportCopies).default('student'),
    }),
    result: ReportFile,
  },
  /** Makes a clip to hand over and writes it into the library's folder of things to hand over. */
  'clip.write': { args: z.strictObject({ wish: ClipWish, kind: ClipKind }), result: ReportFile },
} as const;

export type JobName = keyof typeof jobs;
export type JobArgs<N extends JobName> = z.input<(typeof jobs)[N]['args']>;
export type JobResult<N extends JobName> = z.output<(typeof jobs)[N]['result']>;

/** What one can subscribe to. Every message carries a number; a gap means: ask again from the start. */
export const topics = {
  /** Summaries of all reviews and clips; each event is the whole list (it is small). */
  library: {
    args: none,
    event: z.object({ reviews: z.array(ReviewSummary), clips: z.array(ClipSummary) }),
  },
  /** Rule books that courses can be built by; each event is the whole list. */
  ruleBooks: { args: none, event: z.object({ books: z.array(RuleBookSummary) }) },
  /** Dogs of the library, in the order they came; each event is the whole list. */
  dogs: { args: none, event: z.object({ dogs: z.array(KeptDog) }) },
  /** The coach's preferences, whenever a window has changed them. */
  preferences: { args: none, event: Preferences },
  /** First the whole review, then every act, whoever made it. */
  review: {
    args: z.strictObject({ reviewId: Id }),
    event: z.discriminatedUnion('type', [
      z.object({
        type: z.literal('whole'),
        /** A ReviewState; checked entity by entity when it was stored. */
        state: z.custom<import('../../review/entities.ts').ReviewState>(
          (v) => typeof v === 'object' && v !== null,
        ),
        act: z.int(),
        canUndo: z.string().nullable(),
        canRedo: z.string().nullable(),
      }),
      z.object({
        type: z.literal('act'),
        act: z.int(),
        actId: z.string(),
        label: z.string(),
        changes: z.array(Change),
        canUndo: z.string().nullable(),
        canRedo: z.string().nullable(),
      }),
    ]),
  },
  /** Jobs at work and just ended; each event is the whole list. */
  jobs: {
    args: none,
    event: z.object({
      jobs: z.array(
        z.object({
          id: z.string(),
          name: z.string(),
          /** What it works on, for the reader: a file or review name. */
          about: z.string(),
          /** Id of the clip or review that it works on, where it is known. */
          subject: z.string().nullable(),
          done: z.number(),
          /** null where the length is not known. */
          total: z.number().nullable(),
          state: z.enum(['waiting', 'running', 'done', 'failed', 'cancelled']),
          trouble: z.object({ code: z.string(), message: z.string() }).nullable(),
          result: z.unknown(),
        }),
      ),
    }),
  },
} as const;

export type TopicName = keyof typeof topics;
export type TopicArgs<N extends TopicName> = z.input<(typeof topics)[N]['args']>;
export type TopicEvent<N extends TopicName> = z.output<(typeof topics)[N]['event']>;
export type JobReport = TopicEvent<'jobs'>['jobs'][number];

import { z } from 'zod';
import { Dog } from '../../line/dog.ts';
import { ExerciseList } from '../../review/exercise.ts';
import { ReadingThresholds } from '../../line/reading/thresholds.ts';
import { CaptureFact } from '../../review/captureFacts.ts';
import { Light, Magnifier, RealLineLook } from './looks.ts';
import { runKinds } from '../../review/document.ts';

/** What the library shows about a review. */
export const ReviewSummary = z.object({
  id: z.string(),
  title: z.string(),
  dog: z.string(),
  handler: z.string(),
  day: z.string(),
  runKind: z.enum(runKinds),
  obstacles: z.int(),
  marks: z.int(),
  /** Clips used, by id. */
  clipIds: z.array(z.string()),
  /** Number of the last act in this review: grows with every change. */
  lastAct: z.int(),
});
export type ReviewSummary = z.infer<typeof ReviewSummary>;

/**
 * How a clip can be shown. `ready`: the window can decode the original. `workingCopy`: it needs a working copy,
 * which is there. `needsCopy`: it needs one that is not made yet. `missing`: the file is not where it was.
 */
export const clipStates = ['ready', 'workingCopy', 'needsCopy', 'missing'] as const;

export const ClipSummary = z.object({
  id: z.string(),
  name: z.string(),
  sha256: z.string(),
  bytes: z.int(),
  /** Pixels of the upright picture. */
  width: z.int(),
  height: z.int(),
  /** Quarter turns clockwise that bring the picture in the file behind `mediaId` upright. */
  rotation: z.union([z.literal(0), z.literal(90), z.literal(180), z.literal(270)]),
  container: z.string(),
  codec: z.string(),
  pixelFormat: z.string(),
  sound: z.string().nullable(),
  frames: z.int(),
  seconds: z.number(),
  state: z.enum(clipStates),
  /** Why a working copy is needed or missing, as a key of the catalogue, or null. */
  why: z.string().nullable(),
  /** Why a working copy would be easier to step through than the original, as a key of the catalogue, or null. */
  slow: z.string().nullable(),
  /** The working copy that is there now. */
  copy: z.object({ bytes: z.int() }).nullable(),
  /** What is wanted of the working copy; null: as the clip needs. */
  copyWish: z.enum(['asked', 'declined', 'whenOpened']).nullable(),
  /** Pixels of the upright picture in the file behind `mediaId`: smaller than the clip's for a copy of a 4K clip. */
  shown: z.object({ width: z.int(), height: z.int() }),
  /** Every picture is made of two half-pictures (fields), which could be frames of their own. */
  interlaced: z.boolean(),
  /** The half-pictures are frames of their own: `frames` counts them. */
  fields: z.boolean(),
  /** Opaque media ids: the file to decode frames from and to play (original or working copy), null where there is none. */
  mediaId: z.string().nullable(),
  /** What the file says of the speed at which it was filmed; absent where nobody looked for it. */
  capture: z.array(CaptureFact).optional(),
});
export type ClipSummary = z.infer<typeof ClipSummary>;

/** Every frame's time of a clip, as the window needs it. */
export const ClipFrames = z.object({
  clipId: z.string(),
  timeBase: z.tuple([z.int(), z.int()]),
  pts: z.array(z.int()),
});
export type ClipFrames = z.infer<typeof ClipFrames>;

/** The store of working copies. */
export const CopiesAbout = z.object({
  count: z.int(),
  bytes: z.int(),
  /** Most they may take up together. */
  most: z.int(),
  /** Bytes of those that a window is looking at. */
  open: z.int(),
});
export type CopiesAbout = z.infer<typeof CopiesAbout>;

const Named = z.object({ id: z.string(), name: z.string() });

/** What the list of rule books shows about one. */
export const RuleBookSummary = z.object({
  id: z.string(),
  name: z.string(),
  /** True of the worked book, which is part of the program. */
  worked: z.boolean(),
  /** SHA-256 of its entries; null where what is stored is damaged. */
  content: z.string().nullable(),
  entries: z.int(),
  /** How many of its entries nobody read. */
  fromMemory: z.int(),
  /** Height categories and levels that it knows. */
  categories: z.array(Named),
  levels: z.array(Named),
});
export type RuleBookSummary = z.infer<typeof RuleBookSummary>;

/** A dog as it stands in the library. `dog` is null where what is stored is damaged. */
export const KeptDog = z.object({
  id: z.string(),
  name: z.string(),
  /** Grows with each change; a change says which one it was made on. */
  revision: z.int(),
  dog: Dog.nullable(),
});
export type KeptDog = z.infer<typeof KeptDog>;

/** An entry of the host's own file list (loopback: within the folders the user allowed). */
export const FileEntry = z.object({
  name: z.string(),
  path: z.string(),
  folder: z.boolean(),
  bytes: z.int().nullable(),
});
export type FileEntry = z.infer<typeof FileEntry>;

export const ReportFile = z.object({
  /** Opaque media id of the written file, to open or to download. */
  mediaId: z.string(),
  /** Where it was written, for the reader. */
  path: z.string(),
  name: z.string(),
  bytes: z.int(),
});
export type ReportFile = z.infer<typeof ReportFile>;

/** A still that goes into the report: a JPEG made by the window or by the host for one frame. */
export const Preferences = z.object({
  theme: z.enum(['system', 'paper', 'dark']).default('system'),
  dialect: z.enum(['british', 'american']).default('british'),
  lengths: z.enum(['metres', 'feet']).default('metres'),
  /** Keys changed by the coach: act name to key. */
  keys: z.record(z.string().max(80), z.string().max(40)).default({}),
  /** Folders whose files the loopback window may list. */
  allowedFolders: z.array(z.string().max(4096)).max(50).default([]),
  /** Most that working copies may take up together, gigabytes (10^9 bytes). */
  copiesMost: z.int().min(1).max(100_000).default(20),
  /** The strip of small frames lies over the line of time. */
  strip: z.boolean().default(false),
  /** The grid of the drawing board: holds what is put on it, is only seen, or is not there. */
  boardGrid: z.enum(['snap', 'shown', 'none']).default('snap'),
  /** What a course is read by. */
  reading: ReadingThresholds.prefault({}),
  /** Frames laid over the picture, before it and after it each. */
  laidOver: z.union([z.literal(1), z.literal(2), z.literal(3)]).default(1),
  /** By clip. */
  lights: z.record(z.string().max(200), Light).default({}),
  realLine: RealLineLook.prefault({}),
  /** By review and footage. */
  magnifiers: z.record(z.string().max(400), Magnifier).default({}),
  /** What may be trained; absent: the usual list. */
  exercises: ExerciseList,
});
export type Preferences = z.infer<typeof Preferences>;

/** An error as it travels: a code for programs, a sentence for the reader. */
export const Trouble = z.object({
  code: z.enum([
    'badInput',
    'notFound',
    'conflict',
    'noSpace',
    'unreadable',
    'noVideo',
    'damaged',
    'tooNew',
    'cancelled',
    'usage',
    'internal',
  ]),
  message: z.string(),
});
export type Trouble = z.infer<typeof Trouble>;

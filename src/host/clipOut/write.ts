import { builtBy } from '../../course/builtBy.ts';
import type { RuleBook } from '../../course/rules/book.ts';
import type { PictureSize } from '../../course/pictureLay.ts';
import { likelyLine } from '../../line/likelyLine.ts';
import { lineShapes } from '../../line/lineShapes.ts';
import { runnerWith } from '../../line/runner.ts';
import type { Dog } from '../../line/dog.ts';
import { wishOf } from '../../plan/lineWish.ts';
import { layersOf, type Layer } from '../../report/clip/layers.ts';
import { planClip, type ClipPlan } from '../../report/clip/plan.ts';
import type { RunAtHand } from '../../report/clip/run.ts';
import type { ClipKind, ClipWish } from '../../report/clip/wish.ts';
import { fileStem } from '../../report/fileName.ts';
import { maskFor } from '../../report/names.ts';
import { analyse } from '../../review/analyse.ts';
import { withAngles } from '../../review/angles.ts';
import type { ReviewState } from '../../review/entities.ts';
import type { Clocks } from '../../review/moments.ts';
import type { FrameTable } from '../../time/frameTable.ts';
import { clipWords } from '../../words/clip.ts';
import type { ClipLayers, FootageRoom } from '../footageRoom.ts';
import { trouble } from '../troubles.ts';
import { layerPainter } from './paint.ts';

/** A review whose run is shown. */
export interface RunAsked {
  readonly review: ReviewState;
  readonly clocks: Clocks;
  readonly pictures: ReadonlyMap<string, PictureSize>;
  readonly book: RuleBook | undefined;
  readonly dog?: Dog | null | undefined;
}

/** The file that frames of a clip are decoded from, and the times that they have there. */
export interface ClipFile {
  readonly path: string;
  readonly table: FrameTable;
}

export interface ClipAsked {
  readonly wish: ClipWish;
  readonly run: RunAsked;
  readonly beside: RunAsked | null;
  /** Null where the file is not at hand. */
  fileOf(run: RunAsked, footageId: string): Promise<ClipFile | null>;
  readonly makeClip: FootageRoom['makeClip'];
  readonly signal: AbortSignal;
  readonly progress: (done: number, of: number) => void;
}

/**
 * Makes a clip and writes it to `to`: whole, or not at all.
 * @returns bytes written
 * @throws HostTrouble for the reader where it cannot be made as it was asked for; FootageError of the footage room
 */
export async function writeClip(asked: ClipAsked, to: string): Promise<number> {
  const { wish, signal, progress } = asked;
  const run = atHand(asked.run, wish);
  const beside = asked.beside && atHand(asked.beside, wish);
  const plan = planClip(wish, run, beside);
  if (typeof plan === 'string') {
    throw trouble(plan === 'noFootage' ? 'notFound' : 'badInput', clipWords.refused[plan]);
  }
  const lanes = [];
  for (const { run: its, footageId, shots, parts, box } of plan.lanes) {
    const file = await asked.fileOf(its === run ? asked.run : (asked.beside ?? asked.run), footageId);
    if (!file) throw trouble('notFound', clipWords.refused.noFootage);
    lanes.push({ ...file, shots, parts, size: { width: box.width, height: box.height } });
  }
  const { rate, ticks, size, sound } = plan;
  const layers = (): ClipLayers | null => laidOver(plan, wish);
  return asked.makeClip({ lanes, rate, ticks, size, sound, layers }, to, signal, progress);
}

function laidOver(plan: ClipPlan, wish: ClipWish): ClipLayers | null {
  const layers = layersOf(plan.lanes, plan, wish);
  if (layers.length === 0) return null;
  return { at: layers.map((layer) => layer.at), pictures: paintedInTurn(layers, layerPainter(plan.size)) };
}

function* paintedInTurn(
  layers: readonly Layer[],
  paint: (layer: Layer) => Uint8Array,
): Generator<Uint8Array> {
  for (const layer of layers) yield paint(layer);
}

function atHand({ review, clocks: given, pictures, book, dog }: RunAsked, wish: ClipWish): RunAtHand {
  const clocks = withAngles(given, review.footage);
  const course = builtBy(review.course, book);
  const fitted = review.fits.length > 0;
  const line =
    wish.overlays.likely && fitted ? likelyLine(course, wishOf(review.plan, runnerWith(dog?.runner))) : null;
  const likely = line ? lineShapes(line).flatMap((s) => (s.shape === 'way' ? [s.points] : [])) : [];
  return { review, clocks, analysis: analyse(review, given), course, pictures, likely };
}

/**
 * A file name for a clip of this review: its title in letters and digits of any script, without names where they are
 * to be left out, and what it is a clip of.
 */
export function clipFileName({ header }: ReviewState, kind: ClipKind): string {
  const title = fileStem(maskFor(header)(header.title));
  return `${[title, endingOf(kind)].filter((part) => part !== '').join('-')}.mp4`;
}

function endingOf(kind: ClipKind): string {
  const words = clipWords.fileEnding;
  if (typeof kind === 'string') return words[kind];
  return 'cross' in kind ? words.cross(kind.cross) : words.stretch(kind.stretch);
}

import type { ClipIdea } from '../../../src/report/clip/ideas.ts';
import type { ClipKind, ClipWish } from '../../../src/report/clip/wish.ts';
import type { FrameTable } from '../../../src/time/frameTable.ts';
import { clipWords } from '../../../src/words/clip.ts';
import { crossVerdictWords } from '../../../src/words/review.ts';

/** Something a clip can be made of: what the marks suggest, a range of frames, or two runs side by side. */
export interface Subject extends Pick<
  ClipWish,
  'reviewId' | 'footageId' | 'parts' | 'slow' | 'freezes' | 'beside'
> {
  /** Tells subjects of one list apart. */
  readonly id: string;
  readonly label: string;
  readonly kind: ClipKind;
  /** Frames of the clip that may be chosen from; null where the range is fixed. */
  readonly table: FrameTable | null;
}

export type SlowChoice = 'none' | `${'about' | 'all'} ${'0.5' | '0.25' | '0.125'}`;

/** What the coach set in the dialog. */
export interface Choices {
  readonly slow: SlowChoice;
  /** Seconds for which each point is held; 0 for not at all. */
  readonly hold: number;
  /** Words under the points, in their order. */
  readonly captions: readonly string[];
  readonly overlays: ClipWish['overlays'];
  readonly sound: boolean;
}

export const holds = [0, 1, 2, 3, 5, 8] as const;
const shares = ['0.5', '0.25', '0.125'] as const;

/** What may be chosen as slow motion of a subject: about its moments where it has some, or all through. */
export function slowChoices(subject: Subject): readonly SlowChoice[] {
  const about = subject.slow.length > 0 ? shares.map((s): SlowChoice => `about ${s}`) : [];
  return ['none', ...about, ...shares.map((s): SlowChoice => `all ${s}`)];
}

export function slowLabel(choice: SlowChoice): string {
  const { speeds } = clipWords.dialog;
  if (choice === 'none') return speeds.none;
  const [what, share] = choice.split(' ');
  return what === 'about' ? speeds.about(Number(share)) : speeds.all(Number(share));
}

/** What a subject is made with unless the coach says otherwise. */
export function usualChoices(subject: Subject): Choices {
  return {
    slow: subject.slow.length > 0 ? 'about 0.25' : 'none',
    hold: subject.freezes.some((f) => f.caption !== '') || subject.slow.length > 0 ? 3 : 0,
    captions: subject.freezes.map((f) => f.caption),
    overlays: { numbers: true, wanted: true, likely: false, real: true, captions: true, drawings: true },
    sound: false,
  };
}

/** The clip that is asked for. */
export function wishOf(subject: Subject, choices: Choices): ClipWish {
  const { reviewId, footageId, parts, slow, freezes, beside } = subject;
  const [what, share] = choices.slow.split(' ');
  const speed = ([0.5, 0.25, 0.125] as const).find((s) => s === Number(share));
  const slowed = speed === undefined ? [] : what === 'about' ? slow : parts;
  return {
    reviewId,
    footageId,
    parts,
    slow: speed === undefined ? [] : slowed.map(({ from, to }) => ({ from, to, speed })),
    freezes:
      choices.hold === 0
        ? []
        : freezes.map(({ pts }, i) => ({ pts, seconds: choices.hold, caption: choices.captions[i] ?? '' })),
    overlays: choices.overlays,
    sound: choices.sound && !beside,
    ...(beside ? { beside } : {}),
  };
}

/** What the marks of a review suggest, as the dialog lists it. */
export function subjectOf(reviewId: string, idea: ClipIdea): Subject {
  const { of, footageId, parts, slow, freezes } = idea;
  const words = clipWords.dialog.idea;
  const base = { reviewId, footageId, parts, slow, freezes, table: null };
  switch (of.what) {
    case 'short':
      return { ...base, kind: 'short', id: 'short', label: words.short(of.points) };
    case 'cross':
      return {
        ...base,
        id: `cross ${of.cross.id}`,
        kind: { cross: of.cross.place },
        label: words.cross(of.cross.place, of.cross.kind, crossVerdictWords[of.cross.verdict]),
      };
    case 'stretch':
      return {
        ...base,
        id: `stretch ${of.split.to}`,
        kind: { stretch: of.split.to },
        label: words.stretch(of.split),
      };
  }
}

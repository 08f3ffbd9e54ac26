import { z } from 'zod';

/** A figure the reading goes by, between which bounds it can be set, and why it stands where it does. */
export interface Threshold {
  readonly least: number;
  readonly usual: number;
  readonly most: number;
  readonly unit: 'degrees' | 'm' | 'share' | 'tries';
  /** `practice`: common practice; `assumed`: our choice, no source was found. */
  readonly basis: 'practice' | 'assumed';
  readonly why: string;
}

const degrees = (
  least: number,
  usual: number,
  most: number,
  basis: Threshold['basis'],
  why: string,
): Threshold => ({ least, usual, most, unit: 'degrees', basis, why });
const metres = (least: number, usual: number, most: number, why: string): Threshold => ({
  least,
  usual,
  most,
  unit: 'm',
  basis: 'assumed',
  why,
});

/** What the reading goes by where a coach says nothing else. No published figure was found for any of them. */
export const readingThresholds = {
  viewHalf: degrees(
    15,
    45,
    120,
    'assumed',
    'to each side of her heading; a dog sees wider, but she looks where she runs',
  ),
  eyeHeight: metres(0.15, 0.5, 0.9, 'a running dog of the largest category, head low'),
  seenShare: {
    least: 0.1,
    usual: 0.5,
    most: 1,
    unit: 'share',
    basis: 'assumed',
    why: 'of the way in that must be free for her to read it',
  },
  trapHalf: degrees(5, 20, 60, 'assumed', 'to each side of straight on: where she drifts without a word'),
  trapReach: metres(2, 9, 25, 'about a second and a half at a gallop, and then she has been called'),
  backReach: metres(1, 4, 10, 'how near the jump just taken must be when she has turned back to it'),
  takenWithin: degrees(20, 60, 85, 'practice', 'how obliquely an obstacle still invites a dog'),
  sliceFrom: degrees(5, 15, 60, 'practice', 'from here on a slanting jump is felt by the dog'),
  entryFrom: degrees(10, 30, 90, 'practice', 'from here on an entry asks for more than running straight on'),
  turnFrom: degrees(
    10,
    45,
    120,
    'assumed',
    'what counts as a turn of the course; lining up for a slanted bar or for the poles bends her way by less',
  ),
  fewTries: {
    least: 2,
    usual: 10,
    most: 100,
    unit: 'tries',
    basis: 'assumed',
    why: 'below this a count of tries says little',
  },
} as const satisfies Record<string, Threshold>;

const bounded = ({ least, usual, most, unit }: Threshold) =>
  (unit === 'tries' ? z.int() : z.number()).min(least).max(most).default(usual);
const t = readingThresholds;

/** The reading's figures as a coach has set them. */
export const ReadingThresholds = z.strictObject({
  viewHalf: bounded(t.viewHalf),
  eyeHeight: bounded(t.eyeHeight),
  seenShare: bounded(t.seenShare),
  trapHalf: bounded(t.trapHalf),
  trapReach: bounded(t.trapReach),
  backReach: bounded(t.backReach),
  takenWithin: bounded(t.takenWithin),
  sliceFrom: bounded(t.sliceFrom),
  entryFrom: bounded(t.entryFrom),
  turnFrom: bounded(t.turnFrom),
  fewTries: bounded(t.fewTries),
});
export type ReadingThresholds = z.infer<typeof ReadingThresholds>;

const usual = ReadingThresholds.parse({});

/** The same where it was kept by whatever program: each figure that is none, or out of its bounds, is the usual one. */
export const KeptReadingThresholds = z.unknown().transform((kept): ReadingThresholds => {
  const figures = typeof kept === 'object' && kept !== null ? Object.entries(kept) : [];
  return figures.reduce((all, [name, value]) => {
    const next = ReadingThresholds.safeParse({ ...all, [name]: value as unknown });
    return next.success ? next.data : all;
  }, usual);
});

import { mannerOf, type ObstacleKind } from '../../course/kinds.ts';
import { from } from '../../course/pose.ts';
import { entriesLike, type DogSkills, type EntrySide } from '../skills.ts';
import type { Leg } from './legs.ts';
import { obliquely } from './opening.ts';
import type { EntryFacts, Remark } from './remark.ts';
import type { ReadingThresholds } from './thresholds.ts';

/** How far before the next obstacle the way she must run into it is drawn, metres. */
const drawnBefore = 2;

/** What a dog can hurt herself on when it is taken at a slant (common practice), beside what she climbs. */
export const takenSquarely: ReadonlySet<ObstacleKind> = new Set(['tyre', 'spread', 'longJump']);

/**
 * How she meets the next obstacle on the straight way from where she is; undefined where that asks for nothing: less
 * than the threshold off its line, taken from any side, or behind it (her sight tells that). Poles are always told.
 */
export function entryRemark(
  { here, next }: Leg,
  t: ReadingThresholds,
  skills: DogSkills | undefined,
): Remark | undefined {
  const { aim, anySide } = next.opening;
  const { kind, id } = next.drawn.obstacle;
  const angle = obliquely(here.line.exit, next.opening);
  const poles = kind === 'weavePoles' ? poleEntry(angle, t, skills) : undefined;
  if (!poles && (anySide || Math.abs(angle) < t.entryFrom || Math.abs(angle) > 90)) return undefined;
  const facts: EntryFacts = {
    remark: 'entry',
    from: here.line.number,
    to: next.line.number,
    obliquely: angle,
    ...(poles ? { poles } : {}),
  };
  const { exit } = here.line;
  return {
    ...facts,
    numbers: [facts.from, facts.to],
    weight: weightOf(facts, mannerOf(kind) === 'climbed' || takenSquarely.has(kind)),
    highlight: {
      shapes: [
        {
          shape: 'way',
          points: [
            { x: exit.x, y: exit.y },
            { x: aim.x, y: aim.y },
          ],
          as: 'remark',
          dashed: true,
        },
        { shape: 'way', points: [from(aim, -drawnBefore), { x: aim.x, y: aim.y }], as: 'wanted' },
      ],
      obstacleIds: [id],
    },
  };
}

/** The side from which an entry into poles is met: from the right of their line she runs past the first pole and in. */
export const poleSide = (obliquely: number): EntrySide => (obliquely >= 0 ? 'on' : 'off');

function poleEntry(
  angle: number,
  t: ReadingThresholds,
  skills: DogSkills | undefined,
): NonNullable<EntryFacts['poles']> {
  const side = poleSide(angle);
  const round = side === 'off' ? -angle : Math.max(0, angle - 90);
  const count = skills && entriesLike(skills, side, angle);
  return { side, round, ...(count ? { count } : {}), few: count !== undefined && count.tried < t.fewTries };
}

function weightOf({ obliquely: angle, poles }: EntryFacts, wantsRoom: boolean): number {
  const far = Math.min(1, Math.abs(angle) / 90);
  if (!poles) return 0.1 + 0.25 * far + (wantsRoom ? 0.2 : 0);
  const missed = poles.count && poles.count.tried > 0 ? 1 - poles.count.done / poles.count.tried : 0;
  return Math.min(1, (poles.side === 'off' ? 0.3 + 0.45 * far : 0.2 + 0.3 * far) + 0.25 * missed);
}

import { timeBetween, type Quantity } from '../time/quantity.ts';
import type { Analysis, Moment } from './analysis.ts';
import type { Section } from './coachSays.ts';

export interface SectionTime {
  readonly section: Section;
  /** Out to out; null where one of its ends is not marked or they are out of order. */
  readonly time: Quantity | null;
  /** Numbers of its ends that are not marked; 0 stands for the start of the clock. */
  readonly missing: readonly number[];
}

/** The time of each section in the try that counts. */
export function sectionTimes(
  { taken, countedTry, clock }: Pick<Analysis, 'taken' | 'countedTry' | 'clock'>,
  sections: readonly Section[],
): readonly SectionTime[] {
  const outs = new Map<number, Moment>();
  if (clock) outs.set(0, clock.start);
  for (const t of taken) if (t.try === countedTry && t.out) outs.set(t.place, t.out);
  return sections.map((section) => {
    const [from, to] = [outs.get(section.from), outs.get(section.to)];
    const time = from && to ? timeBetween(from.bracket, to.bracket) : null;
    return {
      section,
      time: time && time.value > 0 ? time : null,
      missing: [section.from, section.to].filter((n) => !outs.has(n)),
    };
  });
}

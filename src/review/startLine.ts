import { middle, type Bracket } from '../time/bracket.ts';
import { against, timeBetween } from '../time/quantity.ts';
import type { StartTry, StayVerdict } from './analysis.ts';
import type { Mark, StartPart } from './marks.ts';
import { momentOf, placed, type Clocks, type Placed } from './moments.ts';

interface Seen {
  readonly part: StartPart;
  readonly at: Placed;
}

/**
 * The start line, try by try (design facts): a paw that moves before the release breaks the stay, a shift without
 * a paw does not. Where the frames cannot tell which came first the verdict says so.
 */
export function startLineOf(marks: readonly Mark[], clocks: Clocks, start: Bracket | null): StartTry[] {
  const tries = new Map<number, Seen[]>();
  for (const mark of marks) {
    if (mark.kind !== 'start') continue;
    const at = placed(mark, 'unknown', clocks);
    if (!at) continue;
    const list = tries.get(mark.try) ?? [];
    tries.set(mark.try, list);
    list.push({ part: mark.part, at });
  }
  return [...tries]
    .sort(([a], [b]) => a - b)
    .map(([attempt, seen]) => startTryOf(attempt, [...seen].sort(byTime), start));
}

function startTryOf(attempt: number, seen: readonly Seen[], start: Bracket | null): StartTry {
  const release = seen.findLast((s) => s.part === 'release')?.at ?? null;
  const step = seen.find((s) => s.part === 'step')?.at ?? null;
  const verdict = stayVerdict(step, release);
  const end = verdict === 'broken' ? step : release;
  const setUp = seen.findLast(
    (s) => s.part === 'setUp' && (!end || middle(s.at.bracket) <= middle(end.bracket)),
  )?.at;
  return {
    try: attempt,
    verdict,
    stay: setUp && end ? timeBetween(setUp.bracket, end.bracket) : null,
    early: step && release ? timeBetween(step.bracket, release.bracket) : null,
    fakes: seen.filter((s) => s.part === 'fake').length,
    shifts: seen.filter((s) => s.part === 'shift').length,
    moments: seen.map((s) => ({ part: s.part, moment: momentOf(s.at, start) })),
  };
}

function stayVerdict(step: Placed | null, release: Placed | null): StayVerdict {
  if (!step) return release ? 'kept' : 'notMarked';
  if (!release) return 'broken';
  const early = against(timeBetween(step.bracket, release.bracket), 0);
  if (early === 'open') return 'cannotTell';
  return early === 'above' ? 'broken' : 'kept';
}

function byTime(a: Seen, b: Seen): number {
  return middle(a.at.bracket) - middle(b.at.bracket);
}

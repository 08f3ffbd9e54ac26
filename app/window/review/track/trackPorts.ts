import { flightsOf } from '../../../../src/track/flights.ts';
import { readingsFrom } from '../../../../src/track/fromMarks.ts';
import type { ReviewStore } from '../../stores/review.ts';
import type { Desk } from '../desk/desk.ts';
import { trackOf } from './edits.ts';
import type { LinesStore } from './linesStore.ts';
import { tunnelAhead, tunnelTimes, type Seen } from './strides.ts';
import type { TrackPorts } from './trackHands.ts';

/** What the hands that mark a line know of tunnels and flights: from the coach's marks, and from the ground. */
export function trackPorts(
  review: Pick<ReviewStore, 'analysis' | 'getState'>,
  desk: Desk,
  lines: LinesStore,
  step: () => number,
): TrackPorts {
  return {
    hidden(key) {
      const analysis = review.analysis();
      const marked = analysis ? tunnelTimes(analysis, key.footageId) : [];
      const { course, ground, footageId } = lines.getState();
      const { state, clocks } = review.getState();
      const clock = clocks.get(key.footageId);
      const track = state && trackOf(state, key);
      if (!course || !ground || !clock || !track || footageId !== key.footageId) return marked;
      const now = desk.now();
      // The last two before the frame on the desk, and the one on it.
      const readings = readingsFrom({ marks: track.marks.slice(-40) }, clock, ground.view).readings;
      const places = readings
        .filter((r) => r.contact === 'ground' && r.at <= now + 1e-6)
        .slice(-2)
        .map((r): Seen => ({ at: r.at, x: r.x, y: r.y }));
      const [before, last] = places;
      const ahead = before && last ? tunnelAhead(course, before, last, step()) : null;
      return ahead && !marked.some((m) => m.from < ahead.to && m.to > ahead.from)
        ? [...marked, ahead]
        : marked;
    },
    flights() {
      return flightsOf(review.analysis()?.taken ?? []);
    },
  };
}

import type { GroundPoint } from '../../../../src/course/points.ts';
import type { GroundShape } from '../../../../src/line/groundShapes.ts';
import { lineShapes } from '../../../../src/line/lineShapes.ts';
import type { PlanSheet } from '../../../../src/plan/plan.ts';
import { placeOf, spotId, withSpot, type PlanPlace } from '../../../../src/plan/places.ts';
import type { PlanTimes } from '../../../../src/plan/spare.ts';
import type { WalkThrough } from '../../../../src/plan/walkThrough.ts';
import { planPageWords } from '../../../../src/words/planPage.ts';
import type { Grip, Overlay } from '../board/overlay.ts';
import type { LinesView } from '../lines/linesDesk.ts';
import { planGrip, type ReadHands } from '../lines/readOverlay.ts';

const words = planPageWords;

interface Placed {
  readonly place: PlanPlace;
  readonly at: GroundPoint;
  readonly proposed: boolean;
  readonly number: number | null;
  readonly label: string;
}

/** Every spot of a plan: placed by the coach, or proposed. */
function spotsOn(sheet: PlanSheet, times: PlanTimes | null): readonly Placed[] {
  const spots: Placed[] = [];
  const own = (place: PlanPlace, number: number | null, label: string, proposed?: GroundPoint): void => {
    const placed = placeOf(sheet, place);
    const at = placed ?? proposed;
    if (at) spots.push({ place, at, proposed: placed === undefined, number, label });
  };
  own({ is: 'wait' }, null, words.start.wait);
  own({ is: 'leadOut' }, null, words.start.leadOut, times?.stays[0]?.spot.at);
  for (const t of times?.crosses ?? []) {
    const is = t.choice === 'first' ? 'cross' : 'second';
    own({ is, id: t.cross.id }, t.cross.place, words.spots[is](t.cross.place), t.spot.at);
  }
  for (const { does, spot } of times?.stays ?? []) {
    if (does.what !== 'support') continue;
    const { id, place } = does.support;
    own({ is: 'support', id }, place, words.spots.support(place), spot.at);
  }
  return spots;
}

/** Dog's line, handler's way and the spots of a plan; dog and handler themselves while it is played. */
export function planOverlay(
  { line, sheet }: LinesView,
  times: PlanTimes | null,
  walk: { readonly through: WalkThrough; readonly at: number } | null,
  selected: number | null,
  hands: ReadHands,
): Overlay {
  const shapes: GroundShape[] = line ? [...lineShapes(line, 1.5)] : [];
  const grips: Grip[] = [];
  for (const { leg } of times?.stays ?? []) {
    if (leg) shapes.push({ shape: 'way', points: leg.points, as: 'handler', pixels: 2 });
  }
  for (const { place, at, proposed, number, label } of spotsOn(sheet, times)) {
    const as = place.is === 'wait' ? 'dog' : 'handler';
    const second = place.is === 'second';
    if (second && number !== selected) continue;
    shapes.push({ shape: 'dot', at, as, pixels: second ? 5 : 7, full: !proposed });
    if (number !== null && number === selected) shapes.push({ shape: 'label', at, text: label, as });
    grips.push(
      planGrip(spotId(place), at, words.spots.moved(label), hands, (s, to) => withSpot(s, place, to)),
    );
  }
  if (walk) {
    const dog = walk.through.dog(walk.at);
    const handler = walk.through.handler(walk.at);
    if (handler)
      shapes.push({ shape: 'body', at: handler, headingDegrees: handler.headingDegrees, as: 'handler' });
    if (dog) shapes.push({ shape: 'body', at: dog, headingDegrees: dog.headingDegrees, as: 'dog' });
  }
  return { shapes, grips };
}

const placeIn = (grip: string): PlanPlace | null => {
  const [is, id] = grip.split(' ');
  if (is === 'wait' || is === 'leadOut') return { is };
  if (id !== undefined && (is === 'cross' || is === 'second' || is === 'support')) return { is, id };
  return null;
};

/** What a spot is called. */
export function spotNameOf(grip: string, sheet: PlanSheet): string {
  const place = placeIn(grip);
  switch (place?.is) {
    case 'wait':
    case 'leadOut':
      return words.start[place.is];
    case 'cross':
    case 'second':
      return words.spots[place.is](sheet.crosses.find((c) => c.id === place.id)?.place ?? 0);
    case 'support':
      return words.spots.support(sheet.supports.find((s) => s.id === place.id)?.place ?? 0);
    case undefined:
      return '';
  }
}

/** The plan without the spot in hand: a proposal stands there then, where there is one. */
export function withoutSpotInHand(grip: string): ((sheet: PlanSheet) => PlanSheet) | null {
  const place = placeIn(grip);
  return place && ((sheet) => withSpot(sheet, place, null));
}

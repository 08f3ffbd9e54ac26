import type { Look } from '../look/look.ts';
import type { Place } from '../look/magnifier.ts';

/** So near to the edge of what the magnifier shows a place counts as out of sight, as a share of what is shown. */
const edge = 0.1;

/** Moves the magnifier to a place: to its middle, or only where it is out of sight. One that follows the dog stays. */
export function bringInSight(
  look: Pick<Look, 'magnifier' | 'place' | 'moveTo'>,
  at: Place,
  how: 'middle' | 'ifOut' = 'ifOut',
): void {
  const { zoom, places } = look.magnifier();
  if (zoom === 1 || places.length > 0) return;
  const middle = look.place();
  const far = Math.max(Math.abs(at.x - middle.x), Math.abs(at.y - middle.y)) * zoom;
  if (how === 'middle' || far > 0.5 - edge) look.moveTo(at);
}

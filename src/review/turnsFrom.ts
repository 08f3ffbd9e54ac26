import { mannerOf, type ObstacleKind } from '../course/kinds.ts';
import { against, timeBetween } from '../time/quantity.ts';
import type { CrossAnalysis, Moment } from './analysis.ts';

/** From when the dog could turn to the new side at the earliest, and what held her until then. */
export type TurnsFrom =
  /** She was on the ground (or still before the entry) when the cue began: from the cue itself. */
  | { readonly from: 'cue'; readonly moment: Moment }
  /** She was in the air, inside, or on the equipment: from the frame on which she came out of it. */
  | { readonly from: 'landing' | 'exit' | 'leaving'; readonly moment: Moment }
  /** The frames leave open which of the two it was: from one of these moments. */
  | { readonly from: 'open'; readonly earliest: Moment; readonly latest: Moment };

/**
 * The earliest frame at which the dog could turn (design facts): in the air she cannot, so a cue after take-off
 * changes nothing before landing; inside a tunnel nothing before its exit; poles and contacts are run to their end.
 * No time to react is added: this is the earliest that nature allows, not what a dog needs.
 * @returns null while the cue or the edges of the obstacle are not marked
 */
export function turnsFrom(cross: Pick<CrossAnalysis, 'parts'>, kind: ObstacleKind): TurnsFrom | null {
  const { cueBegins: cue, takeOff, landing } = cross.parts;
  if (!cue) return null;
  const manner = mannerOf(kind);
  const out =
    manner === 'through' ? 'exit' : manner === 'woven' || manner === 'climbed' ? 'leaving' : 'landing';
  if (out === 'leaving') {
    if (!landing) return null;
    const left = against(timeBetween(landing.bracket, cue.bracket), 0);
    if (left === 'open') return { from: 'open', earliest: landing, latest: cue };
    return left === 'above' ? { from: 'cue', moment: cue } : { from: 'leaving', moment: landing };
  }
  if (!takeOff) return null;
  const before = against(timeBetween(cue.bracket, takeOff.bracket), 0);
  if (before === 'above') return { from: 'cue', moment: cue };
  if (!landing) return null;
  if (before === 'open') return { from: 'open', earliest: cue, latest: landing };
  const after = against(timeBetween(landing.bracket, cue.bracket), 0);
  if (after === 'above') return { from: 'cue', moment: cue };
  return after === 'open' ? { from: 'open', earliest: landing, latest: cue } : { from: out, moment: landing };
}

import type { Dog } from '../actors/dog.ts';
import type { DogNotice } from '../actors/dogWorld.ts';
import { Doing } from '../actors/dogWorld.ts';
import type { Handler } from '../actors/handler.ts';
import { direction, lengthOf, wrapAngle } from '../base/exact.ts';
import { dogParameters, speedOfSound, valueOf } from '../parameters.ts';
import type { CrossRecord } from './record.ts';

const halfField = (valueOf(dogParameters.visualField) / 2) * (Math.PI / 180);
/** Where no cue ever came she looks for her handler this long after landing. */
const looksBackAfter = 0.9;

/** What the dog knows of the way ahead, and since when. */
export class Perception {
  private readonly knownAt: Float64Array;
  private readonly governed: Uint8Array;
  private readonly open: CrossRecord[] = [];
  private readonly reaction: number;

  constructor(places: number, governed: readonly number[], reaction: number) {
    this.knownAt = new Float64Array(places).fill(Infinity);
    this.governed = new Uint8Array(places);
    for (const place of governed) this.governed[place - 1] = 1;
    this.reaction = reaction;
  }

  /** The way on after the place with this index. */
  knows(index: number, time: number): boolean {
    return index < 0 || time >= (this.knownAt[index] ?? -Infinity);
  }

  /** Where no cross governs the way on, she reads it from the course and the handler's running by commitment. */
  hear(notice: DogNotice): void {
    const i = notice.place - 1;
    const known = this.knownAt[i] ?? Infinity;
    if (notice.kind === 'commit' && this.governed[i] === 0) this.knownAt[i] = Math.min(known, notice.at);
    if (notice.kind === 'out') this.knownAt[i] = Math.min(known, notice.at + looksBackAfter);
  }

  watch(cross: CrossRecord): void {
    this.open.push(cross);
  }

  /** Sees and hears what is shown at this moment. */
  learn(time: number, dog: Dog, handler: Handler): void {
    for (const cross of this.open) {
      if (cross.perceivedAt !== null) continue;
      let at = Infinity;
      for (const cue of cross.cues) {
        if (time < cue.begin) continue;
        if (cue.kind === 'voice') {
          const way = lengthOf(handler.x - dog.x, handler.y - dog.y) / valueOf(speedOfSound);
          if (time >= cue.begin + way) at = Math.min(at, cue.begin + way);
          continue;
        }
        if (dog.doing === Doing.tunnel) continue;
        const seenUnder = wrapAngle(direction(handler.y - dog.y, handler.x - dog.x) - dog.heading);
        // A turn that has begun stays visible; it counts from when she could see it.
        if (Math.abs(seenUnder) <= halfField) at = Math.min(at, time - cue.begin < 0.005 ? cue.begin : time);
      }
      if (at === Infinity) continue;
      cross.perceivedAt = at;
      const i = cross.act.place - 1;
      cross.knownAt = at + this.reaction;
      this.knownAt[i] = Math.min(this.knownAt[i] ?? Infinity, cross.knownAt);
    }
  }
}

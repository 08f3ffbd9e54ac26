import type { Shot, Timeline } from './timeline.ts';

/** Sound of the footage from the beginning of a frame on, or silence; seconds. */
export type SoundPart = { readonly frame: number; readonly seconds: number } | { readonly silence: number };

/**
 * What is heard: the sound of all that runs at real speed, each at its picture, and silence while the picture is slowed
 * or held: drawn-out sound says nothing, and would have to be guessed.
 */
export function soundtrackOf({ shots, rate }: Timeline): readonly SoundPart[] {
  const parts: { frame: number | null; ticks: number }[] = [];
  let before: Shot | null = null;
  const put = (frame: number | null, ticks: number, on: boolean): void => {
    const last = parts.at(-1);
    if (last && on) last.ticks += ticks;
    else if (ticks > 0) parts.push({ frame, ticks });
  };
  for (const shot of shots) {
    const heard = shot.speed === 1;
    // Frames that are left out lie close together; a part that begins elsewhere does not.
    const on = before !== null && heard && before.speed === 1 && before.held === 0 && followsOn(before, shot);
    if (heard) put(shot.frame, shot.ticks - shot.held, on);
    else put(null, shot.ticks - shot.held, parts.at(-1)?.frame === null);
    if (shot.held > 0) put(null, shot.held, parts.at(-1)?.frame === null);
    before = shot;
  }
  return parts.map(({ frame, ticks }) => {
    const seconds = (ticks * rate.den) / rate.num;
    return frame === null ? { silence: seconds } : { frame, seconds };
  });
}

/** Most frames of a camera that one picture of a clip stands for: 240 a second shown at 60. */
const mostLeftOut = 5;

const followsOn = (a: Shot, b: Shot): boolean => b.frame > a.frame && b.frame - a.frame <= mostLeftOut;

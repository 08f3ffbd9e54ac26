import { InvalidArgumentError } from 'commander';
import { longestFreeze } from '../../src/report/clip/wish.ts';
import { cliWords as words } from '../../src/words/cli.ts';

/** Shares of real time as they are typed. */
export const sharesTyped: Readonly<Record<string, 1 | 0.5 | 0.25 | 0.125>> = {
  '1': 1,
  '1/2': 0.5,
  '1/4': 0.25,
  '1/8': 0.125,
};

/** A number of the course, or of a clip, from 1. */
export function placeTyped(text: string): number {
  if (!/^[1-9]\d{0,2}$/.test(text)) throw new InvalidArgumentError(words.badPlace(text));
  return Number(text);
}

/** "120-240": a first and a last frame. */
export function framesTyped(text: string): [number, number] {
  const [, from, to] = /^(\d{1,7})-(\d{1,7})$/.exec(text) ?? [];
  if (from === undefined || to === undefined || Number(from) > Number(to))
    throw new InvalidArgumentError(words.badFrames(text));
  return [Number(from), Number(to)];
}

/** "180:2.5": a frame and the seconds for which it is held. */
export function holdTyped(text: string): [number, number] {
  const [, frame, seconds] = /^(\d{1,7}):(\d{1,2}(?:\.\d+)?)$/.exec(text) ?? [];
  if (frame === undefined || !(Number(seconds) >= 0.2 && Number(seconds) <= longestFreeze))
    throw new InvalidArgumentError(words.badHold(text));
  return [Number(frame), Number(seconds)];
}

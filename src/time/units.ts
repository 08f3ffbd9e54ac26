/**
 * The kinds of number that must never be mixed. A brand exists only for the type checker; at run time each
 * of these is a plain number. Convert at the borders, through the functions of this room only.
 */
declare const brand: unique symbol;
/** A value of type `T` that carries the name `Name` for the type checker. */
export type Brand<T, Name extends string> = T & { readonly [brand]: Name };

/** Place of a frame in presentation order, counted from 0. */
export type FrameIndex = Brand<number, 'FrameIndex'>;
/** Integer presentation time in the ticks of a stream's time base (ISO/IEC 14496-12). */
export type Pts = Brand<number, 'Pts'>;
/** Seconds on the clock of the file, as a player shows them. */
export type MediaSeconds = Brand<number, 'MediaSeconds'>;
/** Real seconds at the camera. Differs from media time in slow motion. */
export type CaptureSeconds = Brand<number, 'CaptureSeconds'>;
/** Real seconds on the clock of the run, shared by all clips of that run. */
export type RunSeconds = Brand<number, 'RunSeconds'>;
export const frameIndex = (n: number): FrameIndex => whole(n, 'a frame index', 0) as FrameIndex;
export const pts = (n: number): Pts => whole(n, 'a presentation time', -Number.MAX_SAFE_INTEGER) as Pts;
export const runSeconds = (n: number): RunSeconds => finite(n, 'a run time') as RunSeconds;
export const captureSeconds = (n: number): CaptureSeconds => finite(n, 'a capture time') as CaptureSeconds;
export const mediaSeconds = (n: number): MediaSeconds => finite(n, 'a media time') as MediaSeconds;

function finite(n: number, what: string): number {
  if (!Number.isFinite(n)) throw new RangeError(`${String(n)} cannot be ${what}: it is not a finite number`);
  return n;
}

function whole(n: number, what: string, least: number): number {
  if (!Number.isSafeInteger(n) || n < least) {
    throw new RangeError(
      `${String(n)} cannot be ${what}: a whole number${least === 0 ? ' from 0 up' : ''} is needed`,
    );
  }
  return n;
}

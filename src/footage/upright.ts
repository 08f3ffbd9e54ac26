import type { PictureFacts } from './clipProbe.ts';

/**
 * Filters that make of a stored picture what people are shown. ffmpeg turns it upright by itself, ahead of these; then
 * follow: one picture from the two half-pictures of an interlaced frame (or, with `fields`, one from each), and square
 * pixels.
 */
export function uprightFilters(
  picture: PictureFacts,
  size: { width: number; height: number },
  fields = false,
): string[] {
  const one = picture.interlaced ? ['yadif=mode=send_frame:deint=interlaced'] : [];
  return [
    // Every frame gives two, whatever it says of itself: the table of half-pictures counts on it.
    ...(fields ? ['bwdif=mode=send_field:parity=auto:deint=all'] : one),
    `scale=${size.width}:${size.height}`,
  ];
}

/** Lets only frames through that come after the one before: the rule of `orderTimes`, for ffmpeg. */
export const risingOnly = `select='isnan(prev_selected_pts)+gt(pts,prev_selected_pts)'`;

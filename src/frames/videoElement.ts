import { FrameTrouble } from './trouble.ts';

/** Longest wait for the first picture; a browser that cannot show a format may say nothing at all. */
const patience = 15_000;

/**
 * Waits until a video element has a picture. Rejects with a FrameTrouble `cannotPlay`: some browsers play the sound
 * of a format they cannot show, raise no error, and have a picture of no width.
 */
export function firstPicture(video: HTMLVideoElement): Promise<void> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => end('no picture in time'), patience);
    const loaded = (): void => end(video.videoWidth > 0 ? null : 'sound without a picture');
    const failed = (): void => end(video.error?.message ?? 'no reason given');
    const end = (why: string | null): void => {
      clearTimeout(timer);
      video.removeEventListener('loadeddata', loaded);
      video.removeEventListener('error', failed);
      if (why === null) resolve();
      else reject(new FrameTrouble('cannotPlay', why));
    };
    if (video.readyState >= HTMLMediaElement.HAVE_CURRENT_DATA) {
      loaded();
      return;
    }
    video.addEventListener('loadeddata', loaded);
    video.addEventListener('error', failed);
  });
}

/** Gives an element of our own a clip and waits for its first picture. */
export async function loadVideo(video: HTMLVideoElement, url: string): Promise<void> {
  video.preload = 'auto';
  video.playsInline = true;
  video.src = url;
  await firstPicture(video);
}

/** The picture the element shows now, with its media time in microseconds; null where it has none. */
export function frameNow(video: HTMLVideoElement): VideoFrame | null {
  try {
    return new VideoFrame(video);
  } catch {
    return null;
  }
}

/** The media time of the picture the element shows now, seconds; null where it has none. */
export function shownTime(video: HTMLVideoElement): number | null {
  const frame = frameNow(video);
  if (!frame) return null;
  const seconds = frame.timestamp / 1e6;
  frame.close();
  return seconds;
}

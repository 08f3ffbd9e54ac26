import type { CaptureFact } from '../review/captureFacts.ts';
import type { Wholeness } from './container/wholeness.ts';
import { pictureStream, type ProbeOutput } from './statedFacts.ts';

/**
 * Keys in which files state how fast they were filmed, each from a public source:
 * - `com.android.capture.fps`: the open-source Android platform writes the rate asked of the camera under this key of
 *   the movie's metadata, as a 32-bit float (AndroidX Media3, MdtaMetadataEntry.KEY_ANDROID_CAPTURE_FPS; Android's
 *   MediaRecorder.setCaptureRate and MediaMetadataRetriever.METADATA_KEY_CAPTURE_FRAMERATE). Frames may be written
 *   slower than that (slow motion) or just as fast.
 * - `com.apple.quicktime.full-frame-rate-playback-intent`: 1 to play as fast as filmed, 0 to play slowed down (Apple,
 *   AVFoundation, AVMetadataQuickTimeMetadataKeyFullFrameRatePlaybackIntent). It asks a player for a speed; the times
 *   of the frames stay those of life.
 */
const captureFps = 'com.android.capture.fps';
const playFullRate = 'com.apple.quicktime.full-frame-rate-playback-intent';

/** Sound and pictures whose lengths differ by less are just cut off at different places. */
const unlike = 1.2;

/**
 * What a file says of its capture speed: stated keys, its edit list (ISO/IEC 14496-12, 8.6.6: media_rate), and sound
 * that is not as long as the pictures. Values that make no sense are left out.
 */
export function captureFacts(
  output: ProbeOutput,
  { editRates, keys }: Pick<Wholeness, 'editRates' | 'keys'>,
): CaptureFact[] {
  const facts: CaptureFact[] = [];
  const picture = pictureStream(output);
  const stated = (key: string): string | undefined => {
    for (const tags of [output.format.tags, picture?.tags]) {
      const found = Object.entries(tags ?? {}).find(([name]) => name.toLowerCase() === key);
      if (found) return found[1].trim();
    }
    return undefined;
  };
  const fps = Number(stated(captureFps) ?? NaN);
  if (fps > 0 && fps <= 1e6) facts.push({ fact: 'captureFps', key: captureFps, fps });
  const intent = stated(playFullRate) ?? String(keys.get(playFullRate));
  if (intent === '0' || intent === '1') {
    facts.push({ fact: 'playFullRate', key: playFullRate, full: intent === '1' });
  }
  const rates = [...new Set(editRates)].slice(0, 100);
  if (rates.length > 0) facts.push({ fact: 'editRates', rates });
  const sound = output.streams.find((s) => s.codec_type === 'audio' && Number(s.duration ?? NaN) > 0);
  const lengths = { sound: Number(sound?.duration ?? NaN), picture: Number(picture?.duration ?? NaN) };
  const ratio = lengths.picture / lengths.sound;
  if (Math.max(ratio, 1 / ratio) >= unlike && Number.isFinite(ratio)) {
    facts.push({ fact: 'soundLength', ...lengths });
  }
  return facts;
}

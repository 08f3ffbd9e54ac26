import type { SpeedMap } from '../time/captureClock.ts';
import type { FrameTable } from '../time/frameTable.ts';
import { rampInFrames, rateAt, rateStretches, speedsAtRate } from '../time/rateStretches.ts';
import type { CaptureFact } from './captureFacts.ts';

/**
 * What is known or guessed of the speed at which a clip was filmed, with its source. `speed` is what would follow if it
 * holds; null where nothing follows and only the coach can say. Nothing of it is used before the coach says so.
 */
export type CaptureFinding =
  | {
      readonly source: 'captureFps';
      readonly key: string;
      readonly fps: number;
      /** Frames a second of the file. */
      readonly plays: number;
      readonly speed: SpeedMap;
    }
  | { readonly source: 'ramp'; readonly times: number; readonly speed: SpeedMap }
  | {
      readonly source: 'soundLength';
      readonly sound: number;
      readonly picture: number;
      readonly speed: SpeedMap;
    }
  | { readonly source: 'playFullRate'; readonly key: string; readonly full: boolean; readonly speed: null }
  | { readonly source: 'editRates'; readonly rates: readonly number[]; readonly speed: null }
  | { readonly source: 'noSound'; readonly speed: null };

/** Slow motion is written at the rates of films; a clip without sound that comes faster is most likely life. */
const filmRate = 31;

/** Reads the facts of a file and its frame times, the most telling first. */
export function captureFindings(
  facts: readonly CaptureFact[],
  table: FrameTable,
  hasSound: boolean,
): CaptureFinding[] {
  const [first] = rateStretches(table);
  if (!first) return [];
  const start = speedsAtRate(table, 1)[0]?.from ?? 0;
  const found: CaptureFinding[] = [];
  for (const f of facts) {
    switch (f.fact) {
      case 'captureFps':
        if (!(f.fps > 0)) break;
        found.push({
          source: 'captureFps',
          key: f.key,
          fps: f.fps,
          plays: rateAt(rateStretches(table), 0) ?? 0,
          speed: speedsAtRate(table, f.fps),
        });
        break;
      case 'soundLength':
        if (!(f.sound > 0 && f.picture > 0)) break;
        found.push({
          source: 'soundLength',
          sound: f.sound,
          picture: f.picture,
          speed: [{ from: start, speed: f.sound / f.picture }],
        });
        break;
      case 'playFullRate':
        found.push({ source: 'playFullRate', key: f.key, full: f.full, speed: null });
        break;
      case 'editRates':
        found.push({ source: 'editRates', rates: f.rates, speed: null });
        break;
    }
  }
  const ramp = rampInFrames(table);
  if (ramp) found.push({ source: 'ramp', ...ramp });
  if (!hasSound && found.length === 0 && first.rate <= filmRate)
    found.push({ source: 'noSound', speed: null });
  return found;
}

/** Whether a finding speaks for another speed than that of life. */
export function speaksForSlow(finding: CaptureFinding): boolean {
  if (finding.source === 'playFullRate') return false;
  return finding.speed === null || finding.speed.some((piece) => piece.speed !== 1);
}

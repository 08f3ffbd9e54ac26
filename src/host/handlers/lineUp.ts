import type { Clip } from '../../library/clips.ts';
import { frameAt, frameSeconds, lastFrame } from '../../time/frameTable.ts';
import { soundLineUp, type SoundAnswer } from '../../time/lineUp/bySound.ts';
import type { SoundTrack } from '../../time/lineUp/soundTrack.ts';
import { frameIndex, pts } from '../../time/units.ts';
import { hostTroubles } from '../../words/hostTroubles.ts';
import { lineUpRefusals, lineUpWords } from '../../words/lineUp.ts';
import type { ClipPart } from '../contract/calls.ts';
import type { Desk, JobHandler } from '../desk.ts';
import type { JobTools } from '../jobQueue.ts';
import { trouble } from '../troubles.ts';

/** The part of the work that goes to reading sound; the rest is comparing. */
const readingShare = 0.4;

export const clipsLineUp: JobHandler<'clips.lineUp'> = (desk, { to, of, spacing }) => {
  const [one, other] = [known(desk, to), known(desk, of)];
  return {
    about: lineUpWords.about(one.name, other.name),
    lane: 'listen',
    key: `line up ${JSON.stringify([to, of, spacing])}`,
    async run(tools) {
      const first = await heard(desk, to, tools);
      tools.progress(readingShare / 2, 1);
      const second = await heard(desk, of, tools);
      tools.progress(readingShare, 1);
      const answer = await compared(first, second, spacing, tools);
      if (answer.found) {
        const { offset, rate, rateTold, plusMinus, compared: many, agree } = answer;
        return { found: true, offset, rate, rateTold, plusMinus, compared: many, agree };
      }
      return { found: false, why: answer.why, words: lineUpRefusals[answer.why] };
    },
  };
};

async function heard(desk: Desk, part: ClipPart, tools: JobTools): Promise<SoundTrack> {
  const clip = known(desk, part);
  const path = desk.clips.original(clip);
  if (path === null) throw trouble('notFound', hostTroubles.clipFileMissing(clip.name, clip.path));
  const frames = desk.library.clips.frames(clip.id);
  const ends = part.cut
    ? [frameAt(frames, pts(part.cut.from)), frameAt(frames, pts(part.cut.to))]
    : [frameIndex(0), lastFrame(frames)];
  const [from = 0, to = 0] = ends.map((frame) => frameSeconds(frames, frame));
  // Sound often outlasts the last frame by a little; there is no frame to line up there.
  return desk.footage.sound(path, frames, { from, seconds: Math.max(0.1, to - from) }, tools.signal);
}

/** Compares step by step, so that other windows are answered meanwhile and the work can be stopped. */
async function compared(
  to: SoundTrack,
  of: SoundTrack,
  spacing: number,
  tools: JobTools,
): Promise<SoundAnswer> {
  const steps = soundLineUp(to, of, spacing);
  for (;;) {
    await new Promise((resolve) => setImmediate(resolve));
    tools.signal.throwIfAborted();
    const step = steps.next();
    if (step.done) return step.value;
    tools.progress(readingShare + (1 - readingShare) * step.value, 1);
  }
}

function known(desk: Desk, { clipId }: ClipPart): Clip {
  const clip = desk.library.clips.get(clipId);
  if (!clip) throw trouble('notFound', hostTroubles.unknownClip);
  return clip;
}

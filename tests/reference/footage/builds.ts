import { createRequire } from 'node:module';
import { findPrograms } from '../../../src/footage/programs/find.ts';

/** A build of ffmpeg that the footage room must work with. */
export interface Build {
  readonly name: string;
  readonly ffmpeg: string;
  readonly ffprobe: string;
}

const require = createRequire(import.meta.url);
const at = (name: string): string => (require(name) as { path: string }).path;

/** The one that comes with npm, whatever the system has. */
export const packaged: Build = {
  name: 'the build from npm',
  ffmpeg: at('@ffmpeg-installer/ffmpeg'),
  ffprobe: at('@ffprobe-installer/ffprobe'),
};

/** The system's, where it is new enough to be used; else null. */
export async function systemBuild(): Promise<Build | null> {
  leaveBuild();
  const found = await findPrograms();
  if (found.from !== 'system') return null;
  return { name: "the system's build", ffmpeg: found.ffmpeg, ffprobe: found.ffprobe };
}

/** Makes the footage room use a build from now on. */
export function useBuild(build: Build): void {
  process.env['WALKBACK_FFMPEG'] = build.ffmpeg;
  process.env['WALKBACK_FFPROBE'] = build.ffprobe;
}

export function leaveBuild(): void {
  delete process.env['WALKBACK_FFMPEG'];
  delete process.env['WALKBACK_FFPROBE'];
}

import path from 'node:path';

/**
 * Containers that are taken, by the names of ffmpeg's demuxers. Anything else that ffmpeg could open is refused: text,
 * pictures, and playlists that would make it fetch other files.
 */
const containers = 'mov,mp4,m4a,3gp,3g2,mj2,matroska,webm,avi,mpegts';

/** Nothing is fetched from anywhere. */
export const onlyFiles = ['-protocol_whitelist', 'file,pipe'] as const;
/** Options that stand before every clip that is read: nothing but plain files of known containers is opened. */
export const safeReading = [...onlyFiles, '-format_whitelist', containers] as const;

/**
 * A path as ffmpeg must be given it: absolute, so that a leading dash is no option and "name:" no protocol.
 */
export function plainPath(file: string): string {
  return path.resolve(file);
}

/**
 * Environment for the programs. The statically linked ffprobe from npm crashes in its character conversion when a
 * transport stream names its service; without conversion tables it reads the same file well.
 */
export function programEnvironment(): NodeJS.ProcessEnv {
  return { ...process.env, GCONV_PATH: '/dev/null' };
}

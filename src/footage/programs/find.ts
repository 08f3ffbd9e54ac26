import { execFile } from 'node:child_process';
import { createRequire } from 'node:module';
import { promisify } from 'node:util';
import { footageWords } from '../../words/footage.ts';
import { FootageError } from '../trouble.ts';

/** The two programs that all footage goes through. */
export interface Programs {
  readonly ffmpeg: string;
  readonly ffprobe: string;
  /** As ffmpeg states it. */
  readonly version: string;
  /** Main version of its library of common functions: 57 came with version 5, 59 with version 7. */
  readonly avutil: number;
  readonly from: 'environment' | 'system' | 'package';
}

const run = promisify(execFile);
const known = new Map<string, Promise<Programs>>();

/**
 * The system's ffmpeg and ffprobe where both are version 5 or newer and can write H.264, else those that come with
 * the npm packages. WALKBACK_FFMPEG and WALKBACK_FFPROBE name others. Looked for once per setting of these.
 * Throws a FootageError ('notFound') where none can be started.
 */
export function findPrograms(): Promise<Programs> {
  const { WALKBACK_FFMPEG: ffmpeg = '', WALKBACK_FFPROBE: ffprobe = '' } = process.env;
  const key = JSON.stringify([ffmpeg, ffprobe, process.env['PATH']]);
  let found = known.get(key);
  if (!found) {
    found = look(ffmpeg, ffprobe);
    known.set(key, found);
    // A failure is not remembered: the user may install ffmpeg and try again.
    found.catch(() => known.delete(key));
  }
  return found;
}

async function look(ffmpeg: string, ffprobe: string): Promise<Programs> {
  const reasons: string[] = [];
  const system = await suitable('ffmpeg', 'ffprobe', reasons);
  if (system && !ffmpeg && !ffprobe) return { ...system, from: 'system' };
  let base = system;
  if (!base) {
    try {
      base = await packaged();
    } catch (error) {
      reasons.push(error instanceof Error ? error.message : String(error));
    }
  }
  if (!ffmpeg && !ffprobe && base) return { ...base, from: 'package' };
  const chosen = { ffmpeg: ffmpeg || base?.ffmpeg, ffprobe: ffprobe || base?.ffprobe };
  if (chosen.ffmpeg && chosen.ffprobe) {
    try {
      const told = await identify(chosen.ffmpeg);
      await identify(chosen.ffprobe);
      return { ffmpeg: chosen.ffmpeg, ffprobe: chosen.ffprobe, ...told, from: 'environment' };
    } catch (error) {
      reasons.push(error instanceof Error ? error.message : String(error));
    }
  }
  throw new FootageError('notFound', footageWords.noFfmpeg(reasons.join('; ')));
}

/** null where the pair is missing, too old, or built without the H.264 encoder that working copies need. */
async function suitable(
  ffmpeg: string,
  ffprobe: string,
  reasons: string[],
): Promise<Omit<Programs, 'from'> | null> {
  try {
    const [one, other] = await Promise.all([identify(ffmpeg), identify(ffprobe)]);
    if (one.avutil < 57 || other.avutil < 57) {
      reasons.push(`the installed ffmpeg is ${one.version}`);
      return null;
    }
    const { stdout } = await run(ffmpeg, ['-hide_banner', '-encoders'], {
      timeout: 20_000,
      windowsHide: true,
    });
    if (!/\blibx264\b/.test(stdout)) {
      reasons.push('the installed ffmpeg was built without libx264');
      return null;
    }
    return { ffmpeg, ffprobe, ...one };
  } catch (error) {
    reasons.push(error instanceof Error ? error.message : String(error));
    return null;
  }
}

async function packaged(): Promise<Omit<Programs, 'from'>> {
  const require = createRequire(import.meta.url);
  const at = (name: string): string => {
    // The packages throw a bare string where they have no program for this system.
    const { path } = require(name) as { path: string };
    // A packed application keeps programs beside its archive, since nothing can be started from inside it.
    return path.replace(/\bapp\.asar\b(?!\.unpacked)/, 'app.asar.unpacked');
  };
  const ffmpeg = at('@ffmpeg-installer/ffmpeg');
  const ffprobe = at('@ffprobe-installer/ffprobe');
  const [told] = await Promise.all([identify(ffmpeg), identify(ffprobe)]);
  return { ffmpeg, ffprobe, ...told };
}

/**
 * What a program says of itself. Version 5 came with libavutil 57; builds from development carry no plain version
 * number, so the library's number decides.
 */
async function identify(program: string): Promise<{ version: string; avutil: number }> {
  const { stdout } = await run(program, ['-version'], { timeout: 20_000, windowsHide: true });
  const version = /^ff(?:mpeg|probe) version (\S+)/.exec(stdout)?.[1];
  if (version === undefined) throw new Error(`${program} is not ffmpeg`);
  return { version, avutil: Number(/^libavutil\s+(\d+)\./m.exec(stdout)?.[1] ?? 0) };
}

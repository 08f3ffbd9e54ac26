/**
 * Makes clips with a number painted into every picture, to test with. Run `node scripts/clips/make.ts [kind ...]`
 * to make all or some; tests call `clip(kind)`, which makes a clip once and keeps it under .cache/clips.
 */
import { spawn, spawnSync } from 'node:child_process';
import { createHash, randomUUID } from 'node:crypto';
import { once } from 'node:events';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { giveLastPictureItsDuration } from '../../src/footage/container/lastDuration.ts';
import { inTurn } from './inTurn.ts';
import { timing, turnTrack, withEdits, type Edit } from './boxes.ts';
import { clipKinds, clipRecipes, type ClipKind, type ClipRecipe } from './kinds.ts';
import { largestPainted, paintPicture, turnBack } from './painted.ts';

export { clipKinds, type ClipKind } from './kinds.ts';

const here = path.dirname(fileURLToPath(import.meta.url));
const store = path.join(here, '..', '..', '.cache', 'clips');
/** Clips that not every ffmpeg can make, copied from the store. */
const kept = path.join(here, '..', '..', 'fixtures', 'clips');

/** A clip that was made. Picture i of presentation order (hidden ones not counted) shows the number i. */
export interface Clip {
  readonly kind: string;
  readonly path: string;
  readonly frames: number;
  /** Upright size in pixels as coded (no correction for pixels that are not square). */
  readonly width: number;
  readonly height: number;
}

/** The clip of a kind, made now if it was not made before. Throws with ffmpeg's own words where it cannot be made. */
export function clip(kind: ClipKind): Promise<Clip> {
  return clipBy(kind, clipRecipes[kind]);
}

/** A clip by a recipe of one's own, under a name that no kind has; made once, as `clip` does. */
export async function clipBy(kind: string, recipe: ClipRecipe): Promise<Clip> {
  const facts = { kind, frames: recipe.frames, width: recipe.width, height: recipe.height };
  const hash = createHash('sha256').update(JSON.stringify(recipe));
  for (const part of ['painted.ts', 'boxes.ts', 'make.ts']) hash.update(readFileSync(path.join(here, part)));
  const name = `${kind}-${hash.digest('hex').slice(0, 12)}.${recipe.ending}`;
  const file = path.join(store, name);
  if (!existsSync(file)) {
    if (!canMake(recipe)) return { ...facts, path: path.join(kept, `${kind}.${recipe.ending}`) };
    mkdirSync(store, { recursive: true });
    await inTurn(path.join(store, `${name}.making`), () => makeClip(kind, recipe, name));
  }
  return { ...facts, path: file };
}

/** Makes a clip under its name in the store, where nobody else has done so meanwhile. */
async function makeClip(kind: string, recipe: ClipRecipe, name: string): Promise<void> {
  const file = path.join(store, name);
  if (existsSync(file)) return;
  const unfinished = path.join(store, `${randomUUID()}.${recipe.ending}`);
  try {
    await encode(recipe, unfinished);
    await giveLastPictureItsDuration(unfinished);
    finish(recipe, unfinished);
    renameSync(unfinished, file);
    // Clips of earlier recipes are of no use any more.
    for (const old of readdirSync(store)) {
      if (old.startsWith(`${kind}-`) && !old.startsWith(name)) rmSync(path.join(store, old), { force: true });
    }
  } finally {
    rmSync(unfinished, { force: true });
  }
}

/** Numbers painted, in coded presentation order: hidden pictures get numbers that no visible one has. */
function numbers(recipe: ClipRecipe): number[] {
  const hidden = recipe.hidden ?? (recipe.cutHead ? [[0, recipe.cutHead] as const] : []);
  const all = recipe.frames + hidden.reduce((sum, [from, until]) => sum + until - from, 0);
  let shown = 0;
  return Array.from({ length: all }, (_, i) =>
    hidden.some(([from, until]) => i >= from && i < until) ? largestPainted - i : shown++,
  );
}

async function encode(recipe: ClipRecipe, out: string): Promise<void> {
  const list = numbers(recipe);
  const turns = (recipe.turn ?? 0) / 90;
  const coded = turns % 2 === 1 ? `${recipe.height}x${recipe.width}` : `${recipe.width}x${recipe.height}`;
  const own = recipe.encode.indexOf('-vf');
  const filters = [
    recipe.ticks ? `setpts='${recipe.ticks}'` : '',
    own < 0 ? '' : (recipe.encode[own + 1] ?? ''),
  ];
  const rest = own < 0 ? recipe.encode : recipe.encode.filter((_, i) => i !== own && i !== own + 1);
  const chain = filters.filter((f) => f !== '').join(',');
  const args = [
    ...['-hide_banner', '-loglevel', 'error', '-y'],
    ...['-f', 'rawvideo', '-pix_fmt', 'rgb24', '-s', coded, '-framerate', recipe.rate, '-i', 'pipe:0'],
    ...(recipe.sound ? ['-f', 'lavfi', '-i', `sine=frequency=330:duration=${seconds(recipe)}`] : []),
    ...['-map', '0:v', ...(recipe.sound ? ['-map', '1:a', ...recipe.sound] : [])],
    ...(chain ? ['-vf', chain] : []),
    ...['-vsync', 'passthrough', '-enc_time_base', '-1', ...rest, out],
  ];
  const child = spawn(program(), args, { stdio: ['pipe', 'ignore', 'pipe'] });
  let complaint = '';
  child.stderr.setEncoding('utf8').on('data', (text: string) => (complaint += text));
  // The reason of a broken pipe is in ffmpeg's own words, reported below.
  child.stdin.on('error', () => undefined);
  const ended = once(child, 'close');
  for (const number of list) {
    const picture = turnBack(
      paintPicture(number, recipe.width, recipe.height),
      recipe.width,
      recipe.height,
      turns,
    );
    if (!child.stdin.write(picture.rgb)) {
      await Promise.race([once(child.stdin, 'drain').catch(() => undefined), ended]);
    }
    if (child.exitCode !== null) break;
  }
  child.stdin.end();
  const [code] = (await ended) as [number | null];
  if (code !== 0) throw new Error(`ffmpeg could not make this clip (${String(code)}): ${complaint.trim()}`);
}

function seconds(recipe: ClipRecipe): number {
  const [num = 1, den = 1] = recipe.rate.split('/').map(Number);
  return recipe.ticks ? recipe.frames / 25 : (recipe.frames * den) / num;
}

/** Writes turn and edit list, and cuts the head off, in place. */
function finish(recipe: ClipRecipe, file: string): void {
  if (recipe.turn) writeFileSync(file, turnTrack(readFileSync(file), recipe.turn));
  if (recipe.hidden && recipe.track) {
    const bytes = readFileSync(file);
    const { movie, media, firstMediaTime } = timing(bytes);
    const all = numbers(recipe).length;
    const edits: Edit[] = [];
    let from = 0;
    for (const [hideFrom, hideUntil] of [...recipe.hidden, [all, all] as const]) {
      if (hideFrom > from) {
        edits.push({
          segmentDuration: Math.round(((hideFrom - from) * recipe.track * movie) / media),
          mediaTime: firstMediaTime + from * recipe.track,
        });
      }
      from = hideUntil;
    }
    writeFileSync(file, withEdits(bytes, edits));
  }
  if (recipe.cutHead) writeFileSync(file, cutTransportStream(readFileSync(file)));
}

/**
 * Drops transport packets of 188 bytes from the front, as a recording does that was started in mid-stream: the cut
 * falls between the first key picture (random access indicator, ISO/IEC 13818-1 2.4.3.5) and the second.
 */
function cutTransportStream(bytes: Buffer): Buffer {
  const starts: number[] = [];
  for (let at = 0; at + 188 <= bytes.length; at += 188) {
    const adapted = ((bytes[at + 3] ?? 0) & 0x20) !== 0 && (bytes[at + 4] ?? 0) > 0;
    if (adapted && ((bytes[at + 5] ?? 0) & 0x40) !== 0) starts.push(at);
  }
  const [first, second] = starts;
  if (first === undefined || second === undefined) throw new Error('The stream has no second key picture');
  return bytes.subarray(Math.floor((first + second) / 2 / 188) * 188);
}

/** Whether this ffmpeg can make the clip; else one that was made before lies in fixtures/clips. */
function canMake(recipe: ClipRecipe): boolean {
  if (!recipe.encode.includes('libsvtav1')) return true;
  const { stdout } = spawnSync(program(), ['-hide_banner', '-encoders'], { encoding: 'utf8' });
  return stdout.includes('libsvtav1');
}

let found: string | undefined;

/** The system's ffmpeg, else the one from npm. */
function program(): string {
  if (found === undefined) {
    const works = spawnSync('ffmpeg', ['-version'], { stdio: 'ignore' }).status === 0;
    found = works
      ? 'ffmpeg'
      : (createRequire(import.meta.url)('@ffmpeg-installer/ffmpeg') as { path: string }).path;
  }
  return found;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const asked = process.argv.slice(2);
  for (const kind of asked.length > 0 ? asked : clipKinds) {
    if (!(kind in clipRecipes)) {
      console.error(`There is no kind of clip named ${kind}. Kinds: ${clipKinds.join(', ')}`);
      process.exit(2);
    }
    const made = await clip(kind as ClipKind);
    console.log(`${kind}: ${made.frames} frames, ${made.path}`);
  }
}

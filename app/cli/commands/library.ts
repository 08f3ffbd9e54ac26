import { existsSync } from 'node:fs';
import { basename, extname } from 'node:path';
import { runJob } from '../../../src/host/contract/link.ts';
import { layoutOf } from '../../../src/library/layout.ts';
import { cliWords } from '../../../src/words/cli.ts';
import { coachingReport } from '../../../src/words/coachingReport.ts';
import { libraryFolder, libraryNow, withLibrary } from '../libraryLink.ts';
import type { Output } from '../output.ts';
import { checkPlainFile } from '../plainFile.ts';
import { BadInput, troubleLine } from '../trouble.ts';

/**
 * Brings videos and review files into the library, one after the other. Each that cannot be brought in is told
 * on a line of its own and the others go on.
 */
export async function importFiles(
  paths: readonly string[],
  library: string | undefined,
  out: Output,
  signal: AbortSignal,
): Promise<void> {
  await withLibrary(library, async (host) => {
    const failed: string[] = [];
    for (const path of paths) {
      signal.throwIfAborted();
      try {
        await checkPlainFile(path);
        if (extname(path).toLowerCase() === '.json') {
          await runJob(host, 'review.import', { source: { path } });
          out.text(cliWords.importedReview(basename(path)));
        } else {
          const { clip } = await runJob(host, 'clip.import', { source: { path } });
          out.text(cliWords.importedClip(clip.name, clip.frames));
        }
      } catch (error) {
        const why = troubleLine(error);
        failed.push(why.includes(basename(path)) ? why : cliWords.notImported(path, why));
      }
    }
    const last = failed.pop();
    for (const line of failed) out.remark(line);
    if (last !== undefined) throw new BadInput(last);
  });
}

/** Lists the library's reviews and clips. Looking makes no library where there is none. */
export async function listLibrary(library: string | undefined, json: boolean, out: Output): Promise<void> {
  const folder = libraryFolder(library);
  if (!existsSync(layoutOf(folder).database)) throw new BadInput(cliWords.noLibrary(folder));
  const { reviews, clips } = await withLibrary(library, libraryNow);
  if (json) {
    // Media ids live as long as the host that gave them: of no use outside.
    out.json({ reviews, clips: clips.map(({ mediaId: _gone, ...clip }) => clip) });
    return;
  }
  const team = (r: (typeof reviews)[number]): string => coachingReport.team(r.handler, r.dog);
  out.text(
    [
      cliWords.reviews,
      ...(reviews.length === 0
        ? [`  ${cliWords.noReviews}`]
        : reviews.map((r) => `  ${cliWords.reviewLine({ ...r, team: team(r) })}`)),
      cliWords.clips,
      ...(clips.length === 0 ? [`  ${cliWords.noClips}`] : clips.map((c) => `  ${cliWords.clipLine(c)}`)),
    ].join('\n'),
  );
}

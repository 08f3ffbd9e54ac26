import { project, type GroundCamera } from '../../ground/camera.ts';
import { courseSeen } from '../../ground/seen.ts';
import { wantedLine } from '../../line/wantedLine.ts';
import type { GroundPoint } from '../../course/points.ts';
import { drawnPieces } from '../../track/drawn.ts';
import type { GroundFit } from '../../track/groundFits.ts';
import { fewestMarks, runLines, type LinePart } from '../../track/runLines.ts';
import { samplesOf, type LineSample } from '../../track/samples.ts';
import { groundFits } from '../../track/groundFits.ts';
import type { Box } from './layout.ts';
import type { RunAtHand } from './run.ts';
import type { ClipWish } from './wish.ts';

/** Something that lies on the ground, where the camera sees it; points are pixels of the clip. */
export type GroundMark =
  | {
      readonly shape: 'way';
      readonly as: 'wanted' | 'likely' | 'real' | 'handler';
      readonly points: readonly (readonly [number, number])[];
      readonly dashed: boolean;
    }
  | { readonly shape: 'number'; readonly text: string; readonly x: number; readonly y: number };

/** What a clip shows of the ground at a frame; the same list as long as nothing of it changes. */
export type GroundLayer = (pts: number) => readonly GroundMark[];

/** Seconds of the real line before a clip begins and after it ends, as much as tells where she comes from and goes. */
const [before, after] = [0.5, 1.5];

const nothing: readonly GroundMark[] = [];

/**
 * The numbers and lines of a run over one of its clips, where the course is fitted to it; nothing where it is not, or
 * where the camera has been bumped.
 * @param span run time that the clip shows
 */
export function groundLayer(
  run: RunAtHand,
  footageId: string,
  box: Box,
  show: ClipWish['overlays'],
  span: { readonly from: number; readonly to: number },
): GroundLayer {
  const picture = run.pictures.get(footageId);
  if (!picture || !(show.numbers || show.wanted || show.likely || show.real)) return () => nothing;
  const fits = groundFits(run.review.fits, run.course, picture, footageId);
  const drawn = new Map<GroundFit, readonly GroundMark[]>();
  return (pts) => {
    const fit = fits.find((f) => f.holds(pts));
    if (!fit) return nothing;
    const known = drawn.get(fit) ?? marksOf(run, footageId, fit, box, show, span);
    drawn.set(fit, known);
    return known;
  };
}

function marksOf(
  run: RunAtHand,
  footageId: string,
  { fit: { camera } }: GroundFit,
  box: Box,
  show: ClipWish['overlays'],
  span: { readonly from: number; readonly to: number },
): readonly GroundMark[] {
  const [wide, high] = [box.width / camera.picture.width, box.height / camera.picture.height];
  const place = (p: { x: number; y: number }): readonly [number, number] => [box.x + p.x * wide, p.y * high];
  const ways = (
    as: 'wanted' | 'likely' | 'real' | 'handler',
    points: readonly GroundPoint[],
    dashed = false,
  ): GroundMark[] =>
    seenRuns(camera, points).map((run) => ({ shape: 'way', as, dashed, points: run.map(place) }));
  const { wantedLine: drawn } = run.review.plan;
  const lines = show.real ? linesOf(run, footageId) : { dog: [], handler: [] };
  const near = (s: LineSample): boolean => s.at >= span.from - before && s.at <= span.to + after;
  return [
    ...(show.likely ? run.likely.flatMap((points) => ways('likely', points)) : []),
    ...(show.wanted && drawn ? ways('wanted', wantedLine(drawn.nodes, drawn.tension)) : []),
    ...ways('handler', lines.handler.filter(near)),
    ...drawnPieces(lines.dog.filter(near), 'plain').flatMap(({ points, dashed }) =>
      ways('real', points, dashed),
    ),
    ...(show.numbers
      ? courseSeen(run.course, camera).flatMap((s): GroundMark[] => {
          if (s.shape !== 'number') return [];
          const [x, y] = place(s.at);
          return [{ shape: 'number', text: s.text, x, y }];
        })
      : []),
  ];
}

/** The parts of a line that the camera sees. */
function seenRuns(camera: GroundCamera, points: readonly GroundPoint[]): { x: number; y: number }[][] {
  const runs: { x: number; y: number }[][] = [[]];
  for (const p of points) {
    const at = project(camera, p);
    if (at) runs.at(-1)?.push(at);
    else if (runs.at(-1)?.length !== 0) runs.push([]);
  }
  return runs.filter((run) => run.length > 1);
}

/** The lines that dog and handler ran, of the body points that were clicked most. */
function linesOf(
  { review, course, clocks, analysis, pictures }: RunAtHand,
  footageId: string,
): { readonly dog: readonly LineSample[]; readonly handler: readonly LineSample[] } {
  if (review.tracks.every((t) => t.marks.length < fewestMarks)) return { dog: [], handler: [] };
  const parts = [...pictures].flatMap(([id, picture]) =>
    groundFits(review.fits, course, picture, id).flatMap(({ view, holds }): LinePart[] => {
      const clock = clocks.get(id);
      const marked = review.tracks.some((t) => t.footageId === id && t.marks.some((m) => holds(m.pts)));
      const cut = review.footage.find((f) => f.id === id)?.cut;
      return clock && marked ? [{ footageId: id, clock, cut, view, holds }] : [];
    }),
  );
  const { dog, handler } = runLines({
    tracks: review.tracks,
    footageId,
    points: { dog: '', handler: '' },
    parts,
    taken: analysis.taken.filter((t) => t.try === analysis.countedTry),
  });
  const of = (line: typeof dog): readonly LineSample[] => (line?.line ? samplesOf(line.line) : []);
  return { dog: of(dog), handler: of(handler) };
}

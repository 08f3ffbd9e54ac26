import { readFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { knownPoints } from '../../../../src/ground/knownPoints.ts';
import { drawnSteps } from '../../../../src/course/sequence.ts';
import { ReviewDocument } from '../../../../src/review/document.ts';

export const demo = resolve(import.meta.dirname, '../../../../fixtures/demo');
const [width, height] = [1280, 720];

interface Truth {
  readonly camera: { readonly matrix: readonly (readonly number[])[] };
  /** Touch, lift, x, y, z. */
  readonly contacts: { readonly leftFront: readonly (readonly [number, number, number, number, number])[] };
}

/**
 * The demo's first evening as if a coach had done everything to it that a clip can show: the course fitted to the
 * picture and the dog's paw clicked (both where they truly are), a wanted line, and strokes of the pen on the frame at
 * which the cross at 3 is decided.
 */
export async function fittedDemo(): Promise<ReviewDocument> {
  const read = async (name: string): Promise<unknown> => JSON.parse(await readFile(join(demo, name), 'utf8'));
  const truth = (await read('run-a.truth.json')) as Truth;
  const review = ReviewDocument.parse(await read('first-evening.walkback.json'));
  const [film] = review.footage;
  if (!film) throw new Error('the demo has no film');
  const seen = (x: number, y: number, z = 0): { x: number; y: number } => {
    const [u = 0, v = 0, w = 1] = truth.camera.matrix.map(
      ([a = 0, b = 0, c = 0, d = 0]) => a * x + b * y + c * z + d,
    );
    return { x: u / w / width, y: v / w / height };
  };
  const points = knownPoints(review.course)
    .map(({ part, at }) => ({ part, at: seen(at.x, at.y), pts: 0 }))
    .filter(({ at }) => at.x > 0 && at.x < 1 && at.y > 0 && at.y < 1)
    .filter((_, i) => i % 3 === 0);
  const marks = truth.contacts.leftFront
    .filter(([, , , , z]) => z < 0.005)
    .map(([touch, lift, x, y]) => ({
      pts: film.clip.pts[Math.round(((touch + lift) / 2) * 30)] ?? 0,
      at: seen(x, y),
      contact: 'ground' as const,
    }));
  const nodes = drawnSteps(review.course)
    .slice(0, 5)
    .map(({ stand: { x, y } }) => ({ x, y }));
  const cross = review.crosses.find((c) => c.place === 3);
  const decided = review.marks.find(
    (m) => m.kind === 'cross' && m.crossId === cross?.id && m.part === 'takeOff',
  );
  const taken = review.marks.find(
    (m) => m.kind === 'taken' && m.place === 3 && m.edge === 'in' && m.try === 2,
  );
  const at = (decided ?? taken)?.pts ?? 0;
  return ReviewDocument.parse({
    ...review,
    footage: [{ ...film, clip: { ...film.clip, path: join(demo, film.name) } }],
    plan: { ...review.plan, wantedLine: { nodes, tension: 0.5 } },
    fits: [{ id: 'fit', footageId: film.id, points }],
    tracks: [{ id: 'paw', footageId: film.id, who: 'dog', point: 'leftFrontPaw', during: 'run', marks }],
    drawings: [
      {
        id: 'pen',
        footageId: film.id,
        pts: at,
        strokes: [
          {
            ink: 'persimmon',
            points: [0.58, 0.65, 0.62, 0.61, 0.67, 0.64, 0.66, 0.71, 0.6, 0.71, 0.58, 0.65],
          },
          { ink: 'sun', points: [0.72, 0.56, 0.665, 0.58, 0.675, 0.562, 0.665, 0.58, 0.678, 0.592] },
        ],
      },
    ],
  });
}

import { createCanvas, loadImage } from '@napi-rs/canvas';
import type { Course } from '../../src/course/course.ts';
import { coursePng } from '../../src/host/courseSheet/write.ts';
import { planPicture } from '../../src/report/courseSheet/planSheet.ts';

/** A photo of a printed map, and where every place of the ground lies on it. */
export interface MapPhoto {
  readonly jpeg: Buffer;
  readonly width: number;
  readonly height: number;
  /** Where a place of the ground, in metres, lies on the photo, in pixels. */
  onPhoto(x: number, y: number): { readonly x: number; readonly y: number };
}

/**
 * Photographs the map of a course: the printed sheet seen from a hand's height, tilted and turned, on a table, with
 * uneven light, noise and the losses of JPEG. The way from paper to photo is written down here as numbers, apart from
 * anything that the program works out.
 */
export async function mapPhoto(course: Course): Promise<MapPhoto> {
  const plan = planPicture(course, 'metres');
  if (!plan.ok) throw new Error(plan.why);
  const print = await loadImage(await coursePng(plan.drawing, null));
  const paper = createCanvas(print.width, print.height);
  paper.getContext('2d').drawImage(print, 0, 0);
  const ink = paper.getContext('2d').getImageData(0, 0, print.width, print.height).data;
  const ring = plan.drawing.shapes.find((s) => s.shape === 'path' && s.as === 'ring');
  if (ring?.shape !== 'path') throw new Error('the map has no ring');
  const [x0, y1] = [Math.min(...ring.points.map(([x]) => x)), Math.max(...ring.points.map(([, y]) => y))];
  const perMetre = print.width / plan.drawing.width;

  const [width, height] = [2600, 1950];
  // From print pixels to photo pixels: turned by 4 degrees, scaled, its far edge smaller than its near one.
  const [turn, scale] = [(4 * Math.PI) / 180, 1.02];
  const h = [
    scale * Math.cos(turn),
    -scale * Math.sin(turn) + 0.32,
    150,
    scale * Math.sin(turn) * 0.9,
    scale * Math.cos(turn) * 1.25,
    260,
    2.4e-5,
    2.6e-4,
    1,
  ] as const;
  const shot = (x: number, y: number): { x: number; y: number } => {
    const w = h[6] * x + h[7] * y + h[8];
    return { x: (h[0] * x + h[1] * y + h[2]) / w, y: (h[3] * x + h[4] * y + h[5]) / w };
  };
  const back = undone(h);
  const canvas = createCanvas(width, height);
  const to = canvas.getContext('2d');
  const image = to.createImageData(width, height);
  let seed = 7;
  const noise = (): number => {
    seed = (seed * 1664525 + 1013904223) >>> 0;
    return (seed / 2 ** 32 - 0.5) * 14;
  };
  for (let v = 0; v < height; v++)
    for (let u = 0; u < width; u++) {
      const w = back[6] * u + back[7] * v + back[8];
      const x = (back[0] * u + back[1] * v + back[2]) / w;
      const y = (back[3] * u + back[4] * v + back[5]) / w;
      const light = 0.82 + 0.16 * (u / width) - 0.1 * (v / height);
      const at = 4 * (v * width + u);
      const on = x >= 0 && y >= 0 && x < print.width - 1 && y < print.height - 1;
      const from = 4 * (Math.floor(y) * print.width + Math.floor(x));
      const fx = x - Math.floor(x);
      const fy = y - Math.floor(y);
      const down = 4 * print.width;
      const dust = noise();
      for (let c = 0; c < 3; c++) {
        const there = on
          ? (1 - fy) * ((1 - fx) * (ink[from + c] ?? 0) + fx * (ink[from + 4 + c] ?? 0)) +
            fy * ((1 - fx) * (ink[from + down + c] ?? 0) + fx * (ink[from + down + 4 + c] ?? 0))
          : [92, 70, 52][c];
        image.data[at + c] = (there ?? 0) * light + dust;
      }
      image.data[at + 3] = 255;
    }
  to.putImageData(image, 0, 0);
  return {
    jpeg: canvas.toBuffer('image/jpeg', 78),
    width,
    height,
    // A pixel's middle is half a pixel from its corner; half a millimetre of grass, left out.
    onPhoto: (x, y) => shot((x0 + x) * perMetre, (y1 - y) * perMetre),
  };
}

type Nine = readonly [number, number, number, number, number, number, number, number, number];

function undone([a, b, c, d, e, f, g, h, i]: Nine): Nine {
  return [
    e * i - f * h,
    c * h - b * i,
    b * f - c * e,
    f * g - d * i,
    a * i - c * g,
    c * d - a * f,
    d * h - e * g,
    b * g - a * h,
    a * e - b * d,
  ];
}

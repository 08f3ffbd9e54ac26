import { createCanvas, loadImage } from '@napi-rs/canvas';
import { describe, expect, it } from 'vitest';
import { countedCourse, type Course } from '../../../src/course/course.ts';
import { exportedCourse, type CourseExport } from '../../../src/host/courseSheet/export.ts';
import { demoCourse } from '../../unit/course/file/demoCourse.ts';
import { readPdf, type PageRead } from './readPdf.ts';

/*
 * What was written is measured by another library (pdf.js), not by the one that wrote it. Sizes of paper: ISO 216.
 * Equipment: bar of 1.30 m, poles 0.60 m apart, A-frame of 4.195 m on the ground (check values 1.3).
 */

const asked = (part: Partial<CourseExport>): CourseExport => ({
  form: 'pdf',
  paper: 'a4',
  unit: 'metres',
  dialect: 'british',
  picture: () => Promise.resolve(null),
  ...part,
});

const page = async (course: Course, part: Partial<CourseExport>, n = 0): Promise<PageRead> => {
  const { pages } = await readPdf(await exportedCourse(course, asked(part)));
  const found = pages[n];
  if (!found) throw new Error('no such page');
  return found;
};

/** Half a point is what a page's size is rounded to by the writer. */
const halfPoint = 0.5 * (25.4 / 72) + 0.01;

const sized = ({ paths }: PageRead, width: number, height: number): PageRead['paths'] =>
  paths.filter((p) => Math.abs(p.x1 - p.x0 - width) < 0.02 && Math.abs(p.y1 - p.y0 - height) < 0.02);

describe('a PDF, measured by pdf.js', () => {
  it('has pages of ISO sizes', async () => {
    for (const [paper, short, long] of [
      ['a4', 210, 297],
      ['a5', 148, 210],
    ] as const) {
      const plan = await page(demoCourse(), { paper });
      expect(Math.abs(plan.width - long)).toBeLessThan(halfPoint);
      expect(Math.abs(plan.height - short)).toBeLessThan(halfPoint);
      const sheet = await page(demoCourse(), { form: 'sheet', paper });
      expect(Math.abs(sheet.width - short)).toBeLessThan(halfPoint);
      expect(Math.abs(sheet.height - long)).toBeLessThan(halfPoint);
    }
  });

  it.each([150, 200, 500] as const)('is true to scale at 1:%i', async (scale) => {
    const plan = await page(demoCourse(), { scale });
    const mm = 1000 / scale;
    expect(plan.text.map((t) => t.text).join(' ')).toContain(`1:${scale} on A4`);
    const [ring] = sized(plan, 40 * mm, 20 * mm);
    if (!ring) throw new Error('no ring of its size');
    // The first bar of the demo stands at 14.0, 6.7, heading along the ring, so its bar lies across.
    const [bar] = sized(plan, 0, 1.3 * mm);
    if (!bar) throw new Error('no bar of its size');
    expect(bar.x0 - ring.x0).toBeCloseTo(14 * mm, 1);
    expect((bar.y0 + bar.y1) / 2 - ring.y0).toBeCloseTo(6.7 * mm, 1);
    // Twelve poles in a row of 6.6 m, its middle at 21.9, 2.6.
    const poles = plan.paths
      .filter(
        (p) =>
          Math.abs((p.y0 + p.y1) / 2 - ring.y0 - 2.6 * mm) < 0.02 &&
          p.x1 - p.x0 < 0.3 * mm &&
          p.y1 - p.y0 > 0,
      )
      .map((p) => (p.x0 + p.x1) / 2 - ring.x0)
      .sort((a, b) => a - b);
    expect(poles).toHaveLength(12);
    poles.forEach((x, i) => expect(x).toBeCloseTo((21.9 - 3.3 + 0.6 * i) * mm, 1));
    expect(sized(plan, 4.195 * mm, 0)).not.toHaveLength(0);
  });

  it('has a bar that is as long as it says', async () => {
    const plan = await page(demoCourse(), { scale: 250 });
    expect(sized(plan, 40, 0)).toHaveLength(1);
    const feet = await page(demoCourse(), { scale: 250, unit: 'feet' });
    expect(feet.text.map((t) => t.text).join(' ')).toContain('20 ft · 1:250');
    expect(sized(feet, (20 * 304.8) / 250, 0)).toHaveLength(1);
  });

  it('has text as text, in a font that goes along', async () => {
    const course = { ...demoCourse(), name: 'Žluťoučký kůň, Łódź, Ångström, Ελλάς, привет' };
    const bytes = await exportedCourse(course, asked({ form: 'sheet' }));
    const { title, pages } = await readPdf(bytes);
    expect(title).toContain('Žluťoučký kůň, Łódź, Ångström, Ελλάς, привет');
    const told = pages[0]?.text.map((t) => t.text) ?? [];
    expect(told[0]).toBe('Žluťoučký kůň, Łódź, Ångström, Ελλάς, привет');
    for (const n of course.steps) expect(told).toContain(String(n.number));
    for (const o of course.obstacles) expect(told).toContain(o.nickname);
    const raw = bytes.toString('latin1');
    expect(raw).toMatch(/SourceSans3-SemiBold/);
    expect(raw).toMatch(/\/FontFile2/);
    // Nothing in it acts, and nothing tells of this machine or this hour.
    expect(raw).not.toMatch(/\/JavaScript|\/JS\b|\/Launch|\/URI|\/OpenAction|CreationDate/);
    expect(bytes.equals(await exportedCourse(course, asked({ form: 'sheet' })))).toBe(true);
  });

  it('shows the map picture under numbers that were clicked on it, and no word of the camera', async () => {
    const photo = createCanvas(1600, 1000);
    photo.getContext('2d').fillRect(100, 100, 500, 300);
    const jpeg = photo.toBuffer('image/jpeg');
    const exif = Buffer.from('Exif\0\0MM\0*\0\0\0\x08\0\0GPSLatitude 48.1 Made by a camera', 'latin1');
    const head = Buffer.from([0xff, 0xe1, 0, exif.length + 2]);
    const bare = countedCourse(3);
    const course: Course = {
      ...bare,
      mapPicture: { pictureId: 'p', name: 'map.jpg', width: 1600, height: 1000 },
      steps: bare.steps.map((s) => ({ ...s, onPicture: { x: s.number / 4, y: 0.5 } })),
    };
    const picture = () => Promise.resolve(Buffer.concat([jpeg.subarray(0, 2), head, exif, jpeg.subarray(2)]));
    const bytes = await exportedCourse(course, asked({ picture }));
    const { pages } = await readPdf(bytes);
    expect(pages[0]?.pictures).toBe(1);
    expect(pages[0]?.text.map((t) => t.text)).toContain('3');
    expect(bytes.toString('latin1')).not.toMatch(/GPSLatitude|Made by a camera/);
  });
});

describe('a PNG', () => {
  it('shows the ring and its equipment where they are', async () => {
    const image = await loadImage(await exportedCourse(demoCourse(), asked({ form: 'png' })));
    const canvas = createCanvas(image.width, image.height);
    const to = canvas.getContext('2d');
    to.drawImage(image, 0, 0);
    expect(image.width).toBeGreaterThan(2000);
    const pixel = (x: number, y: number): readonly number[] => [
      ...to.getImageData(x, y, 1, 1).data.slice(0, 3),
    ];
    // The ring is 90 mm of 24 pixels wide, its border a little in from the edge: find its left side on a middle line.
    const line = Array.from({ length: image.width }, (_, x) => pixel(x, Math.round(image.height * 0.5)));
    const dark = line.flatMap((p, x) => (Math.max(...p) < 180 ? [x] : []));
    const left = dark[0] ?? NaN;
    const scale = (90 * 24) / 40;
    // On the A-frame's foot (13.2, 13.3; 4.195 m long): the yellow of a contact zone; beside it, grass is white.
    const at = (x: number, y: number) =>
      pixel(Math.round(left + x * scale), Math.round(left + (20 - y) * scale));
    const [r = 0, g = 0, b = 0] = at(13.2 + 1.8, 13.3);
    expect(r > 200 && g > 200 && b < 120).toBe(true);
    expect(at(13.2 + 1.8, 12.3)).toEqual([255, 255, 255]);
  });
});

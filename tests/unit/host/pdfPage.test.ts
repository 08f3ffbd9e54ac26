import { createCanvas, loadImage, PDFDocument } from '@napi-rs/canvas';
import { readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { callHandlers } from '../../../src/host/handlers/calls.ts';
import { pdfPage } from '../../../src/host/pdfPage/pdfPage.ts';
import { testHosts, type TestHost } from './desks.ts';

const hosts = testHosts();

/** A PDF of two pages by another program's writer: a red square on the first, a blue one on the second. */
const twoPages = ((): Buffer => {
  const pdf = new PDFDocument();
  for (const [colour, width, height] of [
    ['red', 595, 842],
    ['blue', 842, 595],
  ] as const) {
    const to = pdf.beginPage(width, height);
    to.fillStyle = colour;
    to.fillRect(100, 50, 100, 100);
    pdf.endPage();
  }
  return pdf.close();
})();

/** PDFs written by hand, objects and all, with the table of places left to the reader to find again. */
const byHand = (objects: readonly string[], trailer = ''): Buffer =>
  Buffer.from(
    `%PDF-1.7\n${objects.map((o, i) => `${i + 1} 0 obj\n${o}\nendobj\n`).join('')}trailer\n<</Root 1 0 R/Size ${objects.length + 1}${trailer}>>\n%%EOF\n`,
    'latin1',
  );

const keep = async (t: TestHost, bytes: Uint8Array, page = 1) => {
  const path = join(t.files, 'map.pdf');
  await writeFile(path, bytes);
  return callHandlers['picture.keep'](t.desk, { source: { path }, page });
};

describe('a page of a PDF', () => {
  test('becomes a picture with what is on it where it is', async () => {
    const t = await hosts.fresh();
    for (const [page, width, height, colour] of [
      [1, 2120, 3000, [255, 0, 0]],
      [2, 3000, 2120, [0, 0, 255]],
    ] as const) {
      const kept = await keep(t, twoPages, page);
      expect(kept).toMatchObject({ name: 'map.pdf', width, height, pages: 2 });
      const file =
        (await readdir(join(t.folder, 'pictures'))).find((n) => n.startsWith(kept.pictureId)) ?? '';
      const image = await loadImage(await readFile(join(t.folder, 'pictures', file)));
      const canvas = createCanvas(width, height);
      const to = canvas.getContext('2d');
      to.drawImage(image, 0, 0);
      const scale = 3000 / 842;
      const pixel = (x: number, y: number) => [
        ...to.getImageData(Math.round(x * scale), Math.round(y * scale), 1, 1).data.slice(0, 3),
      ];
      expect(pixel(150, 100)).toEqual(colour);
      expect(pixel(98, 100)).toEqual([255, 255, 255]);
      expect(pixel(150, 152)).toEqual([255, 255, 255]);
    }
  });

  test.each<[string, Uint8Array, number, RegExp]>([
    ['a page that is not there', twoPages, 3, /has no page 3: it has 2/],
    ['one cut short', twoPages.subarray(0, 400), 1, /damaged/],
    ['a head and nothing else', Buffer.from('%PDF-1.7\n'), 1, /damaged/],
    [
      'noise after the head',
      Buffer.concat([Buffer.from('%PDF-1.7\n'), Buffer.alloc(5000, 0xa7)]),
      1,
      /damaged/,
    ],
    [
      'pages that contain themselves',
      byHand(['<</Type/Catalog/Pages 2 0 R>>', '<</Type/Pages/Kids[2 0 R]/Count 1>>']),
      1,
      /damaged/,
    ],
    [
      'one that is locked',
      byHand(
        [
          '<</Type/Catalog/Pages 2 0 R>>',
          '<</Type/Pages/Kids[]/Count 0>>',
          `<</Filter/Standard/V 2/R 3/Length 128/P -44/O<${'41'.repeat(32)}>/U<${'42'.repeat(32)}>>>`,
        ],
        `/Encrypt 3 0 R/ID[<${'43'.repeat(16)}><${'43'.repeat(16)}>]`,
      ),
      1,
      /locked with a password/,
    ],
  ])('%s is told, and nothing is kept', async (_name, bytes, page, message) => {
    const t = await hosts.fresh();
    await expect(keep(t, bytes, page)).rejects.toMatchObject({
      code: 'badInput',
      message: expect.stringMatching(message),
    });
    expect(await readdir(join(t.folder, 'pictures'))).toEqual([]);
    expect(t.faults).toEqual([]);
  });

  test('one that takes too long is left, and its thread with it', async () => {
    expect(await pdfPage({ bytes: twoPages, page: 1 }, 1)).toEqual({ ok: false, why: 'tooLong' });
  });

  test('of a size beyond all paper is drawn no larger than others', async () => {
    const wide = byHand([
      '<</Type/Catalog/Pages 2 0 R>>',
      '<</Type/Pages/Kids[3 0 R]/Count 1>>',
      '<</Type/Page/Parent 2 0 R/MediaBox[0 0 2000000 1]/Contents 4 0 R>>',
      '<</Length 0>>\nstream\n\nendstream',
    ]);
    const drawn = await pdfPage({ bytes: wide, page: 1 });
    expect(drawn.ok).toBe(true);
    if (!drawn.ok) return;
    const image = await loadImage(drawn.picture);
    expect(image.width).toBeLessThanOrEqual(3000);
  });
});

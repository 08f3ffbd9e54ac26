import { getDocument, OPS, type PDFPageProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';

/** What another library (pdf.js) finds on a page of a PDF. Lengths in millimetres from the page's left lower corner. */
export interface PageRead {
  readonly width: number;
  readonly height: number;
  readonly text: readonly {
    readonly text: string;
    readonly x: number;
    readonly y: number;
    readonly size: number;
  }[];
  /** Boxes round everything that is painted as lines or areas. */
  readonly paths: readonly {
    readonly x0: number;
    readonly y0: number;
    readonly x1: number;
    readonly y1: number;
  }[];
  readonly pictures: number;
  readonly fonts: readonly string[];
}

const mm = 25.4 / 72;

export async function readPdf(bytes: Uint8Array): Promise<{ title: string; pages: PageRead[] }> {
  const task = getDocument({ data: new Uint8Array(bytes), verbosity: 0 });
  const pdf = await task.promise;
  const { info } = await pdf.getMetadata();
  const pages: PageRead[] = [];
  for (let n = 1; n <= pdf.numPages; n++) pages.push(await readPage(await pdf.getPage(n)));
  await task.destroy();
  return { title: (info as { Title?: string }).Title ?? '', pages };
}

type Matrix = readonly [number, number, number, number, number, number];

async function readPage(page: PDFPageProxy): Promise<PageRead> {
  const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] = page.view;
  const content = await page.getTextContent();
  const { fnArray, argsArray } = await page.getOperatorList();
  const paths: PageRead['paths'][number][] = [];
  const stack: Matrix[] = [];
  let now: Matrix = [mm, 0, 0, mm, 0, 0];
  let pictures = 0;
  fnArray.forEach((op, i) => {
    const args = argsArray[i] as unknown[];
    if (op === OPS.save) stack.push(now);
    else if (op === OPS.restore) now = stack.pop() ?? now;
    else if (op === OPS.transform) now = times(now, args as unknown as Matrix);
    else if (op === OPS.paintImageXObject || op === OPS.paintInlineImageXObject) pictures++;
    else if (op === OPS.constructPath) {
      const box = args[2] as Float32Array | null;
      if (!box) return;
      const corners = [at(now, box[0] ?? 0, box[1] ?? 0), at(now, box[2] ?? 0, box[3] ?? 0)] as const;
      paths.push({
        x0: Math.min(corners[0][0], corners[1][0]),
        x1: Math.max(corners[0][0], corners[1][0]),
        y0: Math.min(corners[0][1], corners[1][1]),
        y1: Math.max(corners[0][1], corners[1][1]),
      });
    }
  });
  return {
    width: (x1 - x0) * mm,
    height: (y1 - y0) * mm,
    text: content.items.flatMap((item) =>
      'str' in item && item.str.trim() !== ''
        ? [
            {
              text: item.str,
              x: Number(item.transform[4]) * mm,
              y: Number(item.transform[5]) * mm,
              size: Number(item.transform[3]) * mm,
            },
          ]
        : [],
    ),
    paths,
    pictures,
    fonts: Object.values(content.styles).map((s) => s.fontFamily),
  };
}

function times(a: Matrix, b: Matrix): Matrix {
  return [
    a[0] * b[0] + a[2] * b[1],
    a[1] * b[0] + a[3] * b[1],
    a[0] * b[2] + a[2] * b[3],
    a[1] * b[2] + a[3] * b[3],
    a[0] * b[4] + a[2] * b[5] + a[4],
    a[1] * b[4] + a[3] * b[5] + a[5],
  ];
}

const at = (m: Matrix, x: number, y: number): readonly [number, number] => [
  m[0] * x + m[2] * y + m[4],
  m[1] * x + m[3] * y + m[5],
];

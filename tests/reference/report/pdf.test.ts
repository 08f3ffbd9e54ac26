import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { beforeAll, describe, expect, test } from 'vitest';
import { reportPdf } from '../../../src/host/reportPdf/report.ts';
import { shortReportPdf } from '../../../src/host/reportPdf/short.ts';
import { reportHtml } from '../../../src/report/html.ts';
import { buildReport, type ReportModel } from '../../../src/report/model.ts';
import { stillsWanted } from '../../../src/report/stills.ts';
import { coachingReport as words } from '../../../src/words/coachingReport.ts';
import { figuresIn } from '../../unit/report/figuresIn.ts';
import { onePixel, sample } from '../../unit/report/sample.ts';

const hostile = 'Ta<b>n</b>sy & =1+1 ../x שלום عربي 🐕';
const { review, analysis, clips } = sample((raw) => {
  raw.header.title = hostile;
});
const stills = new Map(
  stillsWanted(review, analysis).map((w) => [w.id, { base64: onePixel, width: 16, height: 9 }]),
);
const report: ReportModel = buildReport({ review, analysis, clips, stills });

// PDF.js (Mozilla), which shares no code with the library that writes.
const open = async (bytes: Uint8Array) => getDocument({ data: Uint8Array.from(bytes), verbosity: 0 }).promise;
type Pdf = Awaited<ReturnType<typeof open>>;

let bytes: Uint8Array;
let pdf: Pdf;
let text = '';
beforeAll(async () => {
  bytes = await reportPdf(report);
  pdf = await open(bytes);
  for (let n = 1; n <= pdf.numPages; n++) {
    const { items } = await (await pdf.getPage(n)).getTextContent();
    text += ` ${items.map((i) => ('str' in i ? i.str : '')).join(' ')}`;
  }
});

const squeezed = (t: string): string => t.replace(/\s+/gu, '');

interface Node {
  readonly role?: string;
  readonly alt?: string;
  readonly children?: readonly object[];
}
async function nodes(): Promise<Node[]> {
  const all: Node[] = [];
  const walk = (node: Node): void => {
    all.push(node);
    for (const child of node.children ?? []) walk(child);
  };
  for (let n = 1; n <= pdf.numPages; n++) {
    const tree = await (await pdf.getPage(n)).getStructTree();
    if (tree) walk(tree);
  }
  return all;
}

describe('the report as a PDF, read by another library', () => {
  test('holds every figure and every heading of the HTML, as text', () => {
    const html = reportHtml(report);
    const all = squeezed(text);
    const figures = figuresIn(html);
    expect(figures.length).toBeGreaterThan(80);
    for (const f of figures) expect(all, f.path).toContain(squeezed(f.text));
    for (const [, heading = ''] of html.matchAll(/<h2[^>]*>([^<]*)<\/h2>/g))
      if (heading !== words.headings.courseAndSplits) expect(all).toContain(squeezed(heading));
  });

  test('has an outline of its parts, a language, a title, and numbered sheets', async () => {
    const outline = await pdf.getOutline();
    expect(outline.map((o) => o.title)).toEqual([
      words.headings.wentWell,
      words.headings.glance,
      words.headings.splits,
      words.headings.crosses,
      words.headings.startLine,
      words.headings.events,
      words.headings.drawings,
      words.headings.toTrain,
      words.headings.notes,
      words.headings.smallPrint,
    ]);
    const { info } = await pdf.getMetadata();
    expect(info).toMatchObject({ Title: `${hostile} · ${words.overline}`, Language: 'en-GB' });
    expect(squeezed(text)).toContain(squeezed(words.pageOf(pdf.numPages, pdf.numPages)));
  });

  test('is tagged: headings, tables with their heads, lists, and words for every picture', async () => {
    const all = await nodes();
    const marked: unknown = await pdf.getMarkInfo();
    expect(marked instanceof Map ? marked.get('Marked') : null).toBe(true);
    const count = (role: string): number => all.filter((n) => n.role === role).length;
    expect(count('H1')).toBe(1);
    expect(count('H2')).toBeGreaterThanOrEqual(10);
    expect(count('Table')).toBeGreaterThanOrEqual(3);
    expect(count('TH')).toBeGreaterThan(20);
    expect(count('LI')).toBeGreaterThan(5);
    const figures = all.filter((n) => n.role === 'Figure');
    expect(figures.length).toBeGreaterThan(stills.size);
    for (const f of figures) expect(f.alt ?? '', JSON.stringify(f)).not.toBe('');
  });

  test('draws the map as vectors and shows every still', async () => {
    let [paths, images] = [0, 0];
    for (let n = 1; n <= pdf.numPages; n++) {
      const { fnArray } = await (await pdf.getPage(n)).getOperatorList();
      paths += fnArray.filter((f) => f === OPS.constructPath).length;
      images += fnArray.filter((f) => f === OPS.paintImageXObject).length;
    }
    expect(paths).toBeGreaterThan(100);
    expect(images).toBeGreaterThanOrEqual(stills.size);
  });

  test('shows what people wrote as written, in the letters of other scripts too, and runs nothing', async () => {
    const all = squeezed(text);
    expect(all).toContain(squeezed('Ta<b>n</b>sy & =1+1 ../x'));
    // A dot or mark that is drawn by itself has no letter of its own.
    const read = all.normalize('NFKC').replace(/\p{Cc}/gu, '');
    for (const word of ['שלום', 'عربي', '🐕']) {
      // A line of another direction may be read back in the order it is drawn in.
      const drawn = [...word].reverse().join('');
      expect(read.includes(word) || read.includes(drawn), word).toBe(true);
    }
    expect(await pdf.getJSActions()).toBeNull();
    expect(await pdf.getAttachments()).toBeNull();
    const latin = Buffer.from(bytes).toString('latin1');
    for (const hidden of ['/JavaScript', '/Launch', '/URI', '/home/', '/root/', '/tmp/'])
      expect(latin).not.toContain(hidden);
  });

  test('in short is one sheet, however much the coach wrote and however many crosses there were', async () => {
    const long = sample((raw) => {
      Object.assign(raw.header, {
        title: 'A very long title '.repeat(11).slice(0, 200),
        words: {
          wentWell: 'She waited. '.repeat(330),
          toTrain: 'One word after another without an end '.repeat(100),
          notes: 'Notes. '.repeat(1000),
          leaveNamesOut: false,
        },
      });
      Object.assign(raw, {
        crosses: Array.from({ length: 20 }, (_, i) => ({ id: `c${i}`, place: 1 + i, kind: 'front' })),
        marks: raw.marks.filter((m) => !('crossId' in m)),
      });
    });
    for (const { review: of, analysis: told } of [long, sample()]) {
      const model = buildReport({ review: of, analysis: told, clips: [], stills: new Map() });
      const short = await open(await shortReportPdf(model));
      expect(short.numPages).toBe(1);
      const { items } = await (await short.getPage(1)).getTextContent();
      const read = items.map((i) => ('str' in i ? i.str : '')).join(' ');
      expect(read).toContain(words.headings.toTrain);
      expect(squeezed(read)).toContain(squeezed(words.cautions[1] ?? ''));
      expect(squeezed(read)).toContain(squeezed(words.unofficial));
      // Six points is as small as print can be read (common practice).
      const sizes = items.flatMap((i) => ('height' in i && i.str.trim() !== '' ? [i.height] : []));
      expect(Math.min(...sizes)).toBeGreaterThan(5);
    }
  });

  test('is made of a run of which nothing is marked', async () => {
    const bare = sample((raw) => {
      Object.assign(raw, { marks: [], crosses: [], drawings: [] });
    });
    const model = buildReport({ review: bare.review, analysis: bare.analysis, clips: [], stills: new Map() });
    expect((await open(await reportPdf(model))).numPages).toBeGreaterThan(0);
  });
});

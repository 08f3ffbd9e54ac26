import { createRequire } from 'node:module';
import { dirname, join, sep } from 'node:path';
import { parentPort, workerData } from 'node:worker_threads';
import { createCanvas } from '@napi-rs/canvas';
import { getDocument, type PDFPageProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { PageAsked, PageDrawn } from './messages.ts';

/** Pixels of the longer edge: on an A4 page at 1:200 some 50 to a metre of grass. */
const longEdge = 3000;
/** Largest picture inside a PDF that is drawn, pixels. */
const mostPixels = 120_000_000;
/** A page that makes a larger PNG than this (a scan) becomes a JPEG. Bytes. */
const mostPng = 6 * 1024 * 1024;

const folder = dirname(createRequire(import.meta.url).resolve('pdfjs-dist/package.json'));
const beside = (name: string): string => join(folder, name) + sep;

async function drawn({ bytes, page }: PageAsked): Promise<PageDrawn> {
  const task = getDocument({
    data: bytes,
    verbosity: 0,
    useSystemFonts: false,
    maxImageSize: mostPixels,
    standardFontDataUrl: beside('standard_fonts'),
    cMapUrl: beside('cmaps'),
    wasmUrl: beside('wasm'),
    iccUrl: beside('iccs'),
  });
  try {
    const pdf = await task.promise;
    if (page > pdf.numPages) return { ok: false, why: 'noSuchPage', pages: pdf.numPages };
    const picture = await pictureOf(await pdf.getPage(page));
    return { ok: true, picture, page, pages: pdf.numPages };
  } catch (error) {
    const locked = error instanceof Error && error.name === 'PasswordException';
    return { ok: false, why: locked ? 'locked' : 'damaged' };
  } finally {
    await task.destroy();
  }
}

async function pictureOf(page: PDFPageProxy): Promise<Uint8Array> {
  const plain = page.getViewport({ scale: 1 });
  const scale = longEdge / Math.max(plain.width, plain.height);
  const viewport = page.getViewport({ scale });
  const canvas = createCanvas(
    Math.max(1, Math.round(viewport.width)),
    Math.max(1, Math.round(viewport.height)),
  );
  // pdf.js draws on this package's canvas where there is no window, but names the browser's in its types.
  await page.render({ canvas: canvas as unknown as Paper, viewport }).promise;
  const png = await canvas.encode('png');
  return png.length <= mostPng ? png : canvas.encode('jpeg', 92);
}

type Paper = Parameters<PDFPageProxy['render']>[0]['canvas'];

const asked = workerData as PageAsked;
parentPort?.postMessage(await drawn(asked));

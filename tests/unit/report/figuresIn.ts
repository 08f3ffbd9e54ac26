import type { Unit } from '../../../src/time/quantity.ts';

export interface PrintedFigure {
  readonly path: string;
  readonly value: number;
  readonly plusMinus: number;
  readonly unit: Unit;
  readonly text: string;
}

/** Every figure of a report file, as it stands there. */
export function figuresIn(html: string): PrintedFigure[] {
  const pattern =
    /<span class="fig" data-figure="([^"]*)" data-value="([^"]*)" data-plus-minus="([^"]*)" data-unit="([^"]*)">(.*?)<\/span>(?=[^<]*(?:<(?!\/span>)|$)|<\/)/g;
  return [...html.matchAll(pattern)].map(
    ([, path = '', value = '', plusMinus = '', unit = '', inner = '']) => ({
      path,
      value: Number(value),
      plusMinus: Number(plusMinus),
      unit: unit as Unit,
      text: inner.replace(/<[^>]*>/g, ''),
    }),
  );
}

/** The value at a path like "crosses[2].cues[0].begins.at". */
export function valueAt(root: unknown, path: string): unknown {
  return path
    .split(/[.[\]]+/)
    .filter((step) => step !== '')
    .reduce<unknown>(
      (value, step) =>
        typeof value === 'object' && value !== null ? (value as Record<string, unknown>)[step] : undefined,
      root,
    );
}

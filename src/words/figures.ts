import type { Quantity } from '../time/quantity.ts';
import { locale } from './locale.ts';

const unitWord: Record<Quantity['unit'], string> = {
  s: ' s',
  m: ' m',
  'm/s': ' m/s',
  cm: ' cm',
  deg: '°',
  frames: ' frames',
  '1': '',
};

/**
 * Digits after the point that the plus or minus supports: its first digit, or its first two where that is a 1,
 * never more than 3 (common practice for stating uncertainty, after the GUM, JCGM 100:2008, 7.2.6).
 */
export function supportedDigits(plusMinus: number): number {
  if (!(plusMinus > 0) || !Number.isFinite(plusMinus)) return 2;
  const exponent = Math.floor(Math.log10(plusMinus));
  const leading = plusMinus / 10 ** exponent;
  return Math.min(3, Math.max(0, -exponent + (leading < 1.95 ? 1 : 0)));
}

function fixed(value: number, digits: number): string {
  const text = new Intl.NumberFormat(locale, {
    minimumFractionDigits: digits,
    maximumFractionDigits: digits,
    useGrouping: false,
  }).format(Math.abs(value));
  return value < 0 && Number(text) !== 0 ? `−${text}` : text;
}

/** A figure with its plus or minus, e.g. "0.42 s ± 0.02". Never more digits than are known. */
export function figure(q: Quantity): string {
  const digits = supportedDigits(q.plusMinus);
  return `${fixed(q.value, digits)}${unitWord[q.unit]} ± ${fixed(roundUp(q.plusMinus, digits), digits)}`;
}

/** A figure with an explicit sign, for differences. */
export function signedFigure(q: Quantity): string {
  return q.value > 0 ? `+${figure(q)}` : figure(q);
}

/** A clock reading for people: m:ss.cc above a minute, else s.cc. */
export function clockReading(secondsOnClock: number, digits = 2): string {
  const sign = secondsOnClock < 0 ? '−' : '';
  const scale = 10 ** digits;
  const rounded = Math.round(Math.abs(secondsOnClock) * scale) / scale;
  const minutes = Math.floor(rounded / 60);
  const rest = rounded - minutes * 60;
  if (minutes === 0) return `${sign}${fixed(rest, digits)}`;
  return `${sign}${minutes}:${fixed(rest, digits).padStart(3 + digits, '0')}`;
}

/** Rounds a half-width up, so that the printed range never claims more than is known. */
function roundUp(plusMinus: number, digits: number): number {
  const scale = 10 ** digits;
  return Math.ceil(plusMinus * scale - 1e-9) / scale;
}

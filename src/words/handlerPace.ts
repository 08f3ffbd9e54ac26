import { fromUnit, inUnit, type LengthUnit } from '../course/grid.ts';
import { paceBounds, type Pace } from '../plan/plan.ts';
import { plainFigure } from './drawing.ts';
import { typedWithin } from './typed.ts';

export type PaceFigure = keyof Pace;

const names: Record<PaceFigure, string> = {
  topSpeed: 'Top speed',
  pickUp: 'Picking up speed',
  turnSeconds: 'Turning about',
};
const units = {
  metres: { topSpeed: 'm/s', pickUp: 'm/s²', turnSeconds: 's' },
  feet: { topSpeed: 'ft/s', pickUp: 'ft/s²', turnSeconds: 's' },
} as const satisfies Record<LengthUnit, Record<PaceFigure, string>>;

/** A figure of the handler's pace with its unit, as a field is called. */
export const paceLabel = (figure: PaceFigure, unit: LengthUnit): string =>
  `${names[figure]}, ${units[unit][figure]}`;

/** A figure in the coach's unit, to the hundredth. */
export function paceShown(figure: PaceFigure, value: number, unit: LengthUnit): string {
  const inside = figure === 'turnSeconds' ? value : inUnit(value, unit);
  return plainFigure(Math.round(inside * 100) / 100);
}

/** A typed figure in the unit it is kept in; undefined where nothing was typed, null where it is no such figure. */
export function typedPace(figure: PaceFigure, text: string, unit: LengthUnit): number | undefined | null {
  const { least, most } = paceBounds[figure];
  return typedWithin(text, least, most, (typed) =>
    figure === 'turnSeconds' ? typed : fromUnit(typed, unit),
  );
}

export function notAPace(figure: PaceFigure, unit: LengthUnit): string {
  const { least, most } = paceBounds[figure];
  return (
    `“${names[figure]}” takes a number from ${paceShown(figure, least, unit)} to ` +
    `${paceShown(figure, most, unit)} ${units[unit][figure]}. It was left as it was.`
  );
}

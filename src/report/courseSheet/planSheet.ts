import type { Course } from '../../course/course.ts';
import { courseExportWords, courseSheetWords as words } from '../../words/courseSheet.ts';
import { headLines } from './head.ts';
import { papers, placed, type PaperDrawing, type PaperName, type PaperShape, type Size } from './paper.ts';
import { paperPlan, type PaperPlan } from './plan.ts';
import { barLength, fits, fittingScale, scaleBar, scales, type Scale } from './scale.ts';

/** How a course is to be put on paper. */
export interface SheetChoices {
  readonly paper: PaperName;
  /** Absent: the largest that fits. */
  readonly scale?: Scale | undefined;
  readonly unit: 'metres' | 'feet';
}

/** A drawing, or why there is none, in words for the reader. */
export type Drawn<T = PaperDrawing> =
  { readonly ok: true; readonly drawing: T } | { readonly ok: false; readonly why: string };

export const no = (why: string): { readonly ok: false; readonly why: string } => ({ ok: false, why });

/** Border of a sheet, and height of numbers and small print on it, millimetres. Numbers: 10 points and a little. */
export const sheetSizes = { border: { a4: 9, a5: 7 }, number: 3.7, small: 3 } as const;

/** Width of a picture for a phone, and how many of its numbers' heights that is: 11 px upright, 20 px held sideways. */
const phone = { width: 90, numbers: 32 } as const;

/**
 * The plan of a drawn course by itself, in metres of the ground: what goes into an SVG file. Its size on paper is true
 * at the scale, which is the largest that fits A4.
 */
export function planDrawing(course: Course, unit: 'metres' | 'feet'): Drawn {
  const a4 = papers.a4;
  const bare = paperPlan(course, (width) => width / 50);
  if (!bare) return no(courseExportWords.nothingDrawn);
  if (!bare.toScale) return no(courseExportWords.drawFirst);
  const room = { width: a4.height - 20, height: a4.height - 20 };
  const scale = fittingScale(bare, room) ?? scales[scales.length - 1] ?? 5000;
  const size = (sheetSizes.number * scale) / 1000;
  const plan = paperPlan(course, () => size) ?? bare;
  const rule = barLength(plan.width / 4, unit);
  const foot = size * 2.2;
  return {
    ok: true,
    drawing: {
      width: plan.width,
      height: plan.height + foot,
      unit: 1000 / scale,
      title: course.name === '' ? words.untitled : course.name,
      shapes: [
        ...plan.shapes,
        ...scaleBar({
          x: size * 0.3,
          y: plan.height + foot * 0.7,
          length: rule.metres,
          textSize: size * 0.85,
          words: words.bar(rule.count, unit, scale, ''),
        }),
      ],
    },
  };
}

/**
 * The plan as a picture to send and to look at on a phone: as wide as the picture, its numbers large. To scale where
 * it is drawn, with a bar that tells the scale.
 */
export function planPicture(course: Course, unit: 'metres' | 'feet'): Drawn {
  const plan = paperPlan(course, (width) => width / phone.numbers);
  if (!plan) return no(courseExportWords.nothingDrawn);
  const size = plan.width / phone.numbers;
  const edge = size * 0.4;
  const foot = plan.toScale ? size * 1.6 : 0;
  const rule = barLength(plan.width / 4, unit);
  return {
    ok: true,
    drawing: {
      width: plan.width + 2 * edge,
      height: plan.height + 2 * edge + foot,
      unit: phone.width / plan.width,
      title: course.name === '' ? words.untitled : course.name,
      shapes: [
        ...placed(plan.shapes, 1, edge, edge),
        ...(plan.toScale
          ? scaleBar({
              x: edge,
              y: edge + plan.height + foot * 0.75,
              length: rule.metres,
              textSize: size * 0.85,
              words: words.length(rule.count, unit),
            })
          : []),
      ],
    },
  };
}

/** A plan placed on paper: its shapes in millimetres, its size there, and the words that state its scale. */
export interface PlacedPlan extends Size {
  readonly shapes: readonly PaperShape[];
  readonly scale: Scale | null;
}

/**
 * Puts the plan into a piece of paper, in its middle from side to side, with its scale bar under it.
 * @param at left upper corner of that piece, millimetres
 */
export function planOnPaper(
  course: Course,
  choices: SheetChoices,
  at: { readonly x: number; readonly y: number },
  room: Size,
  number: number = sheetSizes.number,
): Drawn<PlacedPlan> {
  const bare = paperPlan(course, (width) => width / 50);
  const paper = words.paper[choices.paper];
  if (!bare) return no(courseExportWords.nothingDrawn);
  const bar = sheetSizes.small * 2.4;
  const inside = { width: room.width, height: room.height - bar };
  if (!bare.toScale) return { ok: true, drawing: pictureOnPaper(course, bare, at, inside, bar, number) };
  const scale = choices.scale ?? fittingScale(bare, inside);
  if (scale === null) return no(courseExportWords.tooLarge(paper));
  if (!fits(bare, inside, scale)) return no(courseExportWords.tooLargeAt(scale, paper));
  const mm = 1000 / scale;
  const plan = paperPlan(course, () => number / mm) ?? bare;
  const x = at.x + (room.width - plan.width * mm) / 2;
  const rule = barLength(plan.width / 4, choices.unit);
  return {
    ok: true,
    drawing: {
      width: plan.width * mm,
      height: plan.height * mm + bar,
      scale,
      shapes: [
        ...placed(plan.shapes, mm, x, at.y),
        ...scaleBar({
          x,
          y: at.y + plan.height * mm + bar * 0.75,
          length: rule.metres * mm,
          textSize: sheetSizes.small,
          words: words.bar(rule.count, choices.unit, scale, paper),
        }),
      ],
    },
  };
}

function pictureOnPaper(
  course: Course,
  bare: PaperPlan,
  at: { readonly x: number; readonly y: number },
  inside: Size,
  bar: number,
  number: number,
): PlacedPlan {
  const mm = Math.min(inside.width / bare.width, inside.height / bare.height);
  const plan = paperPlan(course, () => number / mm) ?? bare;
  const x = at.x + (inside.width - plan.width * mm) / 2;
  return {
    width: plan.width * mm,
    height: plan.height * mm + bar,
    scale: null,
    shapes: [
      ...placed(plan.shapes, mm, x, at.y),
      {
        shape: 'text',
        x,
        y: at.y + plan.height * mm + bar * 0.75,
        text: words.notToScale,
        textSize: sheetSizes.small,
        tone: 'soft',
        from: 'left',
      },
    ],
  };
}

/** One page with the plan as large as it goes, its head and its scale: what goes into a PDF or a PNG. */
export function planSheet(course: Course, choices: SheetChoices): Drawn {
  const upright = papers[choices.paper];
  const across = { width: upright.height, height: upright.width };
  const bare = paperPlan(course, (width) => width / 50);
  if (!bare) return no(courseExportWords.nothingDrawn);
  // The way the sheet lies is the way the course does.
  const page = bare.width >= bare.height ? across : upright;
  const border = sheetSizes.border[choices.paper];
  const head = headLines(course, choices.unit, page.width - 2 * border);
  const top = border + head.height;
  const plan = planOnPaper(
    course,
    choices,
    { x: border, y: top },
    { width: page.width - 2 * border, height: page.height - top - border },
  );
  if (!plan.ok) return plan;
  return {
    ok: true,
    drawing: {
      ...page,
      unit: 1,
      title: course.name === '' ? words.untitled : course.name,
      shapes: [...placed(head.shapes, 1, border, border), ...plan.drawing.shapes],
    },
  };
}

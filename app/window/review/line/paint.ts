import type { ColourName } from '../../../../src/look/tokens.ts';
import { clockReading } from '../../../../src/words/figures.ts';
import type { ClipBand, CrossSpan, EventFamily, LineContent, Spot } from './content.ts';
import { endOfStay, lanes, type CrossBox, type LineLayout, type PostBox, type StartBox } from './layout.ts';
import { digitsOfStep, ticks, xAt, type Span } from './scale.ts';

export type Colours = Readonly<Record<ColourName, string>>;
export type Pencil = CanvasRenderingContext2D;

/** What the painter needs besides the layout. */
export interface Painting {
  readonly layout: LineLayout;
  readonly content: LineContent;
  readonly view: Span;
  readonly width: number;
  readonly colours: Colours;
  readonly font: string;
  /** The mark that is chosen. */
  readonly selected: string | null;
  /** The cross that is looked at. */
  readonly cross: string | null;
  readonly loop: Span | null;
  /** Seconds on the clock of the run where run time 0 is not its start. */
  readonly clockStart: number;
}

const textSize = 13;

/** Paints everything on the line but the playhead. */
export function paintLine(pen: Pencil, p: Painting): void {
  pen.clearRect(0, 0, p.width, lanes.height);
  pen.textBaseline = 'alphabetic';
  paintGround(pen, p);
  paintRuler(pen, p);
  for (const s of p.layout.starts) paintStart(pen, p, s);
  paintStretches(pen, p);
  for (const post of p.layout.posts) paintPost(pen, p, post);
  for (const c of p.layout.crosses) paintCross(pen, p, c);
  paintEvents(pen, p);
}

function write(
  pen: Pencil,
  p: Painting,
  text: string,
  x: number,
  y: number,
  colour: ColourName,
  weight = 400,
): void {
  pen.font = `${weight} ${textSize}px ${p.font}`;
  pen.fillStyle = p.colours[colour];
  pen.fillText(text, x, y);
}

function paintGround(pen: Pencil, p: Painting): void {
  const { top, height } = lanes.block;
  pen.fillStyle = p.colours.sunken;
  for (const clip of p.content.clips) {
    const left = Math.max(0, xAt(p.view, p.width, clip.from));
    const right = Math.min(p.width, xAt(p.view, p.width, clip.to));
    if (right > left) pen.fillRect(left, top, right - left, height);
  }
  for (const clip of p.content.clips) paintBeyond(pen, p, clip);
  for (const span of p.content.clips.flatMap((clip) => clip.slowed)) paintSlowed(pen, p, span);
  if (p.loop) {
    const left = xAt(p.view, p.width, p.loop.from);
    const right = xAt(p.view, p.width, p.loop.to);
    pen.fillStyle = p.colours.accentSoft;
    pen.fillRect(left, lanes.plate.top, right - left, lanes.ruler.top - lanes.plate.top);
  }
}

/** What a cut leaves out, where it is looked at all the same: bare ground, and a line at each end of the cut. */
function paintBeyond(pen: Pencil, p: Painting, clip: ClipBand): void {
  const { top, height } = lanes.block;
  for (const [from, to, edge] of [
    [clip.from, clip.cut.from, clip.cut.from],
    [clip.cut.to, clip.to, clip.cut.to],
  ] as const) {
    if (to - from < 1e-9) continue;
    const left = Math.max(0, xAt(p.view, p.width, from));
    const right = Math.min(p.width, xAt(p.view, p.width, to));
    if (right > left) pen.clearRect(left, top, right - left, height);
    pen.fillStyle = p.colours.lineStrong;
    pen.fillRect(xAt(p.view, p.width, edge) - 1, top - 4, 2, height + 8);
  }
}

/** Slow motion: strokes close together, as the frames are. */
function paintSlowed(pen: Pencil, p: Painting, span: Span): void {
  const left = Math.max(0, xAt(p.view, p.width, span.from));
  const right = Math.min(p.width, xAt(p.view, p.width, span.to));
  const { top, height } = lanes.slowed;
  pen.fillStyle = p.colours.pineSoft;
  pen.fillRect(left, top, right - left, height);
  pen.fillStyle = p.colours.pine;
  for (let x = Math.ceil(left / 4) * 4; x < right; x += 4) pen.fillRect(x, top, 1.5, height);
}

function paintRuler(pen: Pencil, p: Painting): void {
  const { top } = lanes.ruler;
  pen.fillStyle = p.colours.line;
  pen.fillRect(0, top, p.width, 1);
  const shifted = { from: p.view.from - p.clockStart, to: p.view.to - p.clockStart };
  const { step, at } = ticks(shifted, p.width, 64);
  const digits = digitsOfStep(step);
  for (const t of at) {
    const x = Math.round(xAt(shifted, p.width, t));
    pen.fillStyle = p.colours.lineStrong;
    pen.fillRect(x, top, 1, 5);
    const text = clockReading(Math.abs(t) < 1e-9 ? 0 : t, digits);
    pen.font = `400 ${textSize}px ${p.font}`;
    if (x + 4 + pen.measureText(text).width < p.width) write(pen, p, text, x + 4, top + 15, 'textSoft');
  }
}

function paintStretches(pen: Pencil, p: Painting): void {
  const y = lanes.block.top + lanes.block.height / 2;
  for (const s of p.layout.stretches) {
    if (!s.text) {
      pen.fillStyle = p.colours.lineStrong;
      pen.fillRect(s.left, y - 0.5, s.right - s.left, 1);
      continue;
    }
    pen.font = `400 ${textSize}px ${p.font}`;
    const width = pen.measureText(s.text).width;
    const middle = (s.left + s.right) / 2;
    pen.fillStyle = p.colours.lineStrong;
    pen.fillRect(s.left, y - 0.5, middle - width / 2 - 5 - s.left, 1);
    pen.fillRect(middle + width / 2 + 5, y - 0.5, s.right - middle - width / 2 - 5, 1);
    write(pen, p, s.text, middle - width / 2, y + 4.5, 'text');
  }
}

function isChosen(p: Painting, spot: Spot | null): boolean {
  return spot !== null && spot.markId === p.selected;
}

function paintPost(pen: Pencil, p: Painting, box: PostBox): void {
  const { post, left, right } = box;
  const chosen = isChosen(p, post.in) || isChosen(p, post.out);
  const block = lanes.block;
  pen.globalAlpha = post.counted ? 1 : 0.45;
  pen.fillStyle = post.single || !post.in || !post.out ? p.colours.lineStrong : p.colours.pine;
  if (post.single || !post.in || !post.out) pen.fillRect(left - 1, block.top, 3, block.height);
  else pen.fillRect(left, block.top, right - left, block.height);
  for (const edge of [post.in, post.out]) paintBracket(pen, p, edge, block.top + block.height);
  if (box.plate !== null) {
    const { top, height } = lanes.plate;
    const x = box.plate - box.plateWidth / 2;
    pen.fillStyle = chosen ? p.colours.accent : p.colours.raised;
    pen.strokeStyle = chosen ? p.colours.accent : p.colours.pine;
    pen.lineWidth = 1;
    rounded(pen, x + 0.5, top + 0.5, box.plateWidth - 1, height - 3, 3);
    pen.fill();
    pen.stroke();
    pen.textAlign = 'center';
    write(pen, p, String(post.place), box.plate, top + 14, chosen ? 'onAccent' : 'text', 600);
    pen.textAlign = 'left';
  }
  pen.globalAlpha = 1;
  if (chosen) {
    const edge = isChosen(p, post.in) ? left : right;
    pen.fillStyle = p.colours.accent;
    pen.fillRect(edge - 1.5, block.top - 2, 3, block.height + 4);
  }
}

/** The bracket of a mark as a short line under its lane, once it is wide enough to be seen. */
function paintBracket(pen: Pencil, p: Painting, spot: Spot | null, y: number): void {
  if (!spot) return;
  const left = xAt(p.view, p.width, spot.bracket.from);
  const right = xAt(p.view, p.width, spot.bracket.to);
  if (right - left < 5) return;
  pen.fillStyle = p.colours.textSoft;
  pen.fillRect(left, y + 1, right - left, 1);
  pen.fillRect(left, y - 1, 1, 5);
  pen.fillRect(right - 1, y - 1, 1, 5);
}

/** The start line: a thin bar from set up to the end of the stay, its moments as small signs. */
function paintStart(pen: Pencil, p: Painting, box: StartBox): void {
  const { start } = box;
  const y = lanes.block.top + lanes.block.height - 5;
  const setUp = box.x(start.moments.find((m) => m.part === 'setUp'));
  const to = box.x(start.moments.findLast((m) => m.part === endOfStay(start)));
  if (setUp !== null && to !== null) {
    pen.fillStyle = p.colours.pineSoft;
    pen.fillRect(setUp, lanes.block.top, to - setUp, lanes.block.height);
    pen.fillStyle = p.colours.pine;
    pen.fillRect(setUp, y + 4, to - setUp, 1);
    if (box.text) write(pen, p, box.text, setUp + 6, lanes.block.top + 13, 'text');
  }
  for (const m of start.moments) {
    const x = box.x(m) ?? 0;
    const colour = m.markId === p.selected ? p.colours.accent : p.colours.pine;
    pen.fillStyle = colour;
    pen.strokeStyle = colour;
    pen.lineWidth = 1.5;
    const top = lanes.block.top;
    switch (m.part) {
      case 'setUp':
        pen.fillRect(x - 1, top - 8, 2, lanes.block.height + 8);
        break;
      case 'release':
        flag(pen, x, top - 12, lanes.block.height + 12);
        break;
      case 'fake':
        polygon(pen, [x - 4, top - 2, x + 4, top - 2, x, top - 9]);
        pen.stroke();
        break;
      case 'shift':
        pen.beginPath();
        pen.arc(x, top - 5, 3.5, 0, 2 * Math.PI);
        pen.stroke();
        break;
      case 'step':
        pen.beginPath();
        pen.arc(x, top - 5, 4, 0, 2 * Math.PI);
        pen.fill();
        pen.fillRect(x - 0.75, top - 5, 1.5, lanes.block.height + 5);
        break;
    }
  }
}

/**
 * A cross: the dog above, the handler below. Above, a tick where she was committed and a bar while no cue can reach
 * her; below, a row of short steps from the first cue until it was finished. Late is seen where the steps begin
 * after the bar does.
 */
function paintCross(pen: Pencil, p: Painting, box: CrossBox): void {
  const { cross } = box;
  const { dog, handler } = lanes;
  const takeOff = box.x(cross.parts.takeOff);
  const landing = box.x(cross.parts.landing);
  const committed = box.x(cross.parts.committed);
  const looked = cross.id === p.cross;
  pen.fillStyle = p.colours.pine;
  if (takeOff !== null && landing !== null) {
    rounded(pen, takeOff, dog.top + 2, Math.max(3, landing - takeOff), dog.height - 4, 3);
    pen.fill();
  }
  for (const x of [takeOff, landing])
    if (x !== null) pen.fillRect(x - 0.75, dog.top, 1.5, handler.top + handler.height - dog.top);
  if (committed !== null) {
    pen.strokeStyle = p.colours.pine;
    pen.lineWidth = 1.5;
    polygon(pen, [committed - 4, dog.top + 2, committed + 4, dog.top + 2, committed, dog.top + 11]);
    pen.stroke();
  }
  const first = box.x(cross.cues[0]);
  const last = box.x(cross.parts.cueEnds) ?? box.x(cross.cues.at(-1));
  const colour = p.colours[verdictColour(cross)];
  const middle = handler.top + handler.height / 2;
  if (first !== null && last !== null) steps(pen, first, last, middle, colour);
  for (const cue of cross.cues) {
    const x = box.x(cue) ?? 0;
    pen.fillStyle = colour;
    pen.fillRect(x - 1, handler.top, 2, handler.height);
  }
  const finished = box.x(cross.parts.cueEnds);
  if (finished !== null) {
    pen.fillStyle = colour;
    polygon(pen, [finished, middle - 5, finished + 5, middle, finished, middle + 5, finished - 5, middle]);
    pen.fill();
  }
  for (const spot of [...cross.cues, ...Object.values(cross.parts)]) {
    if (isChosen(p, spot)) {
      const x = box.x(spot) ?? 0;
      pen.fillStyle = p.colours.accent;
      pen.fillRect(x - 1.5, dog.top - 1, 3, handler.top + handler.height - dog.top + 2);
    }
    paintBracket(pen, p, spot, handler.top + handler.height);
  }
  if (box.text) write(pen, p, box.text, box.wordsAt, middle + 1, verdictColour(cross), looked ? 600 : 400);
}

function verdictColour(cross: CrossSpan): ColourName {
  switch (cross.verdict) {
    case 'inTime':
      return 'inTime';
    case 'tight':
      return 'tight';
    case 'late':
    case 'tooEarly':
      return 'late';
    default:
      return 'open';
  }
}

/** The handler's way as a row of short steps. */
function steps(pen: Pencil, from: number, to: number, y: number, colour: string): void {
  pen.fillStyle = colour;
  for (let x = from, left = true; x < to; x += 6, left = !left) {
    pen.fillRect(x, left ? y - 3 : y + 1, Math.min(4, to - x), 2);
  }
}

function paintEvents(pen: Pencil, p: Painting): void {
  const { top, height } = lanes.event;
  const middle = top + height / 2;
  for (const { event, x, text } of p.layout.events) {
    const chosen = event.markId === p.selected;
    const colour = chosen ? p.colours.accent : p.colours.textSoft;
    pen.fillStyle = colour;
    pen.fillRect(x - 0.5, middle + 4, 1, lanes.block.top - middle - 4);
    sign(pen, event.family, x, middle, colour);
    if (text) write(pen, p, text, x + 9, middle + 4.5, chosen ? 'accent' : 'text');
  }
}

/** A sign for each family of events: told apart by shape, named by its word where there is room. */
function sign(pen: Pencil, family: EventFamily, x: number, y: number, colour: string): void {
  pen.fillStyle = colour;
  pen.strokeStyle = colour;
  pen.lineWidth = 1.5;
  switch (family) {
    case 'course':
      polygon(pen, [x, y - 5.5, x + 5.5, y, x, y + 5.5, x - 5.5, y]);
      pen.fill();
      break;
    case 'handling':
      polygon(pen, [x - 5, y + 4, x + 5, y + 4, x, y - 5]);
      pen.stroke();
      break;
    case 'mood':
      pen.beginPath();
      pen.arc(x, y, 4.5, 0, 2 * Math.PI);
      pen.stroke();
      break;
    case 'clock':
      flag(pen, x, y - 6, 12);
      break;
    case 'word':
      pen.strokeRect(x - 4, y - 5, 8, 10);
      pen.fillRect(x - 2, y - 2, 4, 1);
      pen.fillRect(x - 2, y + 1, 4, 1);
      break;
  }
}

function flag(pen: Pencil, x: number, top: number, height: number): void {
  pen.fillRect(x - 0.75, top, 1.5, height);
  polygon(pen, [x, top, x + 8, top + 3.5, x, top + 7]);
  pen.fill();
}

function polygon(pen: Pencil, points: readonly number[]): void {
  pen.beginPath();
  pen.moveTo(points[0] ?? 0, points[1] ?? 0);
  for (let i = 2; i + 1 < points.length; i += 2) pen.lineTo(points[i] ?? 0, points[i + 1] ?? 0);
  pen.closePath();
}

function rounded(pen: Pencil, x: number, y: number, width: number, height: number, radius: number): void {
  pen.beginPath();
  pen.roundRect(x, y, width, height, Math.min(radius, width / 2, height / 2));
}

import { createCanvas, type Canvas, type SKRSContext2D } from '@napi-rs/canvas';
import type { PictureSize } from '../../course/pictureLay.ts';
import { data, stage } from '../../look/tokens.ts';
import type { GroundMark } from '../../report/clip/groundLayer.ts';
import type { LaneLayer, Layer } from '../../report/clip/layers.ts';
import { paintStrokes } from '../../review/paintStrokes.ts';
import { makeLettersReady } from '../courseSheet/fonts.ts';
import { box, font, lettersOf, linesIn } from './lettering.ts';

/** Sizes as shares of the clip's longer side, so that words are read on a phone that shows the clip 360 points wide. */
const shares = { caption: 1 / 34, tag: 1 / 40, number: 1 / 60, line: 1 / 500, margin: 1 / 60 } as const;

const inkOf = { wanted: data.green, likely: data.purple, real: data.orange, handler: data.sky } as const;
/** Width in lines, and lengths of dash and gap in widths, as the review screen has them. */
const strokeOf = {
  wanted: { width: 1, dashes: [4, 2] },
  likely: { width: 1, dashes: [3.2, 2.4] },
  real: { width: 1.4, dashes: [] },
  handler: { width: 1.2, dashes: [0.7, 2] },
} as const;
const guess = [0.9, 2] as const;

/** Paints what is laid over a clip: pixels of its size (RGBA, straight alpha) that are clear where nothing is. */
export function layerPainter(size: PictureSize): (layer: Layer) => Uint8Array {
  makeLettersReady();
  const grounds = new Map<readonly GroundMark[], Canvas>();
  const groundOf = (marks: readonly GroundMark[], lane: LaneLayer['box']): Canvas => {
    const known = grounds.get(marks);
    if (known) return known;
    const canvas = createCanvas(size.width, size.height);
    const to = canvas.getContext('2d');
    within(to, lane, () => {
      for (const mark of marks) paintMark(to, mark, size);
    });
    grounds.set(marks, canvas);
    return canvas;
  };
  return (layer) => {
    const canvas = createCanvas(size.width, size.height);
    const to = canvas.getContext('2d');
    for (const lane of layer.lanes) {
      if (lane.ground.length > 0) to.drawImage(groundOf(lane.ground, lane.box), 0, 0);
      within(to, lane.box, () => {
        to.translate(lane.box.x, 0);
        paintStrokes(to, lane.strokes, lane.box.width, lane.box.height);
      });
      paintTags(to, lane, size);
    }
    if (layer.speed !== null) paintSpeed(to, layer.speed, size);
    if (layer.caption !== null) paintCaption(to, layer.caption, size);
    const { buffer, byteOffset, byteLength } = to.getImageData(0, 0, size.width, size.height).data;
    return new Uint8Array(buffer, byteOffset, byteLength);
  };
}

/** Paints nothing beyond the picture of one run. */
function within(to: SKRSContext2D, lane: LaneLayer['box'], paint: () => void): void {
  to.save();
  to.beginPath();
  to.rect(lane.x, 0, lane.width, lane.height);
  to.clip();
  paint();
  to.restore();
}

const longer = ({ width, height }: PictureSize): number => Math.max(width, height);

function paintMark(to: SKRSContext2D, mark: GroundMark, size: PictureSize): void {
  const unit = longer(size) * shares.line;
  if (mark.shape === 'number') {
    to.font = font(longer(size) * shares.number, true);
    to.textAlign = 'center';
    to.lineJoin = 'round';
    to.lineWidth = 1.6 * unit;
    to.strokeStyle = stage.surround;
    to.strokeText(mark.text, mark.x, mark.y);
    to.fillStyle = stage.text;
    to.fillText(mark.text, mark.x, mark.y);
    return;
  }
  const { width, dashes } = strokeOf[mark.as];
  to.beginPath();
  mark.points.forEach(([x, y], i) => {
    if (i === 0) to.moveTo(x, y);
    else to.lineTo(x, y);
  });
  to.lineCap = 'round';
  to.lineJoin = 'round';
  to.setLineDash((mark.dashed ? guess : dashes).map((part) => part * width * 2.5 * unit));
  const stroke = (colour: string, lines: number, alpha: number): void => {
    to.globalAlpha = alpha;
    to.strokeStyle = colour;
    to.lineWidth = lines * unit;
    to.stroke();
    to.globalAlpha = 1;
  };
  stroke(stage.surround, width * 1.9, 0.55);
  stroke(inkOf[mark.as], width, 1);
  to.setLineDash([]);
}

/** Whose run it is, and the latest split: in the upper left corner of its picture. */
function paintTags(to: SKRSContext2D, { box: lane, tags }: LaneLayer, size: PictureSize): void {
  if (tags.length === 0) return;
  const letters = longer(size) * shares.tag;
  const margin = longer(size) * shares.margin;
  const lines = tags.flatMap((tag) => linesIn(to, lettersOf(tag), letters, lane.width - 4 * margin, 1));
  box(to, lines, { letters, x: lane.x + margin, y: margin, from: 'left' });
}

function paintSpeed(to: SKRSContext2D, speed: string, size: PictureSize): void {
  const letters = longer(size) * shares.tag;
  const margin = longer(size) * shares.margin;
  box(to, [speed], { letters, x: size.width - margin, y: margin, from: 'right' });
}

/** Most lines under the picture: more would cover the run. */
const mostLines = 4;

function paintCaption(to: SKRSContext2D, caption: string, size: PictureSize): void {
  const letters = longer(size) * shares.caption;
  const margin = longer(size) * shares.margin;
  const lines = linesIn(to, lettersOf(caption), letters, size.width - 5 * margin, mostLines);
  box(to, lines, { letters, x: size.width / 2, y: size.height - margin, from: 'bottom' });
}

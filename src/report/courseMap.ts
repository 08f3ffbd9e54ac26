import { obstacleAt, type Course, type Obstacle, type Stand } from '../course/course.ts';

/** A shape of the map in the map's own units, y down. */
export type MapShape =
  | {
      readonly shape: 'path';
      readonly points: readonly (readonly [number, number])[];
      readonly width: number;
      readonly as: MapRole;
      readonly closed?: boolean;
    }
  | {
      readonly shape: 'dot';
      readonly x: number;
      readonly y: number;
      readonly r: number;
      readonly as: MapRole;
    }
  | { readonly shape: 'number'; readonly x: number; readonly y: number; readonly text: string };
/** What a shape is; the writer gives it its colours. */
export type MapRole =
  'ring' | 'order' | 'bar' | 'wing' | 'tube' | 'mouth' | 'plank' | 'contact' | 'pole' | 'spot';

export interface CourseMap {
  readonly width: number;
  readonly height: number;
  /** Height of a number, in the map's units. */
  readonly textSize: number;
  readonly toScale: boolean;
  readonly numbers: number;
  readonly shapes: readonly MapShape[];
}

/** How many of its text heights a map is wide: keeps numbers at 13 px or more on a 360 px page. */
const widthInText = 25;

/** The map of a drawn course, else of the numbers clicked on the judge's map, else null. */
export function courseMap(course: Course): CourseMap | null {
  return drawnMap(course) ?? numbersMap(course);
}

function numbersMap(course: Course): CourseMap | null {
  const steps = course.steps.filter((s) => s.onPicture);
  const picture = course.mapPicture;
  if (steps.length < 2 || !picture) return null;
  const width = 100;
  const height = (width * picture.height) / picture.width;
  // A picture many times longer than wide cannot be printed on a page in any useful way.
  if (height > width * 4 || height < width / 8) return null;
  const at = steps.map((s) => ({
    text: String(s.number),
    x: (s.onPicture?.x ?? 0) * width,
    y: (s.onPicture?.y ?? 0) * height,
  }));
  const textSize = width / widthInText;
  return {
    width,
    height,
    textSize,
    toScale: false,
    numbers: steps.length,
    shapes: [
      { shape: 'path', points: at.map((p) => [p.x, p.y] as const), width: textSize / 10, as: 'order' },
      ...at.map((p): MapShape => ({ shape: 'dot', x: p.x, y: p.y, r: textSize * 0.75, as: 'spot' })),
      ...at.map((p): MapShape => ({ shape: 'number', ...p })),
    ],
  };
}

interface Frame {
  readonly x0: number;
  readonly y1: number;
  readonly width: number;
  readonly height: number;
}

/** Metres of grass around the equipment. */
const margin = 2;

function drawnMap(course: Course): CourseMap | null {
  const standing = course.obstacles.flatMap((o) => (o.stand ? [{ obstacle: o, stand: o.stand }] : []));
  if (standing.length < 2) return null;
  const frame = frameOf(
    course,
    standing.map((s) => s.stand),
  );
  const textSize = frame.width / widthInText;
  const paint = painter(frame);
  const steps = course.steps.flatMap((step) => {
    const o = obstacleAt(course, step.number);
    return o?.stand ? [{ step, obstacle: o, stand: o.stand }] : [];
  });
  const shapes: MapShape[] = [
    {
      shape: 'path',
      as: 'ring',
      width: textSize / 12,
      closed: true,
      points: [
        [0, 0],
        [frame.width, 0],
        [frame.width, frame.height],
        [0, frame.height],
      ],
    },
    {
      shape: 'path',
      as: 'order',
      width: textSize / 10,
      points: steps.flatMap(({ step, stand }) => {
        const mouths = tunnelMouths(stand, step.direction);
        return mouths ? mouths.map((mouth) => paint(mouth, 0, 0)) : [paint(stand, 0, 0)];
      }),
    },
    ...standing.flatMap(({ obstacle, stand }) => equipment(obstacle, stand, paint)),
  ];
  const seen = new Map<string, number>();
  for (const { step, obstacle, stand } of steps) {
    const times = seen.get(`${obstacle.id}/${step.direction}`) ?? 0;
    seen.set(`${obstacle.id}/${step.direction}`, times + 1);
    const [mouth] = tunnelMouths(stand, step.direction) ?? [];
    const back = mouth ? -1 : step.direction === 'forward' ? -1 : 1;
    const away = back * (reach(obstacle) + textSize * 0.8);
    const aside = times * textSize * 1.4;
    const [x, y] = paint(mouth ?? stand, away, aside);
    shapes.push({
      shape: 'number',
      x: within(x, textSize, frame.width),
      y: within(y, textSize, frame.height),
      text: String(step.number),
    });
  }
  return {
    width: frame.width,
    height: frame.height,
    textSize,
    toScale: true,
    numbers: course.steps.length,
    shapes,
  };
}

type Pose = Pick<Stand, 'x' | 'y' | 'headingDegrees'>;

/** The mouth a dog goes in at and the one it comes out of, each with the way it runs there; null for other things. */
function tunnelMouths(stand: Stand, direction: 'forward' | 'reverse'): readonly [Pose, Pose] | null {
  if (!stand.bend) return null;
  const line = direction === 'forward' ? stand.bend : [...stand.bend].reverse();
  const [a, b] = line;
  const [y, z] = line.slice(-2);
  if (!a || !b || !y || !z) return null;
  const heading = (from: typeof a, to: typeof a): number =>
    (Math.atan2(to.y - from.y, to.x - from.x) * 180) / Math.PI;
  return [
    { x: a.x, y: a.y, headingDegrees: heading(a, b) },
    { x: z.x, y: z.y, headingDegrees: heading(y, z) },
  ];
}

const within = (v: number, edge: number, size: number): number => Math.min(size - edge, Math.max(edge, v));

function frameOf(course: Course, stands: readonly Stand[]): Frame {
  const xs = stands.flatMap((s) => [s.x, ...(s.bend ?? []).map((b) => b.x)]);
  const ys = stands.flatMap((s) => [s.y, ...(s.bend ?? []).map((b) => b.y)]);
  const ring = course.ring;
  const x0 = Math.min(ring ? 0 : Infinity, Math.min(...xs) - margin);
  const x1 = Math.max(ring ? ring.width : -Infinity, Math.max(...xs) + margin);
  const y0 = Math.min(ring ? 0 : Infinity, Math.min(...ys) - margin);
  const y1 = Math.max(ring ? ring.length : -Infinity, Math.max(...ys) + margin);
  return { x0, y1, width: x1 - x0, height: y1 - y0 };
}

/** Places a point `along` the way an obstacle is taken and `aside` to its left, in metres, onto the map. */
type Painter = (stand: Pose, along: number, aside: number) => readonly [number, number];

function painter(frame: Frame): Painter {
  return (stand, along, aside) => {
    const a = (stand.headingDegrees * Math.PI) / 180;
    const x = stand.x + along * Math.cos(a) - aside * Math.sin(a);
    const y = stand.y + along * Math.sin(a) + aside * Math.cos(a);
    return [x - frame.x0, frame.y1 - y];
  };
}

/**
 * Half lengths and widths in plan, metres. From the FCI figures of the check values where there are any (bar 1.3,
 * wing 0.5, A-frame footprint 4.2, dog walk 10.4, see-saw 3.7, pole spacing 0.6, tunnel 0.6); table assumed.
 */
const plan = {
  bar: 0.65,
  wing: 0.5,
  spread: 0.25,
  longJump: 0.7,
  aFrame: { length: 2.1, width: 0.9 },
  dogWalk: { length: 5.2, width: 0.3 },
  seeSaw: { length: 1.85, width: 0.3 },
  contact: { aFrame: 0.82, plank: 0.85 },
  poles: { count: 12, spacing: 0.6 },
  tunnel: { width: 0.6, length: 2.5 },
  table: 0.45,
} as const;

/** How far the equipment reaches along the way it is taken, from its middle. */
function reach(o: Obstacle): number {
  switch (o.kind) {
    case 'aFrame':
      return plan.aFrame.length;
    case 'dogWalk':
      return plan.dogWalk.length;
    case 'seeSaw':
      return plan.seeSaw.length;
    case 'weavePoles':
      return ((plan.poles.count - 1) / 2) * plan.poles.spacing;
    case 'longJump':
      return plan.longJump;
    case 'tunnel':
      return o.stand?.bend ? 0.4 : plan.tunnel.length;
    default:
      return 0.3;
  }
}

function equipment(o: Obstacle, stand: Stand, at: Painter): MapShape[] {
  const across = (along: number, from: number, to: number, width: number, as: MapRole): MapShape => ({
    shape: 'path',
    points: [at(stand, along, from), at(stand, along, to)],
    width,
    as,
  });
  const lengthwise = (from: number, to: number, width: number, as: MapRole): MapShape => ({
    shape: 'path',
    points: [at(stand, from, 0), at(stand, to, 0)],
    width,
    as,
  });
  const wings = (along: number): MapShape[] => [
    across(along, plan.bar, plan.bar + plan.wing, 0.16, 'wing'),
    across(along, -plan.bar, -plan.bar - plan.wing, 0.16, 'wing'),
  ];
  const planks = (size: { length: number; width: number }, contact: number): MapShape[] => [
    lengthwise(-size.length, size.length, size.width, 'plank'),
    lengthwise(-size.length, -size.length + contact, size.width, 'contact'),
    lengthwise(size.length, size.length - contact, size.width, 'contact'),
  ];
  switch (o.kind) {
    case 'barJump':
      return [across(0, -plan.bar, plan.bar, 0.1, 'bar'), ...wings(0)];
    case 'spread':
      return [-plan.spread, plan.spread].flatMap((s) => [
        across(s, -plan.bar, plan.bar, 0.1, 'bar'),
        ...wings(s),
      ]);
    case 'panel':
    case 'wall':
      return [across(0, -plan.bar, plan.bar, 0.22, 'plank'), ...wings(0)];
    case 'longJump':
      return [-1, -0.33, 0.33, 1].map((s) => across(s * plan.longJump, -0.6, 0.6, 0.15, 'plank'));
    case 'tyre':
      return [across(0, -0.9, 0.9, 0.12, 'wing'), across(0, -0.28, 0.28, 0.24, 'bar')];
    case 'tunnel':
      return tube(stand, at);
    case 'weavePoles':
      return Array.from({ length: plan.poles.count }, (_, i): MapShape => {
        const [x, y] = at(stand, (i - (plan.poles.count - 1) / 2) * plan.poles.spacing, 0);
        return { shape: 'dot', x, y, r: 0.12, as: 'pole' };
      });
    case 'aFrame':
      return planks(plan.aFrame, plan.contact.aFrame);
    case 'dogWalk':
      return planks(plan.dogWalk, plan.contact.plank);
    case 'seeSaw':
      return planks(plan.seeSaw, plan.contact.plank);
    case 'table':
      return [lengthwise(-plan.table, plan.table, plan.table * 2, 'plank')];
    case 'unknown': {
      const [x, y] = at(stand, 0, 0);
      return [{ shape: 'dot', x, y, r: 0.35, as: 'spot' }];
    }
  }
}

function tube(stand: Stand, at: Painter): MapShape[] {
  const ends = [at(stand, -plan.tunnel.length, 0), at(stand, plan.tunnel.length, 0)];
  const points = stand.bend?.map((b) => at({ x: b.x, y: b.y, headingDegrees: 0 }, 0, 0)) ?? ends;
  const mouths = [points[0], points.at(-1)].flatMap((p): MapShape[] =>
    p ? [{ shape: 'dot', x: p[0], y: p[1], r: plan.tunnel.width / 2, as: 'mouth' }] : [],
  );
  return [{ shape: 'path', points, width: plan.tunnel.width, as: 'tube' }, ...mouths];
}

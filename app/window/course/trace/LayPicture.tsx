import { useRef, useState } from 'react';
import type { MapPicture } from '../../../../src/course/course.ts';
import { usualRing } from '../../../../src/course/drawing/pieces.ts';
import { fromUnit, inUnit } from '../../../../src/course/grid.ts';
import type { NearPicture } from '../../../../src/course/underlay.ts';
import { plainFigure } from '../../../../src/words/drawing.ts';
import { traceWords as words } from '../../../../src/words/trace.ts';
import { Button } from '../../look/Button.tsx';
import { SelectField, TextField } from '../../look/Field.tsx';
import { usePreferences } from '../../stores/react.ts';
import { useCourse } from '../useCourse.ts';
import { KnownPointHandle } from './KnownPointHandle.tsx';
import { pointFor, pointsFor, pointsOf, underlayBy, ways, withPoint, type Way } from './knownPoints.ts';
import styles from './LayPicture.module.css';
import { Loupe } from './Loupe.tsx';

interface LayPictureProps {
  readonly picture: MapPicture;
  readonly url: string;
  /** Told when the picture lies under the drawing, or when it was left as it was. */
  readonly onDone: (laid: boolean) => void;
}

/** Sheets of paper on their side, upright, and square: width over height (ISO 216: one to the root of two). */
const sheets = { across: Math.SQRT2, upright: Math.SQRT1_2, square: 1 } as const;
type Sheet = keyof typeof sheets;

/** Where the map picture lies: its four corners or two points are set on it, and lengths told. */
export function LayPicture({ picture, url, onDone }: LayPictureProps) {
  const { state, changeCourse } = useCourse();
  const { course } = state;
  const lengths = usePreferences((p) => p.lengths);
  const unit = course.unit ?? lengths;
  const before =
    course.underlay?.corners && course.underlay.shape !== undefined ? course.underlay : undefined;
  const [way, setWay] = useState<Way>('ring');
  const [points, setPoints] = useState(() => (before ? pointsOf(before) : pointsFor('ring')));
  const ring = course.ring ?? usualRing;
  const [width, setWidth] = useState(plainFigure(inUnit(ring.width, unit)));
  const [depth, setDepth] = useState(plainFigure(inUnit(ring.length, unit)));
  const [between, setBetween] = useState('10');
  const [sheet, setSheet] = useState<Sheet>(picture.width >= picture.height ? 'across' : 'upright');
  const [over, setOver] = useState<NearPicture | null>(null);
  const sheetBox = useRef<HTMLDivElement>(null);

  const metres = (text: string): number => fromUnit(Number(text.trim().replace(',', '.')), unit);
  const told = { width: metres(width), length: metres(depth) };
  const usable =
    way === 'ring'
      ? [told.width, told.length].every((v) => v >= 1 && v <= 500)
      : metres(between) > 0.1 && metres(between) <= 500;
  const underlay = usable
    ? underlayBy(
        way,
        points,
        { ring: told, between: metres(between), shape: sheets[sheet] },
        picture,
        course.underlay?.strength ?? 0.5,
      )
    : null;
  const waiting = points.filter((p) => !p.set).length;

  const pointAt = (event: { clientX: number; clientY: number }): NearPicture => {
    const box = sheetBox.current?.getBoundingClientRect();
    if (!box || box.width === 0 || box.height === 0) return { x: 0.5, y: 0.5 };
    return { x: (event.clientX - box.left) / box.width, y: (event.clientY - box.top) / box.height };
  };
  const keep = (): void => {
    if (!underlay) return;
    changeCourse(words.labels.lay, (c) => ({ ...c, ...(way === 'ring' ? { ring: told } : {}), underlay }));
    onDone(true);
  };

  return (
    <div className={styles['lay']}>
      <form
        className={styles['known']}
        onSubmit={(event) => {
          event.preventDefault();
          keep();
        }}
      >
        <SelectField
          label={words.known}
          value={way}
          options={ways.map((w) => [w, words.ways[w]] as const)}
          onChange={(next) => {
            setWay(next);
            setPoints(pointsFor(next));
          }}
        />
        {way === 'ring' ? (
          <>
            <TextField label={words.width(unit)} inputMode="decimal" value={width} onChange={setWidth} />
            <TextField label={words.depth(unit)} inputMode="decimal" value={depth} onChange={setDepth} />
          </>
        ) : (
          <>
            <TextField
              label={words.between(unit)}
              inputMode="decimal"
              value={between}
              onChange={setBetween}
            />
            {way === 'sheet' && (
              <SelectField<Sheet>
                label={words.sheet}
                value={sheet}
                options={[
                  ['across', words.sheets.across],
                  ['upright', words.sheets.upright],
                  ['square', words.sheets.square],
                ]}
                onChange={setSheet}
              />
            )}
          </>
        )}
        <Button kind="main" type="submit" disabled={!underlay}>
          {words.done}
        </Button>
        <Button
          kind="quiet"
          onClick={() => {
            onDone(false);
          }}
        >
          {words.cancel}
        </Button>
      </form>
      <p className={styles['say']} role="status">
        {waiting > 0 ? words.waiting[way](waiting) : underlay ? words.ready : words.unclear}
      </p>
      <div
        className={styles['frame']}
        onPointerMove={(event) => {
          setOver(pointAt(event));
        }}
        onPointerLeave={() => {
          setOver(null);
        }}
        onClick={(event) => {
          const at = pointAt(event);
          const point = pointFor(points, at, picture);
          if (point) setPoints(withPoint(points, point.id, at));
        }}
      >
        <div
          ref={sheetBox}
          className={styles['sheet']}
          style={{ '--shape': picture.width / picture.height } as React.CSSProperties}
        >
          <img className={styles['picture']} src={url} alt={words.pictureAlt} draggable={false} />
          <Outline points={points.filter((p) => p.is === 'corner').map((p) => p.at)} closed />
          <Outline points={points.filter((p) => p.is === 'end').map((p) => p.at)} closed={false} />
          {points.map((point) => (
            <KnownPointHandle
              key={point.id}
              point={point}
              name={words.pointOf(point.id)}
              pointAt={pointAt}
              shape={picture.width / picture.height}
              onMove={(at) => {
                setPoints((now) => withPoint(now, point.id, at));
              }}
            />
          ))}
          {over && <Loupe url={url} at={over} picture={picture} />}
        </div>
      </div>
    </div>
  );
}

function Outline({ points, closed }: { readonly points: readonly NearPicture[]; readonly closed: boolean }) {
  if (points.length < 2) return null;
  const list = points.map(({ x, y }) => `${x * 100},${y * 100}`).join(' ');
  return (
    <svg className={styles['outline']} viewBox="0 0 100 100" preserveAspectRatio="none" aria-hidden>
      {closed ? <polygon points={list} /> : <polyline points={list} />}
    </svg>
  );
}

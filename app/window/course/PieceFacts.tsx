import { useStore } from 'zustand';
import type { Obstacle } from '../../../src/course/course.ts';
import { withTunnelLength } from '../../../src/course/drawing/arrange.ts';
import { withFacts } from '../../../src/course/drawing/pieces.ts';
import { withSizes } from '../../../src/course/drawing/sizes.ts';
import { lengthOf } from '../../../src/course/pose.ts';
import { tunnelLine } from '../../../src/course/tunnelLine.ts';
import { withStep } from '../../../src/course/drawing/numbering.ts';
import { choicesOf, drawnSizes, type Sizes } from '../../../src/course/equipment.ts';
import { fromUnit, inUnit } from '../../../src/course/grid.ts';
import { obstacleKinds } from '../../../src/course/kinds.ts';
import { drawingWords, plainFigure } from '../../../src/words/drawing.ts';
import { obstacleWords } from '../../../src/words/trade.ts';
import { Button } from '../look/Button.tsx';
import { KeptField, SelectField } from '../look/Field.tsx';
import { NumberBoard } from '../map/NumberBoard.tsx';
import { usePreferences } from '../stores/react.ts';
import { useBoard } from './BoardContext.ts';
import styles from './DrawPage.module.css';

const words = drawingWords.piece;
const labels = drawingWords.labels;
const counts: ReadonlySet<keyof Sizes> = new Set(['units', 'poles']);

/** The facts of the one piece that is chosen: kind, name, sizes, and how each of its numbers takes it. */
export function PieceFacts({ piece }: { readonly piece: Obstacle }) {
  const board = useBoard();
  const dialect = usePreferences((p) => p.dialect);
  const name = board.desk.kindName(piece.kind);
  const kinds = obstacleKinds.map((kind) => [kind, obstacleWords[dialect][kind]] as const);
  return (
    <div className={styles['facts']}>
      <SelectField
        label={words.kind}
        value={piece.kind}
        options={kinds}
        onChange={(kind) => {
          board.act(labels.sizes(name), (c) => withFacts(c, piece.id, { kind }));
        }}
      />
      <KeptField
        label={words.nickname}
        value={piece.nickname}
        maxLength={60}
        onKeep={(text) => {
          board.act(labels.sizes(name), (c) => withFacts(c, piece.id, { nickname: text.trim() }));
        }}
      />
      {choicesOf(piece.kind).map((choice) => (
        <SizeField key={choice} piece={piece} choice={choice} />
      ))}
      <Numbers piece={piece} />
    </div>
  );
}

/** One size: empty gives the table's back. What no such piece can have is not taken. */
function SizeField({ piece, choice }: { readonly piece: Obstacle; readonly choice: keyof Sizes }) {
  const board = useBoard();
  const unit = board.desk.unit();
  const label = labels.sizes(board.desk.kindName(piece.kind));
  if (choice === 'wings') {
    const wings = piece.sizes?.wings === false ? 'without' : 'with';
    return (
      <SelectField
        label={words.size('wings', unit)}
        value={wings}
        options={[
          ['with', words.withWings],
          ['without', words.withoutWings],
        ]}
        onChange={(next) => {
          board.act(label, (c) =>
            withSizes(c, [piece.id], { wings: next === 'without' ? false : undefined }),
          );
        }}
      />
    );
  }
  const own =
    choice === 'tunnelLength' ? (bentLength(piece) ?? piece.sizes?.tunnelLength) : piece.sizes?.[choice];
  const length = !counts.has(choice);
  const shown = (value: number): string => plainFigure(length ? inUnit(value, unit) : value);
  const usual =
    choice === 'height' ? undefined : drawnSizes(piece.kind, board.usual(piece.kind).sizes)[choice];
  return (
    <KeptField
      label={words.size(choice, unit)}
      inputMode="decimal"
      value={own === undefined ? '' : shown(own)}
      placeholder={usual === undefined ? '' : shown(usual)}
      onKeep={(text) => {
        const value = Number(text.trim().replace(',', '.'));
        const metres = length ? fromUnit(value, unit) : Math.round(value);
        const next = text.trim() === '' ? undefined : metres;
        if (next !== undefined && !fits(choice, next)) return;
        board.act(label, (c) =>
          choice === 'tunnelLength'
            ? withTunnelLength(c, piece.id, next ?? null)
            : withSizes(c, [piece.id], { [choice]: next }),
        );
      }}
    />
  );
}

/** The length of a bent tunnel along its line, to the decimetre; undefined where it lies straight. */
function bentLength({ stand, sizes }: Obstacle): number | undefined {
  if (!stand?.bend) return undefined;
  return Math.round(lengthOf(tunnelLine(stand, drawnSizes('tunnel', sizes).tunnelLength)) * 10) / 10;
}

/** Least and most of each size, as the schema of a course has them. */
const limits: Readonly<Record<Exclude<keyof Sizes, 'wings'>, readonly [number, number]>> = {
  barWidth: [0.6, 3],
  height: [0, 2],
  depth: [0.05, 3],
  units: [1, 8],
  poles: [2, 24],
  spacing: [0.3, 1.2],
  tunnelLength: [1, 15],
};
const fits = (choice: Exclude<keyof Sizes, 'wings'>, value: number): boolean =>
  value >= limits[choice][0] && value <= limits[choice][1];

/** Each number of the piece, and how it takes it. */
function Numbers({ piece }: { readonly piece: Obstacle }) {
  const board = useBoard();
  const place = useStore(board, (v) => v.place);
  const steps = board.shown().steps.filter((s) => s.obstacleId === piece.id);
  if (steps.length === 0) return <p className={`${styles['wide']} ${styles['soft']}`}>{words.noNumbers}</p>;
  return (
    <div className={`${styles['wide']} ${styles['numbers']}`} role="group" aria-label={words.numbers}>
      {steps.map((s) => (
        <div key={s.number} className={styles['number']}>
          <NumberBoard
            place={s.number}
            name={String(s.number)}
            selected={s.number === place}
            onSelect={(n) => {
              board.setState({ place: n });
            }}
          />
          <Button
            kind="quiet"
            pressed={s.direction === 'reverse'}
            onClick={() => {
              const direction = s.direction === 'forward' ? 'reverse' : 'forward';
              board.act(labels.step(s.number), (c) => withStep(c, s.number, { direction }));
            }}
            {...(s.number === place ? { act: 'course.otherWay' as const } : {})}
          >
            {words.reverse}
          </Button>
          <Button
            kind="quiet"
            pressed={s.backside === true}
            onClick={() => {
              const backside = s.backside === true ? undefined : true;
              board.act(labels.step(s.number), (c) => withStep(c, s.number, { backside }));
            }}
            {...(s.number === place ? { act: 'course.backside' as const } : {})}
          >
            {words.backside}
          </Button>
          {(['left', 'right'] as const).map((side) => (
            <Button
              key={side}
              kind="quiet"
              pressed={s.wrap === side}
              onClick={() => {
                const wrap = s.wrap === side ? undefined : side;
                board.act(labels.step(s.number), (c) => withStep(c, s.number, { wrap }));
              }}
              {...(s.number === place && side === 'left' ? { act: 'course.wrap' as const } : {})}
            >
              {side === 'left' ? words.wrapLeft : words.wrapRight}
            </Button>
          ))}
        </div>
      ))}
    </div>
  );
}

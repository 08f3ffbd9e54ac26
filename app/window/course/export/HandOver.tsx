import { FileInput, FileOutput } from 'lucide-react';
import { useEffect, useEffectEvent, useState } from 'react';
import type { ReportFile } from '../../../../src/host/contract/shapes.ts';
import type { PickedFile } from '../../../../src/host/contract/shell.ts';
import type { CourseForm } from '../../../../src/report/courseSheet/forms.ts';
import type { PaperName } from '../../../../src/report/courseSheet/paper.ts';
import { scales } from '../../../../src/report/courseSheet/scale.ts';
import { courseHandOver as words } from '../../../../src/words/courseHandOver.ts';
import { PlaceOf, SaveCopy } from '../../handOver/SaveCopy.tsx';
import { useActs } from '../../keys/useActs.ts';
import { Button } from '../../look/Button.tsx';
import { SelectField } from '../../look/Field.tsx';
import { useReview, useWorkbench } from '../../stores/react.ts';
import { useBoard } from '../BoardContext.ts';
import { standingAbove } from '../edit.ts';
import { useCourse } from '../useCourse.ts';
import styles from './HandOver.module.css';

const listed: readonly CourseForm[] = ['sheet', 'pdf', 'png', 'svg', 'json'];
const onPaper = (form: CourseForm): boolean => form === 'pdf' || form === 'sheet';

/** The course as a file: written in the form that is wanted, or taken in from one. */
export function HandOver() {
  const { host, shell, notices, intake, review } = useWorkbench();
  const { state, changeCourse } = useCourse();
  const board = useBoard();
  const reviewId = useReview((view) => view.id) ?? '';
  const [form, setForm] = useState<CourseForm>('sheet');
  const [paper, setPaper] = useState<PaperName>('a4');
  const [scale, setScale] = useState('');
  const [busy, setBusy] = useState(false);
  const [file, setFile] = useState<ReportFile | null>(null);
  const tell = (error: unknown): void => {
    notices.getState().trouble(error);
  };

  const write = async (): Promise<void> => {
    setBusy(true);
    try {
      await review.settled();
      const chosen = scales.find((s) => String(s) === scale);
      const written = await host.call('course.export', {
        reviewId,
        form,
        paper,
        ...(chosen === undefined || !onPaper(form) ? {} : { scale: chosen }),
      });
      setFile(written);
      notices.getState().say(words.written(written.name));
    } catch (error) {
      tell(error);
    } finally {
      setBusy(false);
    }
  };
  const takeIn = async (picked: PickedFile): Promise<void> => {
    setBusy(true);
    try {
      const { course, pictureMissing } = await host.call('course.read', { source: await picked.source() });
      const last = Math.max(0, ...course.steps.map((s) => s.number));
      const standing = standingAbove(review.getState().state ?? state, last);
      if (standing > 0) {
        notices.getState().say(words.marksStand(standing, last));
        return;
      }
      changeCourse(words.label, () => course);
      board.fit();
      notices
        .getState()
        .say([words.took(picked.name), ...(pictureMissing ? [words.pictureMissing] : [])].join(' '));
    } catch (error) {
      tell(error);
    } finally {
      setBusy(false);
    }
  };
  const choose = (): void => {
    shell.chooseFiles('course', false).then(([picked]) => {
      if (picked) void takeIn(picked);
    }, tell);
  };
  const takeDropped = useEffectEvent((picked: PickedFile) => void takeIn(picked));
  useEffect(() => intake.onDropped('course', (picked) => takeDropped(picked)), [intake]);
  useActs({
    'course.export': busy ? undefined : () => void write(),
    'course.takeIn': busy ? undefined : choose,
  });

  return (
    <section className={styles['hand']}>
      <h2>{words.title}</h2>
      <p className={styles['soft']}>{words.intro}</p>
      <SelectField
        label={words.form}
        value={form}
        options={listed.map((f) => [f, words.forms[f]] as const)}
        onChange={setForm}
      />
      {onPaper(form) && (
        <div className={styles['paper']}>
          <SelectField<PaperName>
            label={words.paper}
            value={paper}
            options={[
              ['a4', words.papers.a4],
              ['a5', words.papers.a5],
            ]}
            onChange={setPaper}
          />
          <SelectField
            label={words.scale}
            value={scale}
            options={[
              ['', words.fitting] as const,
              ...scales.map((s) => [String(s), words.oneTo(s)] as const),
            ]}
            onChange={setScale}
          />
        </div>
      )}
      <div className={styles['acts']}>
        <Button
          kind="main"
          icon={<FileOutput aria-hidden />}
          act="course.export"
          disabled={busy}
          onClick={() => void write()}
        >
          {words.export}
        </Button>
        {file && <SaveCopy file={file} />}
        {busy && <p role="status">{words.exporting}</p>}
      </div>
      {file && <PlaceOf file={file} />}
      <div className={styles['acts']}>
        <Button icon={<FileInput aria-hidden />} act="course.takeIn" disabled={busy} onClick={choose}>
          {words.takeIn}
        </Button>
      </div>
      <p className={styles['soft']}>{words.takeInHint}</p>
    </section>
  );
}

import { useId, useState } from 'react';
import { useStore } from 'zustand';
import { dayWritten } from '../../../src/words/coachingReport.ts';
import { dayOf, libraryWords } from '../../../src/words/library.ts';
import { Dialog } from '../frame/Dialog.tsx';
import { Button } from '../look/Button.tsx';
import { Choice, TextField } from '../look/Field.tsx';
import { useLibrary, useReview, useWorkbench } from '../stores/react.ts';
import { likelyTeam, namesUsed, titleOf } from './findReviews.ts';
import type { IntakeItem, NewReviewForm } from './intake.ts';
import { IntakeList } from './IntakeList.tsx';
import { makeReviews, type Answers } from './makeReviews.ts';
import styles from './NewReviewDialog.module.css';

const words = libraryWords.form;

/** The form for a new review: one step, and Enter is enough. Videos are read while it is filled in. */
export function NewReviewDialog() {
  const { intake, notices } = useWorkbench();
  const form = useStore(intake, (view) => view.form);
  const close = (): void => {
    const { items } = intake.getState();
    const kept = items.filter((item) => item.clipId !== null && form?.itemIds.includes(item.id)).length;
    if (kept > 0) notices.getState().say(words.keptClips(kept));
    intake.closeForm();
  };
  const without = form?.itemIds.length === 0 && form.clipIds.length === 0;
  return (
    <Dialog
      open={form !== null}
      title={without ? words.titleWithout : words.title}
      onClose={() => {
        if (intake.getState().form) close();
      }}
    >
      {form && <Form form={form} onCancel={close} />}
    </Dialog>
  );
}

/** The names of the videos that the form is about. */
function videoNames(
  form: NewReviewForm,
  items: readonly IntakeItem[],
  clipNames: readonly string[],
): string[] {
  return [...clipNames, ...items.filter((item) => form.itemIds.includes(item.id)).map((item) => item.name)];
}

function Form({ form, onCancel }: { readonly form: NewReviewForm; readonly onCancel: () => void }) {
  const workbench = useWorkbench();
  const { intake, notices } = workbench;
  const items = useStore(intake, (view) => view.items);
  const reviews = useLibrary((view) => view.reviews);
  const clips = useLibrary((view) => view.clips);
  const open = useReview((view) => view.state);
  const team = likelyTeam(reviews);
  const names = videoNames(
    form,
    items,
    form.clipIds.map((id) => clips.get(id)?.name ?? id),
  );
  const [title, setTitle] = useState<string | null>(null);
  const [dog, setDog] = useState(team.dog);
  const [handler, setHandler] = useState(team.handler);
  const [count, setCount] = useState(String(team.obstacles));
  const [together, setTogether] = useState<Answers['together']>('each');
  const [into, setInto] = useState<Answers['into']>(form.into ?? 'new');
  const [waiting, setWaiting] = useState(false);
  const [noneLeft, setNoneLeft] = useState(false);
  const lists = { dog: useId(), handler: useId() };

  const many = names.length > 1 && together === 'each' && into === 'new';
  const [firstName] = names;
  const likelyTitle =
    firstName === undefined ? words.defaultTitle(dayWritten(dayOf(new Date()))) : titleOf(firstName);
  const obstacles = /^\d{1,3}$/.test(count.trim()) ? Number(count) : NaN;
  const countIsBad = !(obstacles <= 200);

  const send = async (): Promise<void> => {
    setWaiting(true);
    try {
      const made = await makeReviews(workbench, form, {
        title: (title ?? likelyTitle).trim() || likelyTitle,
        dog: dog.trim(),
        handler: handler.trim(),
        obstacles,
        together,
        into,
        evenWithout: noneLeft,
      });
      if (made === 'noneLeft') setNoneLeft(true);
    } catch (error) {
      notices.getState().trouble(error);
    } finally {
      setWaiting(false);
    }
  };

  return (
    <form
      className={styles['form']}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        if (!countIsBad && !waiting) void send();
      }}
    >
      {names.length > 0 && <IntakeList itemIds={form.itemIds} clipIds={form.clipIds} />}
      {open && names.length > 0 && (
        <Choice
          label={words.addTo}
          value={into}
          options={[
            ['new', words.addToNew],
            ['open', words.addToOpen(open.header.title)],
          ]}
          onChange={setInto}
        />
      )}
      {names.length > 1 && into === 'new' && (
        <Choice
          label={words.together}
          value={together}
          options={[
            ['each', words.togetherOptions.each],
            ['one', words.togetherOptions.one],
          ]}
          onChange={setTogether}
        />
      )}
      {into === 'new' && (
        <>
          {many ? (
            <p className={styles['soft']}>{words.names}</p>
          ) : (
            <TextField
              label={words.name}
              value={title ?? likelyTitle}
              maxLength={200}
              data-first=""
              onChange={setTitle}
            />
          )}
          <div className={styles['team']}>
            <TextField label={words.dog} value={dog} maxLength={80} list={lists.dog} onChange={setDog} />
            <TextField
              label={words.handler}
              value={handler}
              maxLength={80}
              list={lists.handler}
              onChange={setHandler}
            />
          </div>
          <datalist id={lists.dog}>
            {namesUsed(reviews, 'dog').map((name) => (
              <option key={name} value={name} />
            ))}
          </datalist>
          <datalist id={lists.handler}>
            {namesUsed(reviews, 'handler').map((name) => (
              <option key={name} value={name} />
            ))}
          </datalist>
          <TextField
            label={words.obstacles}
            hint={countIsBad ? words.badCount : words.obstaclesHint}
            aria-invalid={countIsBad}
            inputMode="numeric"
            value={count}
            onChange={setCount}
          />
        </>
      )}
      {noneLeft && <p role="alert">{words.noneLeft}</p>}
      <div className={styles['end']}>
        <p className={styles['soft']} role="status">
          {waiting ? words.waits : ''}
        </p>
        <Button onClick={onCancel}>{words.cancel}</Button>
        <Button kind="main" type="submit" data-first={many ? '' : undefined} disabled={waiting}>
          {into === 'open' ? words.add : many ? words.makeMany(names.length) : words.make}
        </Button>
      </div>
    </form>
  );
}

import { useState } from 'react';
import { mostNumbers } from '../../../src/course/course.ts';
import { courseWords } from '../../../src/words/course.ts';
import { Button } from '../look/Button.tsx';
import { TextField } from '../look/Field.tsx';
import { withCount } from './edit.ts';
import styles from './NoNumbers.module.css';
import { useCourse } from './useCourse.ts';

const words = courseWords.none;

/** What a course without numbers needs first: a count. */
export function NoNumbers({ onPage }: { readonly onPage: (page: 'draw' | 'course') => void }) {
  const { changeCourse } = useCourse();
  const [count, setCount] = useState('20');
  const number = /^\d{1,3}$/.test(count.trim()) ? Number(count) : NaN;
  const usable = number >= 1 && number <= mostNumbers;
  return (
    <form
      className={styles['none']}
      onSubmit={(event) => {
        event.preventDefault();
        if (usable) changeCourse(courseWords.labels.count(number), (course) => withCount(course, number));
      }}
    >
      <h2>{words.title}</h2>
      <p>{words.text}</p>
      <div className={styles['line']}>
        <TextField label={courseWords.count} inputMode="numeric" value={count} onChange={setCount} />
        <Button kind="main" type="submit" disabled={!usable}>
          {words.make}
        </Button>
      </div>
      <p>{words.orDraw}</p>
      <div className={styles['line']}>
        <Button
          onClick={() => {
            onPage('draw');
          }}
        >
          {words.draw}
        </Button>
        <Button
          onClick={() => {
            onPage('course');
          }}
        >
          {words.startFrom}
        </Button>
      </div>
    </form>
  );
}

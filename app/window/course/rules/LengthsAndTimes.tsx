import type { CourseCheck } from '../../../../src/course/checkCourse.ts';
import type { RuleBook } from '../../../../src/course/rules/book.ts';
import { courseCheckWords, type GroundUnit } from '../../../../src/words/courseCheck.ts';
import { ruleBookWords } from '../../../../src/words/ruleBook.ts';
import { rulesPageWords as words } from '../../../../src/words/rulesPage.ts';
import styles from './RulesPage.module.css';

interface LengthsAndTimesProps {
  readonly check: CourseCheck;
  readonly unit: GroundUnit;
  readonly book: RuleBook;
}

/** Both lengths, which of them the book means, and the course times with what they follow from. */
export function LengthsAndTimes({ check, unit, book }: LengthsAndTimesProps) {
  const { lengths, bookLength, times } = check;
  const measured = book.course.lengthMeasured?.value ?? 'unsaid';
  return (
    <section className={styles['part']}>
      <h2>{words.times}</h2>
      <div>
        <p>{courseCheckWords.length('centres', lengths.centres, unit)}</p>
        <p>{courseCheckWords.length('wheelPath', lengths.wheelPath, unit)}</p>
        <p>{words.bookMeasures[measured]}</p>
        {bookLength && (
          <p className={styles['source']}>{words.source(ruleBookWords.provenance(bookLength.rule))}</p>
        )}
      </div>
      {(['standard', 'maximum'] as const).map((which) => {
        const time = times[which];
        return (
          <div key={which}>
            <p className={styles['time']}>{courseCheckWords.time(which, time)}</p>
            {which === 'maximum' && times.belowLeast && (
              <p>{courseCheckWords.belowLeast(times.belowLeast)}</p>
            )}
            {time.rule && (
              <p className={styles['source']}>
                {words.source(ruleBookWords.provenance(time.rule))}
                {time.rule.remark !== undefined && ` ${time.rule.remark}`}
              </p>
            )}
          </div>
        );
      })}
    </section>
  );
}

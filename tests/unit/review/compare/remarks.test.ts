import { describe, expect, it } from 'vitest';
import type { Course } from '../../../../src/course/course.ts';
import { analyse } from '../../../../src/review/analyse.ts';
import { compareRemarks, type RemarkedRun } from '../../../../src/review/compare/remarks.ts';
import type { Mark } from '../../../../src/review/marks.ts';
import { remarkSentence } from '../../../../src/words/compare.ts';
import { courseOf, review, steadyClocks, took } from '../example.ts';

const course = courseOf('barJump', 'tunnel', 'barJump', 'barJump');
const outs = (...frames: readonly (number | null)[]): Mark[] =>
  frames.flatMap((f, i) => (f === null ? [] : [took(i + 1, 'in', f - 20), took(i + 1, 'out', f)]));
const run = (marks: Mark[], of: Course = course, footage: readonly unknown[] = ['film']): RemarkedRun => ({
  course: of,
  footage,
  analysis: analyse(review(of, marks), steadyClocks(100)),
});
const event = (kind: 'offCourse' | 'clockStart', pts: number, place?: number): Mark => ({
  id: `${kind}-${pts}`,
  footageId: 'film',
  pts,
  unsure: 0,
  note: '',
  kind: 'event',
  event: kind,
  ...(place === undefined ? {} : { place }),
});
const whole = run(outs(100, 200, 300, 400));
const said = (other: RemarkedRun): string[] => compareRemarks([whole, other]).map(remarkSentence);

describe('what is said before figures are read', () => {
  it('is nothing where two whole runs stand beside each other', () => {
    expect(said(run(outs(150, 250, 350, 450)))).toEqual([]);
    expect(compareRemarks([])).toEqual([]);
  });

  it.each([
    ['another count', run(outs(100), courseOf('barJump')), 'A goes up to number 4, B to number 1.'],
    [
      'another kind',
      run(outs(100, 200, 300, 400), courseOf('barJump', 'barJump', 'barJump', 'barJump')),
      'number 2 is another kind of obstacle.',
    ],
    ['no footage', run([], course, []), 'B has no footage: without frames nothing of it can be timed.'],
    ['no mark', run([]), 'B has no obstacle marked yet.'],
    ['a missing mark', run(outs(100, null, 300, 400)), 'B has no way out marked at 2: '],
    ['a run cut short', run(outs(100, 200)), 'B was marked up to 2 of 4: '],
    [
      'an obstacle taken twice after a refusal',
      run([...outs(100, 200, 300, 400), took(3, 'out', 320)]),
      'B has 3 marked twice in one try, as after a refusal: the later taking counts',
    ],
    [
      'an off-course',
      run([...outs(100, 200, 300, 400), event('offCourse', 240, 2)]),
      'B went off course at 2: ',
    ],
    [
      'an off-course anywhere',
      run([...outs(100, 200, 300, 400), event('offCourse', 240)]),
      'B went off course: ',
    ],
    [
      'a clock that starts by something else',
      run([...outs(100, 200, 300, 400), event('clockStart', 50)]),
      'A by the first take-off and B by the mark of the start line',
    ],
  ])('%s', (_, other, sentence) => {
    expect(said(other).join('\n')).toContain(sentence);
  });
});

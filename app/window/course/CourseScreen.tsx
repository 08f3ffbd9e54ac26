import { courseWords } from '../../../src/words/course.ts';

export default function CourseScreen() {
  return <h1>{courseWords.title}</h1>;
}

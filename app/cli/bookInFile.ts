import type { Course } from '../../src/course/course.ts';
import type { RuleBook } from '../../src/course/rules/book.ts';
import { fci2023 } from '../../src/course/rules/fci2023.ts';

/** The rule book of a course that stands in a file: the worked one; a user's own lies in a library. */
export const bookInFile = ({ ruleBook }: Course): RuleBook | undefined =>
  ruleBook === fci2023.id ? fci2023 : undefined;

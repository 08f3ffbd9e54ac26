import { z } from 'zod';
import { CourseFile, courseFormat, courseVersion } from '../../../src/course/file/courseFile.ts';
import { RuleBook, ruleBookFormat, ruleBookVersion } from '../../../src/course/rules/book.ts';
import { DogFile, dogFormat, dogVersion } from '../../../src/line/dogFile.ts';
import { ReviewDocument, reviewFormat, reviewVersion } from '../../../src/review/document.ts';
import { cliWords } from '../../../src/words/cli.ts';
import type { Output } from '../output.ts';

/** Files that have a schema, by the name that the command line calls them. */
export type SchemaName = 'review' | 'course' | 'rules' | 'dog';

const files: Record<SchemaName, { schema: z.ZodType; format: string; version: number }> = {
  review: { schema: ReviewDocument, format: reviewFormat, version: reviewVersion },
  course: { schema: CourseFile, format: courseFormat, version: courseVersion },
  rules: { schema: RuleBook, format: ruleBookFormat, version: ruleBookVersion },
  dog: { schema: DogFile, format: dogFormat, version: dogVersion },
};

/** The JSON Schema (draft 2020-12) of a file, as it may be written by hand: defaults may be left out. */
export function schemaOf(name: SchemaName): Record<string, unknown> {
  const { schema, format, version } = files[name];
  const { $schema, ...rest } = z.toJSONSchema(schema, { io: 'input', target: 'draft-2020-12' });
  return {
    $schema,
    $id: `urn:${format.replaceAll('.', ':')}:${version}`,
    ...cliWords.schemas[name],
    ...rest,
  };
}

export function printSchema(name: SchemaName, out: Output): void {
  out.json(schemaOf(name));
}

import { z } from 'zod';
import { ReviewDocument, reviewFormat, reviewVersion } from '../../../src/review/document.ts';
import { cliWords } from '../../../src/words/cli.ts';
import type { Output } from '../output.ts';

/** The JSON Schema (draft 2020-12) of review files, as they may be written by hand: defaults may be left out. */
export function reviewSchema(): Record<string, unknown> {
  const { $schema, ...rest } = z.toJSONSchema(ReviewDocument, { io: 'input', target: 'draft-2020-12' });
  return {
    $schema,
    $id: `urn:${reviewFormat.replaceAll('.', ':')}:${reviewVersion}`,
    title: cliWords.schemaTitle,
    description: cliWords.schemaAbout,
    ...rest,
  };
}

export function printSchema(out: Output): void {
  out.json(reviewSchema());
}

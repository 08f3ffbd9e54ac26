import { readFile } from 'node:fs/promises';
import { hostTroubles } from '../words/hostTroubles.ts';
import type { Given } from './fileSource.ts';
import { trouble } from './troubles.ts';

/** The text of a file that was handed in. Throws `badInput` where it is no text in UTF-8. */
export async function givenText({ path, name }: Given): Promise<string> {
  const bytes = await readFile(path);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw trouble('badInput', hostTroubles.notText(name));
  }
}

import { libraryWords } from '../../../src/words/library.ts';

export default function LibraryScreen() {
  return <h1>{libraryWords.title}</h1>;
}

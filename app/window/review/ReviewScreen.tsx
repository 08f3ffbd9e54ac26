import { windowWords } from '../../../src/words/window.ts';

export default function ReviewScreen() {
  return <h1>{windowWords.screens.review}</h1>;
}

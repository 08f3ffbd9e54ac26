import { reportWords } from '../../../src/words/report.ts';

export default function ReportScreen() {
  return <h1>{reportWords.title}</h1>;
}

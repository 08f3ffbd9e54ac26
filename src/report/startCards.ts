import type { StayVerdict } from '../review/analysis.ts';
import { coachingReport as words } from '../words/coachingReport.ts';
import { startPartWords } from '../words/trade.ts';
import { staySentence, stayWords, waitingWords } from '../words/verdicts.ts';
import type { CardContext } from './crossCards.ts';
import { pawFigures } from './paws.ts';
import type { Picture } from './pictures.ts';
import { figureAt, sizedAt, type Line } from './pieces.ts';
import type { RunFacts } from './runFacts.ts';

export interface StartCard {
  readonly title: string | null;
  readonly verdict: StayVerdict;
  readonly verdictWords: string;
  readonly sentence: Line;
  readonly waiting: string;
  readonly figures: readonly { readonly label: string; readonly value: Line }[];
  readonly pictures: readonly { readonly what: string; readonly frame: string; readonly picture: Picture }[];
}

/** The tries at the start line, in their order. */
export function startCards(context: CardContext, { paws }: RunFacts): StartCard[] {
  const { analysis, pictures } = context;
  return analysis.startLine.map((t, i) => {
    const path = `startLine[${i}]`;
    const stay = t.stay ? figureAt(`${path}.stay`, t.stay) : null;
    const early = sizedAt(`${path}.early`, t.early);
    const said = staySentence(t.verdict, stay, early);
    const title = analysis.startLine.length > 1 || t.try > 1 ? words.tryNamed(t.try) : null;
    const under = [words.headings.startLine, ...(title === null ? [] : [title])].join(': ');
    return {
      title,
      verdict: t.verdict,
      verdictWords: stayWords[t.verdict],
      sentence: context.sentences.say(`start:${t.try}`, under, said),
      waiting: waitingWords(t),
      figures: [
        ...t.moments.map(({ part, moment }, k) => ({
          label: startPartWords[part],
          value: [
            figureAt(`${path}.moments[${k}].moment.at`, moment.at),
            ` ${words.onClock}, ${context.frame(moment)}`,
          ],
        })),
        ...pawFigures(paws, t.try),
      ],
      pictures: t.moments.flatMap(({ part, moment }) => {
        if (part !== 'step' && part !== 'release') return [];
        const frame = context.frame(moment);
        const picture = pictures.of(
          moment,
          words.stillOf(startPartWords[part], frame, words.headings.startLine),
          ['dog'],
        );
        return picture ? [{ what: startPartWords[part], frame, picture }] : [];
      }),
    };
  });
}

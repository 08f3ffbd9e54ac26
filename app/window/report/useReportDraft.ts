import { useMemo } from 'react';
import { buildReport } from '../../../src/report/model.ts';
import { lineText } from '../../../src/report/pieces.ts';
import type { OpenSentence } from '../../../src/report/ownWords.ts';
import type { Analysis } from '../../../src/review/analysis.ts';
import type { ReviewState } from '../../../src/review/entities.ts';
import { coachingReport } from '../../../src/words/coachingReport.ts';
import { startPartWords } from '../../../src/words/trade.ts';
import { useAnalysis, usePreferences, useReview } from '../stores/react.ts';

/** The report as it would be written now, as far as the coach has a hand in it. */
export interface ReportDraft {
  readonly state: ReviewState;
  readonly analysis: Analysis;
  readonly sentences: readonly OpenSentence[];
  /** What it would say went well by itself. */
  readonly facts: readonly string[];
  /** What each still shows, by the id of its mark. */
  readonly named: ReadonlyMap<string, string>;
}

/** null while there is nothing to analyse. */
export function useReportDraft(): ReportDraft | null {
  const state = useReview((view) => view.state);
  const analysis = useAnalysis();
  const dialect = usePreferences((p) => p.dialect);
  return useMemo(() => {
    if (!state || !analysis) return null;
    // What the coach has written of what went well would stand in the way of what the marks say.
    const bare = {
      ...state,
      header: { ...state.header, words: { ...state.header.words, wentWell: '' } },
    };
    const report = buildReport({ review: bare, analysis, dialect, clips: [], stills: new Map() });
    const named = new Map<string, string>();
    report.crosses.forEach((card) => {
      for (const m of card.moments) named.set(m.markId, `${lineText(card.title)}: ${m.what}`);
    });
    for (const t of analysis.startLine) {
      for (const { part, moment } of t.moments)
        named.set(moment.markId, `${coachingReport.headings.startLine}: ${startPartWords[part]}`);
    }
    return {
      state,
      analysis,
      named,
      sentences: report.sentences,
      facts: report.wentWell.facts.map(lineText),
    };
  }, [state, analysis, dialect]);
}

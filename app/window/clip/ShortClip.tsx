import { Clapperboard } from 'lucide-react';
import { shortClip } from '../../../src/report/clip/ideas.ts';
import { withAngles } from '../../../src/review/angles.ts';
import { clipWords } from '../../../src/words/clip.ts';
import { useActs } from '../keys/useActs.ts';
import { Button } from '../look/Button.tsx';
import { useAnalysis, useReview } from '../stores/react.ts';
import { subjectOf, usualChoices, wishOf } from './choices.ts';
import { ClipQueue } from './ClipQueue.tsx';
import styles from './ShortClip.module.css';
import { useMakeClip } from './useMakeClip.ts';

const words = clipWords.short;

/** One act: a short clip with what the run says to work on, slowed, held and told; and the clips being made. */
export function ShortClip() {
  const analysis = useAnalysis();
  const review = useReview((v) => v.state);
  const given = useReview((v) => v.clocks);
  const make = useMakeClip();
  const idea =
    review && analysis ? shortClip({ review, analysis, clocks: withAngles(given, review.footage) }) : null;
  const subject = idea && review ? subjectOf(review.id, idea) : null;
  const act = subject ? () => void make(wishOf(subject, usualChoices(subject)), subject.kind) : undefined;
  useActs({ 'clip.short': act });
  return (
    <section className={styles['short']}>
      <h2>{words.title}</h2>
      <p className={styles['soft']}>{idea ? words.intro(idea.freezes.length) : clipWords.nothingMarked}</p>
      {act && (
        <Button icon={<Clapperboard aria-hidden />} act="clip.short" onClick={act}>
          {clipWords.acts.short}
        </Button>
      )}
      <ClipQueue />
    </section>
  );
}

import type { OpenSentence } from '../../../src/report/ownWords.ts';
import { noSays, type OwnWords } from '../../../src/review/coachSays.ts';
import { reportWords } from '../../../src/words/report.ts';
import { Button } from '../look/Button.tsx';
import { KeptArea } from '../look/Field.tsx';
import { useHeader } from '../stores/header.ts';
import styles from './Sentences.module.css';

const words = reportWords.sentences;

/** Every sentence that the report would say of crosses and starts, for the coach to put in her own words. */
export function Sentences({ sentences }: { readonly sentences: readonly OpenSentence[] }) {
  const { header, change } = useHeader();
  const says = header.report ?? noSays;
  const keep = (of: string, own: OwnWords | null): void => {
    const others = says.own.filter((o) => o.of !== of);
    change(words.act, { report: { ...says, own: own ? [...others, own] : others } });
  };
  return (
    <section className={styles['part']}>
      <h2>{words.title}</h2>
      <p className={styles['soft']}>{sentences.length === 0 ? words.none : words.intro}</p>
      {sentences.map(({ of, title, ours, own }) => (
        <div key={of} className={styles['one']}>
          <KeptArea
            label={title}
            rows={2}
            maxLength={2000}
            {...(own && own.instead !== ours ? { hint: words.changed(ours) } : {})}
            value={own?.text ?? ours}
            onKeep={(text) => {
              keep(of, text === ours ? null : { of, text, instead: ours });
            }}
          />
          {own && (
            <Button
              kind="quiet"
              aria-label={words.asMeasuredOf(title)}
              onClick={() => {
                keep(of, null);
              }}
            >
              {words.asMeasured}
            </Button>
          )}
        </div>
      ))}
    </section>
  );
}

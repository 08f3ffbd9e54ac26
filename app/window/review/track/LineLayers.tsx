import type { RealLineLook } from '../../../../src/host/contract/looks.ts';
import { realLineWords } from '../../../../src/words/realLine.ts';
import { speedShades } from '../../../../src/look/tokens.ts';
import { Choice } from '../../look/Field.tsx';
import { usePreferences, useWorkbench } from '../../stores/react.ts';
import { useLines } from '../DeskContext.ts';
import { speedRange } from '../../../../src/track/drawn.ts';
import styles from './LinePage.module.css';
import { useWantedLine } from './useExpectedLines.ts';

const words = realLineWords.layers;

/** Which lines lie over footage and map, and how speed is told along hers. */
export function LineLayers() {
  const { preferences } = useWorkbench();
  const look = usePreferences((p) => p.realLine);
  const wanted = useWantedLine();
  const handler = useLines((v) => v.lines.handler?.line);
  const change = (part: Partial<RealLineLook>): void => {
    void preferences.change({ realLine: { ...look, ...part } });
  };
  const rows: readonly (readonly ['dog' | 'band' | 'handler' | 'wanted' | 'likely', boolean])[] = [
    ['dog', true],
    ['band', true],
    ['handler', handler !== null && handler !== undefined],
    ['wanted', wanted !== null],
    ['likely', true],
  ];
  return (
    <section className={styles['part']} aria-label={words.title}>
      <h3>{words.title}</h3>
      <ul className={styles['layers']}>
        {rows.map(([name, there]) => (
          <li key={name}>
            <label className={styles['layer']}>
              <input
                type="checkbox"
                checked={look[name]}
                onChange={(event) => {
                  change({ [name]: event.target.checked });
                }}
              />
              <span className={styles['swatch']} data-line={name} data-speed={look.speed} aria-hidden />
              {words[name]}
              {!there && <span className={styles['soft']}> {words.none[name as 'handler' | 'wanted']}</span>}
            </label>
          </li>
        ))}
      </ul>
      <Choice
        label={words.speed}
        value={look.speed}
        options={[
          ['shade', words.shade],
          ['width', words.width],
          ['plain', words.plain],
        ]}
        onChange={(speed) => {
          change({ speed });
        }}
      />
      <Choice
        label={words.over}
        value={look.over}
        options={[
          ['near', words.near],
          ['whole', words.wholeRun],
        ]}
        onChange={(over) => {
          change({ over });
        }}
      />
      {look.speed !== 'plain' && <Scale as={look.speed} />}
    </section>
  );
}

function Scale({ as }: { readonly as: 'shade' | 'width' }) {
  const samples = useLines((v) => v.samples.dog);
  if (samples.length === 0) return null;
  const { from, to } = speedRange(samples);
  return (
    <div className={styles['scale']} aria-label={words.scale(from, to)} role="img">
      <span>{from}</span>
      <span className={styles['steps']}>
        {speedShades.map((_, i) => (
          <i
            key={i}
            style={as === 'shade' ? { background: `var(--speed-${i})` } : { height: `${2 + i * 1.5}px` }}
          />
        ))}
      </span>
      <span>{words.perSecond(to)}</span>
    </div>
  );
}

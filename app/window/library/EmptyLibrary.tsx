import type { ReactNode } from 'react';
import { libraryWords } from '../../../src/words/library.ts';
import styles from './EmptyLibrary.module.css';

const words = libraryWords.empty;

/** What belongs in an empty library, and how it gets there. */
export function EmptyLibrary({ children }: { readonly children: ReactNode }) {
  return (
    <section className={styles['empty']}>
      <Picture />
      <h2>{words.title}</h2>
      <p>{words.text}</p>
      <p>{words.drop}</p>
      {children}
      <p className={styles['soft']}>{words.kept}</p>
    </section>
  );
}

/** A run as a line with numbered posts: a drawing, not a figure. */
function Picture() {
  const posts = [
    [40, 74],
    [120, 46],
    [206, 66],
    [288, 30],
  ] as const;
  return (
    <svg className={styles['picture']} viewBox="0 -12 330 122" aria-hidden>
      <path
        className={styles['line']}
        d="M8 96 C 24 84, 30 78, 40 74 S 96 42, 120 46 S 176 82, 206 66 S 262 20, 288 30 S 316 40, 324 36"
      />
      {posts.map(([x, y], i) => (
        <g key={x}>
          <path className={styles['post']} d={`M${x} ${y} v-22`} />
          <circle className={styles['board']} cx={x} cy={y - 24} r="11" />
          <text className={styles['number']} x={x} y={y - 19}>
            {i + 1}
          </text>
        </g>
      ))}
    </svg>
  );
}

import { settingsWords as words } from '../../../src/words/settings.ts';
import { Choice } from '../look/Field.tsx';
import { usePreferences, useWorkbench } from '../stores/react.ts';
import { About } from './About.tsx';
import { Copies } from './Copies.tsx';
import { Exercises } from './Exercises.tsx';
import { Folders } from './Folders.tsx';
import { KeySettings } from './KeySettings.tsx';
import { Licences } from './Licences.tsx';
import { ReadingSettings } from './ReadingSettings.tsx';
import { RuleBooks } from './RuleBooks.tsx';
import styles from './SettingsScreen.module.css';

/** Settings: look, words, what a course is read by, rule books, keys, folders, and what this program is. */
export default function SettingsScreen() {
  const { preferences } = useWorkbench();
  const theme = usePreferences((p) => p.theme);
  const dialect = usePreferences((p) => p.dialect);
  const lengths = usePreferences((p) => p.lengths);
  return (
    <div className={styles['screen']}>
      <h1>{words.title}</h1>
      <div className={styles['columns']}>
        <div className={styles['column']}>
          <section className={styles['section']}>
            <h2>{words.look.title}</h2>
            <Choice
              label={words.look.theme}
              value={theme}
              options={[
                ['system', words.look.themes.system],
                ['paper', words.look.themes.paper],
                ['dark', words.look.themes.dark],
              ]}
              onChange={(chosen) => void preferences.change({ theme: chosen })}
            />
          </section>
          <section className={styles['section']}>
            <h2>{words.words.title}</h2>
            <Choice
              label={words.words.dialect}
              value={dialect}
              options={[
                ['british', words.words.dialects.british],
                ['american', words.words.dialects.american],
              ]}
              onChange={(chosen) => void preferences.change({ dialect: chosen })}
            />
            <Choice
              label={words.words.lengths}
              value={lengths}
              options={[
                ['metres', words.words.units.metres],
                ['feet', words.words.units.feet],
              ]}
              onChange={(chosen) => void preferences.change({ lengths: chosen })}
            />
          </section>
          <ReadingSettings />
          <Exercises />
          <RuleBooks />
          <Copies />
          <Folders />
          <About />
          <Licences />
        </div>
        <KeySettings />
      </div>
    </div>
  );
}

import { settingsWords } from '../../../src/words/settings.ts';

export default function SettingsScreen() {
  return <h1>{settingsWords.title}</h1>;
}

import { cssVariables, type ThemeName } from '../../../src/look/tokens.ts';
import type { Preferences } from '../../../src/host/contract/shapes.ts';

const dark = window.matchMedia('(prefers-color-scheme: dark)');
const sheet = new CSSStyleSheet();

/** The theme that a preference means now. */
export const themeOf = (preference: Preferences['theme']): ThemeName =>
  preference === 'system' ? (dark.matches ? 'dark' : 'paper') : preference;

/**
 * Puts the theme on the window and follows the system where the preference says so. The variables come in as a
 * constructed sheet, which a content security policy without inline styles allows. Returns the way to stop.
 */
export function wearTheme(preference: Preferences['theme']): () => void {
  const put = (): void => {
    const theme = themeOf(preference);
    sheet.replaceSync(
      `:root { color-scheme: ${theme === 'dark' ? 'dark' : 'light'}; ${cssVariables(theme)} }`,
    );
    document.documentElement.dataset['theme'] = theme;
  };
  if (!document.adoptedStyleSheets.includes(sheet)) {
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
  }
  put();
  dark.addEventListener('change', put);
  return () => {
    dark.removeEventListener('change', put);
  };
}

import { useEffect, useState } from 'react';
import type { ThemeName } from '../../../src/look/tokens.ts';
import { themeOf } from './theme.ts';
import { usePreferences } from '../stores/react.ts';

const systemDark = window.matchMedia('(prefers-color-scheme: dark)');

/** The theme that is worn now, for what is painted on a canvas. */
export function useTheme(): ThemeName {
  const preference = usePreferences((p) => p.theme);
  const [, turned] = useState(0);
  useEffect(() => {
    const on = (): void => {
      turned((n) => n + 1);
    };
    systemDark.addEventListener('change', on);
    return () => {
      systemDark.removeEventListener('change', on);
    };
  }, []);
  return themeOf(preference);
}

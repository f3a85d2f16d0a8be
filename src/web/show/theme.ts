/** Light sheet, dark sheet, or whichever the machine prefers. */
import { create } from 'zustand';

export type Theme = 'as the machine' | 'light' | 'dark';
export const themes: readonly Theme[] = ['as the machine', 'light', 'dark'];

const PLACE = 'stopwright light';

export const useTheme = create<{ readonly theme: Theme }>()(() => ({ theme: remembered() }));

export function chooseTheme(theme: Theme): void {
  useTheme.setState({ theme });
  try {
    localStorage.setItem(PLACE, theme);
  } catch {
    // The choice then holds for this visit only.
  }
}

/** Puts the choice on the page's root, where the colours hang. */
export function followTheme(): void {
  const darkMachine = window.matchMedia('(prefers-color-scheme: dark)');
  const apply = () => {
    const { theme } = useTheme.getState();
    document.documentElement.dataset['theme'] =
      theme === 'dark' || (theme !== 'light' && darkMachine.matches) ? 'dark' : 'light';
  };
  darkMachine.addEventListener('change', apply);
  useTheme.subscribe(apply);
  apply();
}

function remembered(): Theme {
  try {
    return themes.find((theme) => theme === localStorage.getItem(PLACE)) ?? 'as the machine';
  } catch {
    return 'as the machine';
  }
}

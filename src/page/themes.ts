/** Light, dark, and the contrast that sunlight asks for: what the device says unless a person chose. */

import { button, el, mark } from './dom.js';

const THEMES = ['light', 'dark', 'sun'] as const;
type Theme = (typeof THEMES)[number];
const CALLED: Readonly<Record<Theme, string>> = { light: 'Light', dark: 'Dark', sun: 'Sunlight' };
const KEPT = 'berth contrast';

/** @param changed is told when the colours are others. */
export function themeButtons(changed: () => void): HTMLElement {
  const show = (theme: Theme) => {
    document.documentElement.dataset['theme'] = theme;
    made.forEach(({ name, press }) => mark(press, 'aria-pressed', String(name === theme)));
    changed();
  };
  const made = THEMES.map((name) => ({
    name,
    press: button(CALLED[name], () => {
      keep(name);
      show(name);
    }),
  }));
  show(kept() ?? asked());
  return el(
    'div',
    { class: 'themes', attrs: { role: 'group', 'aria-label': 'Contrast' } },
    ...made.map(({ press }) => press),
  );
}

function asked(): Theme {
  if (window.matchMedia('(prefers-contrast: more)').matches) return 'sun';
  return window.matchMedia('(prefers-color-scheme: dark)').matches ? 'dark' : 'light';
}

/** A page from a file may have no place to keep it. */
function kept(): Theme | undefined {
  try {
    const name = window.localStorage.getItem(KEPT);
    return THEMES.find((one) => one === name);
  } catch {
    return undefined;
  }
}

function keep(theme: Theme): void {
  try {
    window.localStorage.setItem(KEPT, theme);
  } catch {
    return;
  }
}

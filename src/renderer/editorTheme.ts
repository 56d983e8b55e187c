import type { Theme, ThemeName } from '../charts/theme.ts';
import { fittedTheme } from './colours.ts';

/** The editor's theme as the page shows it: classes and data attributes of the body, CSS variables of the root. */

/** The theme of the moment. */
export function currentTheme(): Theme {
  const style = getComputedStyle(document.documentElement);
  const variable = (...names: readonly string[]): string =>
    names.map((name) => style.getPropertyValue(`--vscode-${name}`).trim()).find((value) => value !== '') ?? '';
  return fittedTheme({
    name: themeName(),
    background: variable('notebook-outputContainerBackgroundColor', 'notebook-editorBackground', 'editor-background'),
    foreground: variable('editor-foreground', 'foreground'),
    secondary: variable('descriptionForeground'),
    font: variable('font-family'),
  });
}

function themeName(): ThemeName {
  const { body } = document;
  const kind = body.dataset['vscodeThemeKind'] ?? '';
  const is = (name: string): boolean => kind === name || body.classList.contains(name);
  if (is('vscode-high-contrast-light')) return 'high-contrast-light';
  if (is('vscode-high-contrast')) return 'high-contrast';
  if (is('vscode-light')) return 'light';
  return is('vscode-dark') || matchMedia('(prefers-color-scheme: dark)').matches ? 'dark' : 'light';
}

/** Calls back, once a frame at most, whenever the theme changes; gives the way to stop. */
export function watchTheme(changed: () => void): () => void {
  let frame = 0;
  const soon = (): void => {
    cancelAnimationFrame(frame);
    frame = requestAnimationFrame(changed);
  };
  const observer = new MutationObserver(soon);
  observer.observe(document.body, {
    attributes: true,
    attributeFilter: ['class', 'data-vscode-theme-kind', 'data-vscode-theme-id'],
  });
  // The variables stand in the root's style attribute, and may follow the body's attributes.
  observer.observe(document.documentElement, { attributes: true, attributeFilter: ['style', 'class'] });
  return () => {
    cancelAnimationFrame(frame);
    observer.disconnect();
  };
}

import { element } from './element.ts';

/** The renderer's style sheet: the editor's variables, with values for pages that have none. */
const css = `
.washboard-output { color: var(--vscode-editor-foreground, CanvasText); font-family: var(--vscode-font-family, system-ui, sans-serif); font-size: var(--vscode-font-size, 13px); line-height: 1.45; }
.washboard-output > * { margin: 0 0 10px; }
.washboard-output > *:last-child { margin-bottom: 4px; }
.washboard-text { white-space: pre-line; }
.washboard-chart { position: relative; width: 100%; }
.washboard-title { margin: 0 0 4px 6px; }
.washboard-subtitle { display: block; color: var(--vscode-descriptionForeground, inherit); font-size: 0.9em; max-width: 110ch; }
.washboard-picture { overflow-x: auto; }
.washboard-chart svg { display: block; }
.washboard-words { color: var(--vscode-descriptionForeground, inherit); font-size: 0.92em; }
.washboard-words p { margin: 4px 0 0; max-width: 80ch; }
.washboard-words summary { cursor: pointer; width: fit-content; }
.washboard-scroll { overflow-x: auto; }
.washboard-table { border-collapse: collapse; font-variant-numeric: tabular-nums; }
.washboard-table caption { text-align: left; font-weight: 600; padding: 0 0 4px; caption-side: top; white-space: normal; }
.washboard-table th, .washboard-table td { padding: 2px 10px; text-align: left; vertical-align: top; border-bottom: 1px solid var(--vscode-editorWidget-border, color-mix(in srgb, currentColor 22%, transparent)); white-space: nowrap; }
.washboard-table .washboard-long { white-space: normal; min-width: 32ch; max-width: 70ch; }
.washboard-table thead th { font-weight: 600; border-bottom: 1px solid currentColor; }
.washboard-table tbody th { font-weight: 400; }
.washboard-table .washboard-right { text-align: right; }
.washboard-unit { font-weight: 400; color: var(--vscode-descriptionForeground, inherit); }
.washboard-message { padding: 4px 10px; border-left: 3px solid currentColor; }
.washboard-error { border-left-color: var(--vscode-editorError-foreground, #c72e0f); }
.washboard-warning { border-left-color: var(--vscode-editorWarning-foreground, #b58900); }
.washboard-note { border-left-color: var(--vscode-editorInfo-foreground, #0063d3); }
.washboard-where, .washboard-code { margin-left: 6px; color: var(--vscode-descriptionForeground, inherit); font-size: 0.92em; }
.washboard-code { margin-left: 6px; font-family: var(--vscode-editor-font-family, monospace); background: none; }
.washboard-tooltip { position: fixed; z-index: 10; pointer-events: none; white-space: pre-line; padding: 4px 8px; font-size: 12px; max-width: 420px;
  color: var(--vscode-editorHoverWidget-foreground, CanvasText); background: var(--vscode-editorHoverWidget-background, Canvas); border: 1px solid var(--vscode-editorHoverWidget-border, currentColor); }
.washboard-tooltip[hidden] { display: none; }
.washboard-picture:focus-visible, .washboard-scroll:focus-visible, .washboard-words summary:focus-visible { outline: 2px solid var(--vscode-focusBorder, Highlight); outline-offset: 2px; }
`;

/** Puts the style sheet into the page, once. */
export function addStyle(): void {
  if (document.getElementById('washboard-style') !== null) return;
  const style = element('style', '', css);
  style.id = 'washboard-style';
  document.head.append(style);
}

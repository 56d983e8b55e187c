import { element } from './element.ts';

/** The renderer's style sheet: the editor's variables, with values for pages that have none. */
const css = `
.washboard-output { color: var(--vscode-editor-foreground, CanvasText); font-family: var(--vscode-font-family, system-ui, sans-serif); font-size: var(--vscode-font-size, 13px); line-height: 1.45; }
.washboard-output > * { margin: 0 0 14px; }
.washboard-output > *:last-child { margin-bottom: 4px; }
.washboard-text { max-width: 110ch; }
.washboard-text p { margin: 0 0 3px; }
.washboard-lead { font-size: 1.08em; font-weight: 600; }
.washboard-aside, .washboard-reach { color: var(--vscode-descriptionForeground, inherit); font-size: 0.92em; }
.washboard-plain { margin: 0; padding: 6px 10px; overflow-x: auto; font-family: var(--vscode-editor-font-family, monospace); font-size: 0.95em; user-select: text; border: 1px solid var(--vscode-editorWidget-border, color-mix(in srgb, currentColor 22%, transparent)); }
.washboard-chart { position: relative; width: 100%; }
.washboard-title { margin: 0 0 4px; }
.washboard-subtitle { display: block; color: var(--vscode-descriptionForeground, inherit); font-size: 0.92em; max-width: 120ch; }
.washboard-picture { overflow-x: auto; position: relative; }
.washboard-coming { position: absolute; visibility: hidden; }
.washboard-chart svg { display: block; }
.washboard-chart .mark-path path { shape-rendering: crispEdges; }
.washboard-words { color: var(--vscode-descriptionForeground, inherit); font-size: 0.92em; }
.washboard-words p { margin: 4px 0 0; max-width: 80ch; }
.washboard-output summary { cursor: pointer; width: fit-content; }
.washboard-folded > summary { font-weight: 600; }
.washboard-folded > *:nth-child(2) { margin-top: 6px; }
.washboard-figure { margin-inline: 0; }
.washboard-caption { font-weight: 600; margin: 0 0 4px; max-width: 110ch; }
/* A shade at the side on which there is more: the covers move with the table, the shades stay. */
.washboard-scroll { overflow-x: auto; background: linear-gradient(to right, var(--vscode-notebook-outputContainerBackgroundColor, var(--vscode-editor-background, Canvas)) 30%, transparent) left / 36px 100%, linear-gradient(to left, var(--vscode-notebook-outputContainerBackgroundColor, var(--vscode-editor-background, Canvas)) 30%, transparent) right / 36px 100%, linear-gradient(to right, color-mix(in srgb, currentColor 30%, transparent), transparent) left / 12px 100%, linear-gradient(to left, color-mix(in srgb, currentColor 30%, transparent), transparent) right / 12px 100%; background-repeat: no-repeat; background-attachment: local, local, scroll, scroll; }
.washboard-tall { max-height: 460px; overflow-y: auto; }
.washboard-tall thead th { position: sticky; top: 0; background: var(--vscode-notebook-outputContainerBackgroundColor, var(--vscode-editor-background, Canvas)); }
.washboard-table { border-collapse: collapse; font-variant-numeric: tabular-nums; }
.washboard-table th, .washboard-table td { padding: 2px 9px; text-align: left; vertical-align: top; border-bottom: 1px solid var(--vscode-editorWidget-border, color-mix(in srgb, currentColor 22%, transparent)); white-space: nowrap; }
.washboard-table .washboard-long { white-space: normal; min-width: 32ch; max-width: 70ch; }
.washboard-table thead th { font-weight: 600; border-bottom: 1px solid currentColor; white-space: normal; vertical-align: bottom; max-width: 20ch; }
.washboard-table tbody th { font-weight: 400; }
.washboard-table .washboard-right { text-align: right; }
.washboard-unit { font-weight: 400; color: var(--vscode-descriptionForeground, inherit); white-space: nowrap; }
.washboard-message { padding: 4px 10px; border-left: 3px solid currentColor; max-width: 120ch; }
.washboard-output > .washboard-message, .washboard-folded > .washboard-message { margin: 0 0 8px; }
.washboard-error { border-left-color: var(--vscode-editorError-foreground, #c72e0f); }
.washboard-warning { border-left-color: var(--vscode-editorWarning-foreground, #b58900); }
.washboard-note { border-left-color: var(--vscode-editorInfo-foreground, #0063d3); }
.washboard-link { font: inherit; padding: 0; border: 0; background: none; text-align: start; cursor: pointer; }
.washboard-output:not(.washboard-takable) .washboard-link { pointer-events: none; }
.washboard-link:hover, .washboard-link:focus-visible { text-decoration: underline; }
.washboard-where, .washboard-code { margin-left: 6px; color: var(--vscode-descriptionForeground, inherit); font-size: 0.92em; }
.washboard-takable .washboard-link { color: var(--vscode-textLink-foreground, LinkText); }
.washboard-code, .washboard-word { font-family: var(--vscode-editor-font-family, monospace); background: none; }
.washboard-word { color: inherit; }
.washboard-button { font: inherit; font-size: 0.92em; padding: 1px 9px; cursor: pointer; border-radius: 2px; color: var(--vscode-button-foreground, ButtonText); background: var(--vscode-button-background, ButtonFace); border: 1px solid var(--vscode-button-border, var(--vscode-contrastBorder, transparent)); }
.washboard-button:hover { background: var(--vscode-button-hoverBackground, ButtonFace); }
.washboard-why { display: flex; flex-wrap: wrap; align-items: center; gap: 4px 12px; padding: 3px 10px; border-left: 3px solid var(--vscode-editorWarning-foreground, #b58900); }
.washboard-stale > :not(.washboard-why) { opacity: 0.5; }
.washboard-stale > :not(.washboard-why):is(:hover, :focus-within) { opacity: 0.8; }
.vscode-high-contrast .washboard-stale > :not(.washboard-why) { opacity: 0.7; }
.washboard-figure, .washboard-folded, .washboard-text { position: relative; }
.washboard-taking { display: none; }
.washboard-output:has(.washboard-menu:not([hidden])) { min-height: 150px; }
.washboard-takable .washboard-taking { display: flex; gap: 8px; align-items: center; position: absolute; top: -3px; right: 0; z-index: 3; font-size: 13px; font-weight: 400; }
.washboard-takable .washboard-title, .washboard-takable .washboard-caption, .washboard-takable .washboard-text:has(> .washboard-taking) { padding-right: 36px; }
.washboard-more { font: inherit; line-height: 18px; padding: 0 7px 2px; cursor: pointer; border-radius: 4px; color: var(--vscode-icon-foreground, ButtonText); background: transparent; border: 1px solid var(--vscode-contrastBorder, transparent); opacity: 0.75; }
.washboard-more:hover, .washboard-more:focus-visible, .washboard-more[aria-expanded='true'] { opacity: 1; background: var(--vscode-toolbar-hoverBackground, ButtonFace); }
.washboard-menu { position: absolute; top: 100%; right: 0; margin-top: 2px; padding: 4px 0; min-width: 190px; border-radius: 4px; color: var(--vscode-menu-foreground, CanvasText); background: var(--vscode-menu-background, Canvas);
  border: 1px solid var(--vscode-menu-border, var(--vscode-contrastBorder, currentColor)); box-shadow: 0 2px 8px var(--vscode-widget-shadow, transparent); }
.washboard-menu[hidden] { display: none; }
.washboard-entry { display: block; width: 100%; font: inherit; text-align: left; white-space: nowrap; padding: 3px 16px; cursor: pointer; color: inherit; background: none; border: none; }
.washboard-entry:hover, .washboard-entry:focus { color: var(--vscode-menu-selectionForeground, inherit); background: var(--vscode-menu-selectionBackground, transparent); outline: 1px solid var(--vscode-menu-selectionBorder, var(--vscode-contrastActiveBorder, transparent)); outline-offset: -1px; }
.washboard-said { color: var(--vscode-descriptionForeground, inherit); background: var(--vscode-notebook-outputContainerBackgroundColor, var(--vscode-editor-background, Canvas)); }
.washboard-tooltip { position: fixed; z-index: 10; pointer-events: none; white-space: pre-line; padding: 4px 8px; font-size: 12px; max-width: 420px;
  color: var(--vscode-editorHoverWidget-foreground, CanvasText); background: var(--vscode-editorHoverWidget-background, Canvas); border: 1px solid var(--vscode-editorHoverWidget-border, currentColor); }
.washboard-tooltip[hidden] { display: none; }
.washboard-drawing:focus-visible, .washboard-scroll:focus-visible, .washboard-plain:focus-visible, .washboard-output summary:focus-visible, .washboard-button:focus-visible, .washboard-link:focus-visible, .washboard-more:focus-visible { outline: 2px solid var(--vscode-focusBorder, Highlight); outline-offset: 2px; }
`;

/** Puts the style sheet into the page, once. */
export function addStyle(): void {
  if (document.getElementById('washboard-style') !== null) return;
  const style = element('style', '', css);
  style.id = 'washboard-style';
  document.head.append(style);
}

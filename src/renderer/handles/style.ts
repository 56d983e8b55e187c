import { element } from '../element.ts';

/** Plain sliders in the editor's own colours; in forced colours the system's. */
const css = `
:root { --washboard-focus: var(--vscode-focusBorder, Highlight); --washboard-ink: var(--vscode-editor-foreground, CanvasText);
  --washboard-ground: var(--vscode-notebook-outputContainerBackgroundColor, var(--vscode-editor-background, Canvas)); }
.washboard-layer { position: absolute; inset: 0; pointer-events: none; overflow: hidden; }
.washboard-span { position: absolute; display: none; background: color-mix(in srgb, var(--washboard-focus) 16%, transparent); }
.washboard-moved > .washboard-span { display: block; }
.washboard-handle { position: absolute; width: 15px; margin-left: -7px; pointer-events: auto; cursor: ew-resize; touch-action: none; outline: none; }
.washboard-handle::before { content: ''; position: absolute; left: 6px; top: 0; bottom: 0; width: 0; border-left: 2px solid var(--washboard-focus); opacity: 0.75; }
.washboard-handle::after { content: ''; position: absolute; left: 1px; top: var(--washboard-grip, 0px); width: 11px; height: 17px; border-radius: 3px; box-sizing: border-box;
  background: var(--vscode-button-background, ButtonFace); border: 1px solid var(--vscode-button-border, var(--vscode-contrastBorder, var(--vscode-button-foreground, ButtonText))); }
.washboard-handle:hover::before, .washboard-handle:focus::before { opacity: 1; }
.washboard-handle:focus-visible::after, .washboard-held::after { outline: 2px solid var(--washboard-focus); outline-offset: 1px; }
.washboard-held { z-index: 1; }
.washboard-locked { cursor: not-allowed; }
.washboard-locked::before { border-left-style: dotted; border-left-color: var(--washboard-ink); }
.washboard-locked::after { background: var(--vscode-editor-background, Canvas); border-color: var(--washboard-ink); border-style: dotted; }
.washboard-says { position: absolute; z-index: 2; padding: 1px 6px; font-size: 12px; white-space: nowrap; pointer-events: none; font-variant-numeric: tabular-nums;
  color: var(--vscode-editorHoverWidget-foreground, CanvasText); background: var(--vscode-editorHoverWidget-background, Canvas); border: 1px solid var(--vscode-editorHoverWidget-border, currentColor); }
.washboard-refused { margin: 4px 0 0; }
.washboard-picture svg { touch-action: pan-y; user-select: none; }
.washboard-picture.washboard-panned, .washboard-picture.washboard-panned svg * { cursor: grabbing; }
.washboard-hair { position: absolute; width: 1px; outline: none; }
.washboard-hair.washboard-placed { border-left: 1px solid var(--washboard-ink); }
.washboard-hair:focus-visible { outline: 2px solid var(--washboard-focus); outline-offset: 2px; }
.washboard-across { position: absolute; border-top: 1px solid var(--washboard-ink); }
.washboard-other { position: absolute; border-left: 1px dashed var(--washboard-ink); }
.washboard-chosen { position: absolute; background: color-mix(in srgb, var(--vscode-editor-selectionBackground, Highlight) 45%, transparent); border: 1px solid var(--vscode-contrastActiveBorder, transparent); border-width: 1px 0; box-sizing: border-box; }
.vscode-high-contrast .washboard-chosen, .vscode-high-contrast-light .washboard-chosen { background: color-mix(in srgb, var(--vscode-editor-selectionBackground, Highlight) 20%, transparent); }
.washboard-reading { max-width: 70%; overflow: hidden; }
.washboard-reading > div { overflow: hidden; text-overflow: ellipsis; }
.washboard-reading > div:first-child { font-weight: 600; }
.washboard-switch { position: absolute; pointer-events: auto; cursor: pointer; padding: 0; border: none; border-radius: 2px; background: transparent; }
.washboard-switch:hover { background: var(--vscode-toolbar-hoverBackground, transparent); outline: 1px dashed var(--vscode-toolbar-hoverOutline, transparent); }
.washboard-switch:focus-visible { outline: 2px solid var(--washboard-focus); }
.washboard-switch[aria-checked='false'] { background: color-mix(in srgb, var(--washboard-ground) 65%, transparent); }
.washboard-switch[aria-checked='false']::after { content: ''; position: absolute; left: 0; right: 0; top: 50%; border-top: 1px solid var(--washboard-ink); }
.washboard-closer { position: absolute; top: -3px; right: 44px; z-index: 3; display: flex; align-items: center; gap: 8px; padding: 0 0 0 8px; font-size: 12px; font-variant-numeric: tabular-nums; color: var(--washboard-ink); background: var(--washboard-ground); }
.washboard-closer[hidden], .washboard-ground [hidden], .washboard-legend[hidden], .washboard-switch[hidden], .washboard-ground[hidden] { display: none; }
.washboard-closer .washboard-button[aria-pressed='false'] { color: var(--vscode-button-secondaryForeground, ButtonText); background: var(--vscode-button-secondaryBackground, ButtonFace); }
.washboard-choices { z-index: 4; font-size: 13px; }
.washboard-about { padding: 2px 16px 4px; font-weight: 600; font-variant-numeric: tabular-nums; white-space: nowrap; }
.washboard-entry .washboard-aside { color: inherit; opacity: 0.75; padding-left: 8px; }
.washboard-entry[aria-disabled='true'] { cursor: default; opacity: 0.6; }
`;

const styleId = 'washboard-handle-style';

/** Puts it into the page, once. */
export function addHandleStyle(): void {
  if (document.getElementById(styleId) !== null) return;
  const style = element('style', '', css);
  style.id = styleId;
  document.head.append(style);
}

import { element } from '../element.ts';

/** Plain sliders in the editor's own colours; in forced colours the system's. */
const css = `
.washboard-layer { position: absolute; inset: 0; pointer-events: none; overflow: hidden; }
.washboard-span { position: absolute; display: none; background: color-mix(in srgb, var(--vscode-focusBorder, Highlight) 16%, transparent); }
.washboard-moved > .washboard-span { display: block; }
.washboard-handle { position: absolute; width: 15px; margin-left: -7px; pointer-events: auto; cursor: ew-resize; touch-action: none; outline: none; }
.washboard-handle::before { content: ''; position: absolute; left: 6px; top: 0; bottom: 0; width: 0; border-left: 2px solid var(--vscode-focusBorder, Highlight); opacity: 0.75; }
.washboard-handle::after { content: ''; position: absolute; left: 1px; top: var(--washboard-grip, 0px); width: 11px; height: 17px; border-radius: 3px; box-sizing: border-box;
  background: var(--vscode-button-background, ButtonFace); border: 1px solid var(--vscode-button-border, var(--vscode-contrastBorder, var(--vscode-button-foreground, ButtonText))); }
.washboard-handle:hover::before, .washboard-handle:focus::before { opacity: 1; }
.washboard-handle:focus-visible::after, .washboard-held::after { outline: 2px solid var(--vscode-focusBorder, Highlight); outline-offset: 1px; }
.washboard-held { z-index: 1; }
.washboard-locked { cursor: not-allowed; }
.washboard-locked::before { border-left-style: dotted; border-left-color: var(--vscode-editor-foreground, CanvasText); }
.washboard-locked::after { background: var(--vscode-editor-background, Canvas); border-color: var(--vscode-editor-foreground, CanvasText); border-style: dotted; }
.washboard-says { position: absolute; z-index: 2; padding: 1px 6px; font-size: 12px; white-space: nowrap; pointer-events: none; font-variant-numeric: tabular-nums;
  color: var(--vscode-editorHoverWidget-foreground, CanvasText); background: var(--vscode-editorHoverWidget-background, Canvas); border: 1px solid var(--vscode-editorHoverWidget-border, currentColor); }
.washboard-refused { margin: 4px 0 0; }
`;

const styleId = 'washboard-handle-style';

/** Puts it into the page, once. */
export function addHandleStyle(): void {
  if (document.getElementById(styleId) !== null) return;
  const style = element('style', '', css);
  style.id = styleId;
  document.head.append(style);
}

import type { LookAt, Trace } from '../../engine/traces.ts';
import { html, type Markup } from '../../report/markup.ts';
import { counted } from '../../result/words.ts';

/** The commands that the buttons of the page call, each with the addresses of the files. */
export const useCommand = 'washboard.useRecordings';

/** A page of a first look at files: what they hold over time, what was found, and how they were understood. No script, and nothing is fetched. */
export function lookPage(looks: readonly LookAt[], addresses: readonly string[]): string {
  const link = `command:${useCommand}?${encodeURIComponent(JSON.stringify([addresses]))}`;
  const title = looks.length === 1 ? looks[0].path : counted(looks.length, 'recording');
  return html`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8" />
<meta name="viewport" content="width=device-width" />
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'" />
<title>First look at ${title}</title>
<style>${style}</style>
</head>
<body>
<header><h1>First look at ${title}</h1>
<p><a class="button" href="${link}">Use in a Notebook</a></p></header>
${looks.map(section)}
</body>
</html>
`.text;
}

function section({ path, ok, lines, seconds, findings, traces, further }: LookAt): Markup {
  const found =
    findings.length === 0
      ? html`<p class="sound">Nothing to remark.</p>`
      : html`<ul class="findings">${findings.map(({ severity, message }) => html`<li class="${severity}">${message}</li>`)}</ul>`;
  return html`<section>
<h2>${path}</h2>
${
  ok
    ? found
    : html`<p class="refused">${lines
        .slice(1)
        .map((line) => line.trim())
        .join(' ')}</p>`
}
${traces.map((trace) => picture(trace, seconds))}
${further > 0 ? html`<p>${counted(further, 'further channel')} in the file.</p>` : undefined}
${ok ? html`<details${looks(lines)}><summary>How the file is understood</summary><pre>${lines.join('\n')}</pre></details>` : undefined}
</section>
`;
}

/** Open where there is nothing else to look at. */
const looks = (lines: readonly string[]): Markup | undefined => (lines.length === 0 ? html` open` : undefined);

const [width, height] = [800, 92];

/** A channel over time. The trace is as wide as the page; what is written beside it keeps its size. */
function picture({ channel, unit, low, high }: Trace, seconds: number): Markup {
  const [least, most] = [Math.min(...low), Math.max(...high)];
  const spread = most - least || Math.abs(most) || 1;
  const [floor, ceiling] = most === least ? [least - spread / 2, most + spread / 2] : [least, most];
  const x = (column: number): string => ((width * column) / Math.max(1, low.length)).toFixed(1);
  const y = (value: number): string => ((height * (ceiling - value)) / (ceiling - floor)).toFixed(1);
  const upper = high.map((value, n) => `${x(n + 0.5)} ${y(value)}`);
  const lower = low.map((value, n) => `${x(n + 0.5)} ${y(value)}`).reverse();
  const name = `${channel}${unit === undefined || unit === '' ? '' : ` (${unit})`}`;
  const times = [0, 0.25, 0.5, 0.75, 1].map((part) => html`<span>${short(part * seconds)} s</span>`);
  return html`<figure>
<figcaption>${name}</figcaption>
<div class="values" aria-hidden="true"><span>${short(ceiling)}</span><span>${short(floor)}</span></div>
<svg viewBox="0 0 ${width} ${height}" preserveAspectRatio="none" role="img" aria-label="${name} over ${short(seconds)} s, from ${short(least)} to ${short(most)}">
<path class="trace" d="M${[...upper, ...lower].join('L')}Z" />
</svg>
<div class="times" aria-hidden="true">${times}</div>
</figure>
`;
}

const short = (value: number): string => String(Number(value.toPrecision(3))).replace('-', '−');

/** The editor's colours, high contrast included. */
const style = `
body { color: var(--vscode-editor-foreground); background: var(--vscode-editor-background); font-family: var(--vscode-font-family); font-size: var(--vscode-font-size); line-height: 1.45; padding: 0 20px 28px; max-width: 900px; }
header { display: flex; flex-wrap: wrap; align-items: center; gap: 4px 20px; margin: 14px 0 4px; }
header p { margin: 0; }
h1 { font-size: 1.5em; font-weight: 600; margin: 0; overflow-wrap: anywhere; }
h2 { font-size: 1.15em; font-weight: 600; margin: 22px 0 4px; overflow-wrap: anywhere; }
figure { display: grid; grid-template-columns: 5em minmax(0, 1fr); gap: 2px 6px; margin: 10px 0 0; }
figcaption { grid-column: 1 / -1; font-weight: 600; }
.values { display: flex; flex-direction: column; justify-content: space-between; text-align: right; }
.times { grid-column: 2; display: flex; justify-content: space-between; }
.values, .times { font-size: 11px; line-height: 1.2; font-variant-numeric: tabular-nums; }
svg { display: block; width: 100%; height: 92px; border: solid color-mix(in srgb, var(--vscode-editor-foreground) 55%, transparent); border-width: 0 0 1px 1px; box-sizing: border-box; }
.trace { fill: var(--vscode-charts-blue); stroke: var(--vscode-charts-blue); stroke-width: 0.8; vector-effect: non-scaling-stroke; }
.vscode-high-contrast .trace, .vscode-high-contrast-light .trace { fill: var(--vscode-editor-foreground); stroke: var(--vscode-editor-foreground); }
.findings { margin: 4px 0; padding: 0; list-style: none; }
.findings li { padding: 2px 0 2px 10px; border-left: 3px solid var(--vscode-editorInfo-foreground); margin: 4px 0; }
.findings .error, .refused { border-left-color: var(--vscode-editorError-foreground); }
.findings .warning { border-left-color: var(--vscode-editorWarning-foreground); }
.refused { padding-left: 10px; border-left: 3px solid var(--vscode-editorError-foreground); }
details { margin: 10px 0; }
summary { cursor: pointer; }
pre { overflow-x: auto; font-family: var(--vscode-editor-font-family); font-size: 0.92em; }
.button { display: inline-block; padding: 4px 12px; color: var(--vscode-button-foreground); background: var(--vscode-button-background); border: 1px solid var(--vscode-button-border, var(--vscode-contrastBorder, transparent)); border-radius: 3px; text-decoration: none; }
.button:hover { background: var(--vscode-button-hoverBackground); }
a:focus-visible, summary:focus-visible { outline: 2px solid var(--vscode-focusBorder); outline-offset: 2px; }
`;

import type { Difference, DifferenceKind } from '../../notebook/compareRecords.ts';
import { html, type Markup } from '../../report/markup.ts';
import { counted } from '../../result/words.ts';

/** The command that a link to a cell calls, with the notebook's address and the cell's index among those in our language. */
export const revealCommand = 'washboard.revealCell';

/** A cell to be shown: its index among those in our language, and what a reader finds it by. */
export interface LinkedCell {
  readonly index: number;
  readonly called: string;
}

/** What a page tells. */
export interface ChangedPage {
  readonly notebook: string;
  /** Address of the notebook, for the links. */
  readonly uri: string;
  /** What it is held against: `ride.record.json at 1a2b3c4d5e of 2026-05-01`. */
  readonly against: string;
  /** What is to be known of the record before its figures are. */
  readonly remark: string | undefined;
  readonly differences: readonly Difference[];
  /** The cell that a value comes from; undefined where there is none now. */
  readonly cellOf: (where: string) => LinkedCell | undefined;
}

const headings: Readonly<Record<DifferenceKind, string>> = {
  verdict: 'Verdicts',
  change: 'Changes',
  source: 'Raw files',
  figure: 'Other figures',
};

/** A page of what changed, a table for each kind, in the order in which it is told everywhere. No script, and nothing is fetched. */
export function changedPage(page: ChangedPage): string {
  const { notebook, against, remark, differences } = page;
  const kinds = [...new Set(differences.map(({ kind }) => kind))];
  const tables = kinds.map((kind) => table(page, kind));
  const sum = differences.length === 0 ? 'Nothing differs.' : `${counted(differences.length, 'value')} differ.`;
  return html`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8" />
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'" />
<title>What changed in ${notebook}</title>
<style>${style}</style>
</head>
<body>
<h1>What changed in ${notebook}</h1>
<p>Results now, held against ${against}. ${sum}</p>
${remark === undefined ? undefined : html`<p class="remark">${remark}</p>`}
${tables}
</body>
</html>
`.text;
}

function table({ differences, uri, cellOf }: ChangedPage, kind: DifferenceKind): Markup {
  const rows = differences
    .filter((one) => one.kind === kind)
    .map(
      ({ where, old, now, relative }) =>
        html`<tr><th scope="row">${place(where, uri, cellOf(where))}</th><td>${old ?? 'not recorded'}</td><td>${now ?? 'gone'}</td><td>${relative}</td></tr>
`,
    );
  return html`<h2>${headings[kind]}</h2>
<div class="wide" tabindex="0" role="region" aria-label="${headings[kind]}"><table>
<thead><tr><th scope="col">Value</th><th scope="col">Recorded</th><th scope="col">Now</th><th scope="col">Difference</th></tr></thead>
<tbody>${rows}</tbody></table></div>
`;
}

function place(where: string, uri: string, cell: LinkedCell | undefined): Markup {
  if (cell === undefined) return html`${where}`;
  const call = `command:${revealCommand}?${encodeURIComponent(JSON.stringify([uri, cell.index]))}`;
  return html`<a href="${call}" title="Show ${cell.called}">${where}</a><div class="cell">${cell.called}</div>`;
}

/** The editor's colours, high contrast included: borders and links are drawn in what the theme has for them. */
const style = `
body { color: var(--vscode-editor-foreground); background: var(--vscode-editor-background); font-family: var(--vscode-font-family); font-size: var(--vscode-font-size); line-height: 1.45; padding: 0 18px 24px; }
h1 { font-size: 1.5em; font-weight: 600; margin: 18px 0 6px; }
h2 { font-size: 1.15em; font-weight: 600; margin: 22px 0 6px; }
.remark { padding: 4px 10px; border-left: 3px solid var(--vscode-editorWarning-foreground); }
/* A shade at the side on which there is more: the covers move with the table, the shades stay. */
.wide { overflow-x: auto; background: linear-gradient(to right, var(--vscode-editor-background) 30%, transparent) left / 36px 100%, linear-gradient(to left, var(--vscode-editor-background) 30%, transparent) right / 36px 100%, linear-gradient(to right, color-mix(in srgb, currentColor 30%, transparent), transparent) left / 12px 100%, linear-gradient(to left, color-mix(in srgb, currentColor 30%, transparent), transparent) right / 12px 100%; background-repeat: no-repeat; background-attachment: local, local, scroll, scroll; }
.wide:focus-visible, a:focus-visible { outline: 2px solid var(--vscode-focusBorder); outline-offset: 1px; }
table { border-collapse: collapse; font-variant-numeric: tabular-nums; }
th, td { padding: 2px 14px 2px 0; text-align: left; vertical-align: top; font-weight: 400; border-bottom: 1px solid var(--vscode-contrastBorder, var(--vscode-editorWidget-border)); }
thead th { font-weight: 600; border-bottom-color: currentColor; }
td:last-child { white-space: nowrap; }
.cell { color: var(--vscode-descriptionForeground); font-size: 0.92em; }
a { color: var(--vscode-textLink-foreground); }
`;

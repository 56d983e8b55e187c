import MarkdownIt from 'markdown-it';
import { printedUnit } from '../values/number.ts';
import { unparted } from '../charts/words/names.ts';
import { readingOf } from '../charts/reading.ts';
import type { ChartPart, Message, Output, Part, TablePart, TextPart } from '../charts/output.ts';
import { themes, type Theme } from '../charts/theme.ts';
import { grouped } from '../numbers/grouped.ts';
import { visible } from '../result/visible.ts';
import { capitalised } from '../result/words.ts';
import { frontMatter } from '../notebook/frontMatter.ts';
import { withoutMarks } from '../notebook/proseNumbers.ts';
import { html, Markup } from './markup.ts';
import { reportFont, reportFonts, reportStyle } from './style.ts';
import { toSvg } from './svg.ts';
import { screenWidth } from '../charts/screenWidth.ts';

/** A notebook as a page shows it: its prose and cells in order, and what the cells gave. */
export interface ReportedNotebook {
  readonly file: string;
  readonly pieces: readonly Piece[];
  readonly sources: readonly { readonly path: string; readonly bytes: number; readonly sha256: string }[];
  /** Name and version of what ran it. */
  readonly tool: string;
}

export type Piece =
  | { readonly kind: 'prose'; readonly text: string }
  | { readonly kind: 'cell'; readonly text: string; readonly outputs: readonly Output[] };

/** By this beginning of a line a page is known as one of ours, which a later one may replace. */
export const generator = '<meta name="generator" content="Washboard report"';

/** The font of the page, whose widths its tables and pictures are laid out by: TrueType files, in base64. */
export interface ReportFaces {
  readonly regular: string;
  readonly bold: string;
}

function facesRules(faces: ReportFaces | undefined): string {
  if (faces === undefined) return '';
  const rule = (weight: number, file: string): string =>
    `@font-face { font-family: "${reportFont}"; font-weight: ${weight}; src: url(data:font/ttf;base64,${file}) format("truetype"); }\n`;
  return rule(400, faces.regular) + rule(700, faces.bold);
}

/** Gives a picture that the prose names as a `data:` address, or undefined where it can't. */
export type PictureSource = (path: string) => string | undefined;

/**
 * One self-contained HTML page: prose, cells, charts as inline SVG, tables, methods and the hashes of the raw files.
 * Nothing in it runs, and nothing is fetched when it is opened. It is well-formed XML as well, whatever stood in files.
 */
export async function reportPage(
  notebook: ReportedNotebook,
  picture: PictureSource,
  faces?: ReportFaces,
): Promise<string> {
  const pieces: Markup[] = [];
  for (const piece of notebook.pieces)
    pieces.push(piece.kind === 'prose' ? prose(piece.text, picture) : await cell(piece));
  const title = titleOf(notebook);
  const page = html`<!DOCTYPE html>
<html xmlns="http://www.w3.org/1999/xhtml" lang="en">
<head>
<meta charset="utf-8" />
${new Markup(generator)} />
<meta name="viewport" content="width=device-width, initial-scale=1" />
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:" />
<title>${title}</title>
<style>${new Markup(facesRules(faces))}${new Markup(reportStyle)}</style>
</head>
<body>
<main>
${pieces}
${rawFiles(notebook)}
</main>
</body>
</html>
`;
  return visible(page.text);
}

function titleOf({ file, pieces }: ReportedNotebook): string {
  const first = pieces.find((piece) => piece.kind === 'prose');
  return /^#\s+(.+?)\s*#*\s*$/m.exec(first?.text ?? '')?.[1] ?? file;
}

/** Markdown as the editor shows it, without HTML of its own and without addresses that run something. */
function prose(text: string, picture: PictureSource): Markup {
  const markdown = new MarkdownIt({ html: false, linkify: false, xhtmlOut: true });
  markdown.renderer.rules['image'] = (tokens, index) => {
    const token = tokens[index];
    const source = picture(String(token.attrGet('src') ?? ''));
    const words = token.content;
    return source === undefined ? html`<em>${words}</em>`.text : html`<img src="${source}" alt="${words}" />`.text;
  };
  return html`<section class="prose">${new Markup(markdown.render(withoutMarks(frontMatter(text).rest)))}</section> `;
}

async function cell({ text, outputs }: Extract<Piece, { kind: 'cell' }>): Promise<Markup> {
  const shown: Markup[] = [];
  for (const output of outputs) shown.push(await outputMarkup(output));
  const source = text === '' ? undefined : html`<pre class="source">${text}</pre>`;
  return html`<section class="cell">${source}
${shown}</section>
`;
}

async function outputMarkup(output: Output): Promise<Markup> {
  const { above, answer, below, rest } = readingOf(output);
  const drawn = async (parts: readonly Part[]): Promise<Markup[]> => {
    const all: Markup[] = [];
    for (const part of parts) all.push(await partMarkup(part));
    return all;
  };
  const messagesMarkup = (messages: readonly Message[]): Markup[] => together(messages).map(message);
  return html`<div class="output">${messagesMarkup(above)}${await drawn(answer)}${messagesMarkup(below)}${await drawn(rest)}</div>
`;
}

/** What is said of several runs by one code, together: the first in full, the others below it. */
function together(messages: readonly Message[]): (Message & { readonly more: readonly string[] })[] {
  return grouped(messages, ({ severity, code }) => `${severity} ${code}`).map(([first, ...others]) => {
    const texts = [...new Set(others.map(({ message }) => message))].filter((text) => text !== first.message);
    return { ...first, more: texts };
  });
}

function message({ severity, message: text, where, more }: Message & { readonly more: readonly string[] }): Markup {
  return html`<p class="message ${severity}"><strong>${capitalised(severity)}:</strong> ${withCode(text)}${where === undefined ? '' : ` (${where})`}${more.map((other) => html`<br />${withCode(other)}`)}</p>
`;
}

/** Words of the language stand between backticks in a message, and as code on the page. */
const withCode = (text: string): (Markup | string)[] =>
  unparted(text)
    .split(/`([^`]+)`/)
    .map((piece, index) => (index % 2 === 1 ? html`<code>${piece}</code>` : piece));

async function partMarkup(part: Part): Promise<Markup> {
  if (part.type === 'table') return table(part);
  return part.type === 'text' ? textMarkup(part) : figure(part);
}

/** Sentences, a paragraph a line; what opens on demand in an editor stands open here, under its name. */
function textMarkup({ text, style, folded }: TextPart): Markup {
  const name = folded === undefined ? undefined : html`<p class="name">${folded}</p>`;
  const body =
    style === 'verbatim'
      ? html`<pre>${text}</pre>`
      : html`<div class="text ${style ?? ''}">${text.split('\n').map((line) => html`<p>${unparted(line)}</p>`)}</div>`;
  return html`${name}${body}
`;
}

/** Of the picture, in px: as wide as the page's column, and still to be read when it is printed. */
const figureWidth = 720;

/** The colours of print for what is told apart by them, for a page is printed, and often in grey; the rest is lighter than ink. */
const pageTheme: Theme = {
  ...themes.light,
  font: reportFonts,
  series: themes.print.series,
  lower: themes.print.lower,
  higher: themes.print.higher,
  thin: themes.print.thin,
};

/** The picture; its words open by a click, without a script. */
async function figure(chart: ChartPart): Promise<Markup> {
  const svg = await toSvg(chart, pageTheme, figureWidth);
  return html`<figure>${new Markup(svg)}<figcaption><details><summary>The chart in words</summary>${chart.description}</details></figcaption></figure>
`;
}

/** A table of so many rows is not parted between two pages. */
const shortRows = 14;
/** px; a wider table is set smaller on paper. */
const broadWidth = 860;

/** Width in px that a table takes on one line a row. */
const widthOf = (columns: TablePart['columns'], rows: TablePart['rows']): number =>
  columns.reduce((sum, { name, unit }, c) => {
    const longest = Math.max(...rows.map((row) => screenWidth(row[c] ?? '', 14)), 0);
    // A heading breaks at its blanks, and a long text into lines.
    const head = Math.max(...`${name} ${unit}`.split(' ').map((word) => screenWidth(word, 14)));
    return sum + Math.max(head, Math.min(longest, 256)) + 19;
  }, 0);

/** Beyond so many characters a cell may break into lines. */
const longText = 44;

/** Letters of a cell that is not broken on paper: a band, an outcome. */
const wholeText = 12;

const lengthClass = ({ length }: string): string => (length > longText ? ' long' : length <= wholeText ? ' whole' : '');

/** Names of files may break after their marks, where they would else be cut. */
const breakable = (text: string): (Markup | string)[] =>
  text
    .split(/(?<=[/_-])(?=\p{L})/u)
    .flatMap((piece, index) => (index === 0 ? [piece] : [new Markup('<wbr />'), piece]));

/** px; a table that is wider still would be cut off at the paper's edge, however small it is set. */
const paperWidth = 1040;

/** A table; what is wider than paper stands on the screen whole, and on paper in blocks of columns, each with the names before it. */
function table(part: TablePart): Markup {
  const { caption, columns, rows } = part;
  if (widthOf(columns, rows) <= paperWidth) return tableOf(part);
  const blocks = blocksOf(part).map((block, index, { length }) =>
    tableOf({ ...block, caption: caption === '' ? '' : `${caption} (${index + 1} of ${length})` }, 'on-paper'),
  );
  return html`${tableOf(part, 'on-screen')}${blocks}`;
}

/** As many columns as fit the paper's width, again and again, each time behind the names of the rows. */
function blocksOf({ columns, rows, ...part }: TablePart): TablePart[] {
  const firstFigure = columns.findIndex(({ align }) => align === 'right');
  const names = Math.max(1, Math.min(2, firstFigure));
  const of = (from: number, to: number): TablePart => {
    const pick = <T>(list: readonly T[]): T[] => [...list.slice(0, names), ...list.slice(from, to)];
    return { ...part, columns: pick(columns), rows: rows.map(pick) };
  };
  const blocks: TablePart[] = [];
  let from = names;
  while (from < columns.length) {
    let to = from + 1;
    const fits = (end: number): boolean => {
      const block = of(from, end);
      return widthOf(block.columns, block.rows) <= paperWidth;
    };
    while (to < columns.length && fits(to + 1)) to++;
    blocks.push(of(from, to));
    from = to;
  }
  return blocks;
}

function tableOf({ caption, columns, rows }: TablePart, where = ''): Markup {
  const heads = columns.map(
    ({ name, unit, align }) =>
      html`<th scope="col" class="${align}">${name}${unit === '' ? '' : html` <span class="unit">(${printedUnit(unit)})</span>`}</th>`,
  );
  const body = rows.map(
    (
      row,
    ) => html`<tr>${row.map((text, c) => html`<td class="${columns[c]?.align ?? 'left'}${lengthClass(text)}">${breakable(text)}</td>`)}</tr>
`,
  );
  const size = [rows.length <= shortRows ? 'short' : '', widthOf(columns, rows) > broadWidth ? 'broad' : '', where]
    .filter((name) => name !== '')
    .join(' ');
  // On paper a caption holds to its rows only as the first of their heads, which is repeated on each page.
  const onPaper =
    caption === ''
      ? undefined
      : html`<tr class="caption" aria-hidden="true"><th colspan="${columns.length}">${caption}</th></tr>`;
  return html`<div class="wide ${size}"><table><caption>${caption}</caption>
<thead>${onPaper}<tr>${heads}</tr></thead>
<tbody>${body}</tbody></table></div>
`;
}

function rawFiles({ sources, tool, file }: ReportedNotebook): Markup {
  const rows = sources.map(
    ({
      path,
      bytes,
      sha256,
    }) => html`<tr><td>${path}</td><td class="right">${bytes}</td><td><code>${sha256}</code></td></tr>
`,
  );
  const table = html`<div class="wide"><table>
<thead><tr><th scope="col">File</th><th scope="col" class="right">Bytes</th><th scope="col">SHA-256</th></tr></thead>
<tbody>${rows}</tbody></table></div>
`;
  return html`<section class="sources"><h2>${sources.length === 0 ? 'How to run this again' : 'Raw files and how to run this again'}</h2>
<p>Made by ${tool} from ${file}. Every figure above follows from that text${sources.length === 0 ? ' alone' : ' and from the raw files below'}; run it again
with <code>washboard run ${file}</code>.</p>
${sources.length === 0 ? undefined : table}</section>
`;
}

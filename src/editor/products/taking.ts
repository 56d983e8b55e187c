import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import * as vscode from 'vscode';
import type { TakingAsked } from '../../charts/handleMessages.ts';
import { settingsIn, usualSettings, type FigureFormat, type FigureSettings } from '../../files/figureSettings.ts';
import { withResolution } from '../../files/resolution.ts';
import { cellOf, dataIn, idIn } from '../handles/shownBy.ts';
import { sentence } from '../messages.ts';
import { languageId } from '../names.ts';
import { codeCells } from '../notebooks.ts';
import { rasterise, rasterised } from './rasters.ts';
import { runOn } from './products.ts';
import { save } from './saving.ts';
import { askFile, takeText } from './texts.ts';

/** Where a picture is to go, where that is known without asking. */
export interface PictureOrder {
  readonly format: FigureFormat;
  /** As in front matter: `width 85 mm, dpi 300`. */
  readonly settings: string;
  readonly to: vscode.Uri;
}

/** What taking something away needs besides the notebook. */
export interface TakingFrom {
  readonly editor: vscode.NotebookEditor;
  readonly log: vscode.LogOutputChannel;
  readonly messaging: vscode.NotebookRendererMessaging;
}

/** Does what the menu of a chart or table asked. */
export async function take(message: TakingAsked, from: TakingFrom): Promise<void> {
  switch (message.type) {
    case 'save picture':
      return savePicture(from, message.output, message.chart);
    case 'save text':
    case 'copy text':
    case 'copy number':
      return takeText(message, from.editor.notebook);
    case 'rasterised':
      return rasterised(message);
  }
}

/**
 * Saves a chart as `washboard figures` makes it; a PNG is drawn from that by the page.
 * @param chart counted among those of its output
 */
export async function savePicture(
  from: TakingFrom,
  output: string,
  chart: number,
  given?: PictureOrder,
): Promise<void> {
  const { notebook } = from.editor;
  const cell = cellOf(notebook, output);
  if (cell === undefined) return void vscode.window.showWarningMessage(sentence('handle.earlier', {}));
  const before = cell.outputs.slice(
    0,
    cell.outputs.findIndex((one) => idIn(one) === output),
  );
  const index = chart + before.reduce((sum, one) => sum + chartsIn(one), 0);
  const order: Omit<PictureOrder, 'to'> | undefined = given ?? (await askOrder());
  if (order === undefined) return;
  const folder = await mkdtemp(join(tmpdir(), 'washboard-picture-'));
  try {
    const file = await made(from, codeCells(notebook, languageId).indexOf(cell) + 1, index, order, folder);
    if (file === undefined) return;
    const name = file.slice(folder.length + 1).replace(/\.\w+$/, `.${order.format}`);
    const to = given?.to ?? (await askFile(notebook, name, { [order.format.toUpperCase()]: [order.format] }));
    if (to === undefined) return;
    const content = await readFile(file);
    const bytes = order.format === 'png' ? await asPng(from, content.toString('utf8'), order.settings) : content;
    await save(to, bytes);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Has the command line write the cell's charts, and gives the path of one. */
async function made(
  { editor, log }: TakingFrom,
  cell: number,
  index: number,
  { format, settings }: Pick<PictureOrder, 'format' | 'settings'>,
  folder: string,
): Promise<string | undefined> {
  const options = Object.entries(settingsOf(settings)).flatMap(([name, value]) =>
    ['width', 'size'].includes(name) ? [`--${name}`, String(value)] : [],
  );
  const args = ['--cell', String(cell), '--out', folder, '--format', format === 'pdf' ? 'pdf' : 'svg', ...options];
  const work = { title: vscode.l10n.t('Drawing the picture'), command: 'figures', args };
  const end = await runOn(editor.notebook, log, work);
  const paths = (end?.printed ?? '').split('\n').filter((line) => line.startsWith(folder));
  return paths
    .filter((line) => !line.includes('.txt: '))
    .at(index)
    ?.split(': ')[0];
}

function settingsOf(text: string): Partial<FigureSettings> {
  const read = settingsIn(text);
  return read.ok ? read.value : {};
}

async function askOrder(): Promise<Pick<PictureOrder, 'format' | 'settings'> | undefined> {
  const format = await vscode.window.showQuickPick(
    [
      {
        label: 'SVG',
        description: vscode.l10n.t('vector, for the web and for drawing programs'),
        format: 'svg' as const,
      },
      { label: 'PDF', description: vscode.l10n.t('vector with its font, for print'), format: 'pdf' as const },
      { label: 'PNG', description: vscode.l10n.t('pixels, for slides and word processors'), format: 'png' as const },
    ],
    { title: vscode.l10n.t('Save Picture'), placeHolder: vscode.l10n.t('Format') },
  );
  if (format === undefined) return undefined;
  const settings = await vscode.window.showInputBox({
    title: vscode.l10n.t('Save Picture'),
    prompt: vscode.l10n.t('Its size on paper'),
    value: `width ${usualSettings.width} mm${format.format === 'png' ? ', dpi 300' : ''}`,
    validateInput: (text) => {
      const read = settingsIn(text);
      return read.ok ? undefined : read.failure.message;
    },
  });
  return settings === undefined ? undefined : { format: format.format, settings };
}

const millimetresPerInch = 25.4;

/** An SVG as a PNG of its size on paper, drawn by the page in the font of figures. */
async function asPng({ editor, messaging }: TakingFrom, svg: string, settings: string): Promise<Uint8Array> {
  const { dpi = 300 } = settingsOf(settings);
  const [, width, height] = /^<svg[^>]* width="([\d.]+)mm" height="([\d.]+)mm"/.exec(svg) ?? [];
  const pixels = (millimetres: string): number => Math.round((Number(millimetres) / millimetresPerInch) * dpi);
  const faces = await Promise.all(
    [
      ['Regular', 400],
      ['Bold', 700],
    ].map(async ([face, weight]) => {
      const file = await readFile(join(__dirname, '..', 'media', 'fonts', `Arimo-${face}.ttf`), 'base64');
      return `@font-face{font-family:Arimo;font-weight:${weight};src:url(data:font/ttf;base64,${file})}`;
    }),
  );
  const faced = svg.replace('>', `><style>${faces.join('')}</style>`);
  const png = await rasterise(faced, pixels(width), pixels(height), (message) =>
    messaging.postMessage(message, editor),
  );
  return withResolution(png, dpi);
}

/** How many charts an output has. */
const chartsIn = (output: vscode.NotebookCellOutput): number =>
  dataIn(output)?.parts.filter(({ type }) => type === 'chart').length ?? 0;

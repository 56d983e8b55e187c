import { lackedLetters } from '../charts/advances.ts';
import { printFont } from '../charts/printFont.ts';
import { inPrint, laidOut } from '../charts/layout.ts';
import type { ChartPart } from '../charts/output.ts';
import { themes } from '../charts/theme.ts';
import type { RunReport } from '../engine/result.ts';
import { show } from '../engine/show.ts';
import { toFigure } from '../report/figure.ts';
import { success, type Message, type Result } from '../result/result.ts';
import { resvgPath } from './assets.ts';
import { usualSettings, type FigureFormat, type FigureSettings } from './figureSettings.ts';
import { ownFaces, type Faces } from './fonts.ts';
import { refuse, tell } from './messages.ts';
import { withOwnStems, type MadeFile } from './named.ts';

const pointsPerMillimetre = 72 / 25.4;

/** Size in px, in every chart, of the type at its axes, which is its smallest. */
const axisType = 11;

/** What was asked for of each figure, by its name without an ending. */
export type SettingsFor = (stem: string) => FigureSettings;

export interface FigureFiles {
  readonly files: readonly MadeFile[];
  /** Names of the figures, without endings. */
  readonly stems: readonly string[];
  readonly warnings: readonly Message[];
}

/** Every chart that a run shows, as files called by the results' names and what the charts are. */
export async function figureFiles(
  report: RunReport,
  settingsFor: SettingsFor,
  faces?: Faces,
): Promise<Result<FigureFiles>> {
  const files: MadeFile[] = [];
  const warnings: Message[] = [];
  const placed = withOwnStems(chartsOf(report, usualSettings));
  const byWidth = new Map<number, readonly PlacedChart[]>();
  for (const [index, { stem, cell }] of placed.entries()) {
    const settings = settingsFor(stem);
    const { font = printFont, formats } = settings;
    if (faces === undefined && font !== printFont && formats.some((one) => one !== 'svg'))
      return refuse('figures.font', { font });
    if (formats.includes('png') && resvgPath() === undefined) return refuse('figures.no-png', {});
    // Made anew for its width: names, their places and their rows are no matter of scale.
    const width = widthInPx(settings);
    if (!byWidth.has(width)) byWidth.set(width, chartsOf(report, settings));
    const chart = byWidth.get(width)?.[index].chart ?? placed[index].chart;
    const made = await figure(chart, stem, settings, faces ?? ownFaces());
    files.push(...made.files.map((file) => ({ ...file, cell, title: chart.title })));
    warnings.push(...made.warnings);
  }
  return success({ files, stems: placed.map(({ stem }) => stem), warnings });
}

interface PlacedChart {
  readonly stem: string;
  readonly chart: ChartPart;
  readonly cell: number;
}

function chartsOf({ results }: RunReport, settings: FigureSettings): PlacedChart[] {
  const layout = inPrint(widthInPx(settings));
  return results.flatMap((result) =>
    (laidOut(layout, () => show(result))?.parts ?? []).flatMap((part) =>
      part.type === 'chart' ? [{ stem: `${result.called}-${part.what}`, chart: part, cell: result.cell }] : [],
    ),
  );
}

/** A px of the layout is as large on paper as gives the type at the axes its size. */
const widthInPx = ({ width, size }: FigureSettings): number => (width * pointsPerMillimetre * axisType) / size;

type Made = Pick<MadeFile, 'file' | 'content'>;

async function figure(
  chart: ChartPart,
  stem: string,
  settings: FigureSettings,
  faces: Faces,
): Promise<{ files: Made[]; warnings: Message[] }> {
  const { font = faces.family, width, size, title, formats } = settings;
  const theme = { ...themes[settings.theme], font: `'${font.replace(/['"\\]/g, '')}', ${themes.print.font}` };
  const sheet = { width: widthInPx(settings), millimetres: width, titled: title };
  const { svg, height, scale } = await toFigure(chart, theme, sheet);
  const page = { width: width * pointsPerMillimetre, height: height * pointsPerMillimetre };
  const files: Made[] = [];
  for (const format of formats) {
    const content = await asFormat(format, { svg, page, faces, settings, title: chart.title });
    files.push({ file: `${stem}.${format}`, content });
  }
  if (!title) files.push({ file: `${stem}.txt`, content: captionOf(chart) });
  const letters = faces.family === printFont ? lackedLetters(textIn(svg)) : [];
  return {
    files,
    warnings: [
      ...(letters.length > 0 && formats.some((one) => one !== 'svg')
        ? [tell('figures.letters', { file: stem, letters })]
        : []),
      ...(size * scale < 6 - 1e-9 ? [tell('figures.small', { file: stem, points: (size * scale).toFixed(1) })] : []),
    ],
  };
}

interface Drawing {
  readonly svg: string;
  /** pt */
  readonly page: { readonly width: number; readonly height: number };
  readonly faces: Faces;
  readonly settings: FigureSettings;
  readonly title: string;
}

/** The libraries for PDF and PNG are large: each is loaded where one is made. */
async function asFormat(
  format: FigureFormat,
  { svg, page, faces, settings, title }: Drawing,
): Promise<string | Uint8Array> {
  switch (format) {
    case 'svg':
      return `${svg}\n`;
    case 'pdf':
      return (await import('./pdf.ts')).pdfOf(svg, page, faces, title);
    case 'png': {
      const { dpi, width } = settings;
      const { pngOf } = await import('./png.ts');
      return pngOf(svg, { width: Math.round((width / 25.4) * dpi), dpi, faces, resvg: resvgPath() ?? '' });
    }
  }
}

/** What stands above a figure otherwise, for the line below it in somebody's article. */
const captionOf = ({ title, subtitle, description }: ChartPart): string =>
  `${[title, subtitle, description].filter((text) => text !== '').join('\n')}\n`;

/** All text that an SVG draws. */
const textIn = (svg: string): string =>
  [...svg.matchAll(/<(?:text|tspan)[^>]*>([^<]*)</g)]
    .map(([, text]) => text.replace(/&(?:amp|lt|gt|quot|apos|#\d+);/g, ''))
    .join('');

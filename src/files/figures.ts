import { themes } from '../charts/theme.ts';
import type { RunReport } from '../engine/result.ts';
import { show } from '../engine/show.ts';
import { toSvg } from '../report/svg.ts';
import { withOwnStems, type MadeFile } from './named.ts';

/** Every chart that a run shows, as files called by the results' names and what the charts are. */
export async function figureFiles({ results }: RunReport): Promise<readonly MadeFile[]> {
  const charts = results.flatMap((result) =>
    (show(result)?.parts ?? []).flatMap((part) =>
      part.type === 'chart' ? [{ stem: `${result.called}-${part.what}`, chart: part, cell: result.cell }] : [],
    ),
  );
  const files: MadeFile[] = [];
  for (const { stem, chart, cell } of withOwnStems(charts))
    files.push({ file: `${stem}.svg`, content: `${await toSvg(chart, themes.light)}\n`, cell, title: chart.title });
  return files;
}

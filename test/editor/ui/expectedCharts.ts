import { readFileSync } from 'node:fs';
import { dirname } from 'node:path';
import type { ChartPart } from '../../../src/charts/output.ts';
import { diskHost } from '../../../src/disk/host.ts';
import { Engine } from '../../../src/engine/engine.ts';
import { show } from '../../../src/engine/show.ts';
import { parseNotebook } from '../../../src/notebook/parse.ts';

export interface ExpectedChart {
  readonly title: string;
  readonly axisTitles: readonly string[];
}

export interface ExpectedStudy {
  /** Every chart that the notebook's cells show, in order. */
  readonly charts: readonly ExpectedChart[];
  /** Index among all cells, prose too, of each code cell; and its text. */
  readonly cells: readonly { readonly index: number; readonly text: string }[];
}

/** What the editor has to show of a notebook, from the same engine without an editor. */
export async function expectedStudy(path: string): Promise<ExpectedStudy> {
  const notebook = parseNotebook(readFileSync(path));
  if (!notebook.ok) throw new Error(notebook.failure.message);
  const cells = notebook.value.cells.flatMap(({ kind, text }, index) => (kind === 'code' ? [{ index, text }] : []));
  const folder = dirname(path);
  const watch = { cancelled: () => false, progress: () => undefined };
  const report = await new Engine(diskHost(folder, folder)).run(
    { cells: cells.map(({ text }) => text), wanted: 'all' },
    watch,
  );
  const parts = report.results.flatMap((result) => show(result)?.parts ?? []);
  const charts = parts.filter((part): part is ChartPart => part.type === 'chart');
  return { cells, charts: charts.map(({ title, vega }) => ({ title, axisTitles: axisTitlesOf(vega) })) };
}

/** Titles of the axes anywhere in a Vega specification, as plain text. */
function axisTitlesOf(specification: unknown): string[] {
  const titles = new Set<string>();
  const visit = (part: unknown): void => {
    if (Array.isArray(part)) part.forEach(visit);
    else if (typeof part === 'object' && part !== null) {
      for (const [key, value] of Object.entries(part)) {
        if (key === 'axes' && Array.isArray(value)) {
          for (const { title } of value as { title?: unknown }[])
            if (typeof title === 'string' && title !== '') titles.add(title);
        }
        visit(value);
      }
    }
  };
  visit(specification);
  return [...titles];
}

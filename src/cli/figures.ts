import { basename } from 'node:path';
import { writeFolder } from '../disk/folder.ts';
import type { RunReport } from '../engine/result.ts';
import { askedFigures } from '../files/askedFigures.ts';
import type { Faces } from '../files/fonts.ts';
import { frontMatter } from '../notebook/frontMatter.ts';
import { success, type Result } from '../result/result.ts';
import { parsed, projectOptions, texts } from './args.ts';
import { exitFor, remark } from './exit.ts';
import { refuse } from './messages.ts';
import { keptOf } from './kept.ts';
import { openNotebook, type OpenNotebook } from './notebookFile.ts';
import { cellIn, runCell } from './oneCell.ts';
import { runWhole } from './runWhole.ts';
import { sayWritten } from './written.ts';

const settings = ['width', 'format', 'dpi', 'font', 'size', 'theme'] as const;

/** `washboard figures`: every chart, or those of one cell, as files for print; exit codes as of `run`. */
export async function figures(args: readonly string[]): Promise<number> {
  const given = parsed(args, {
    ...projectOptions,
    ...texts('out', 'cell', 'font-file', ...settings),
    'no-titles': { type: 'boolean' },
    force: { type: 'boolean' },
  });
  if (!given.ok) return exitFor(given);
  const { positionals, values } = given.value;
  if (positionals.length !== 1)
    return exitFor(refuse('usage.notebook', { article: 'one', purpose: 'whose figures to write' }));
  const { out, force = false } = values;
  if (out === undefined) return exitFor(refuse('usage.out', { what: 'figures' }));
  const opened = openNotebook(positionals[0], values);
  if (!opened.ok) return exitFor(opened);
  const notebook = opened.value;
  const said = settings.flatMap((setting) => {
    const value = values[setting];
    return value === undefined ? [] : [[setting, value] as const];
  });
  const untitled = values['no-titles'] === true ? ([['title', 'off']] as const) : [];
  const head = notebook.parts.at(0);
  const { entries } = frontMatter(head?.kind === 'prose' ? head.text : '');
  const asked = askedFigures(entries, [...said, ...untitled]);
  if (!asked.ok) return exitFor(asked);
  const faces = await facesOf(values['font-file'], values.font);
  if (!faces.ok) return exitFor(faces);
  const cell = cellIn(notebook, values.cell);
  if (!cell.ok) return exitFor(cell);
  const report = cell.value === undefined ? (await runWhole(notebook)).report : await ofCell(notebook, cell.value);
  // Loaded only here: drawing would slow every other command's start.
  const { figureFiles } = await import('../files/figures.ts');
  const made = await figureFiles(report, asked.value.settingsFor, faces.value);
  if (!made.ok) return exitFor(made);
  const { files, stems, warnings } = made.value;
  // What the front matter asks for may be in another cell.
  const known = cell.value === undefined ? asked.value.holdTo(stems) : success(undefined);
  if (!known.ok) return exitFor(known);
  const folder = { path: out, notebook: basename(notebook.path), command: 'figures', kind: 'figure' };
  const written = writeFolder(folder, files, { force, kept: keptOf(notebook, report) });
  if (!written.ok) return exitFor(written);
  sayWritten(out, files, written.value.stale);
  warnings.forEach(remark);
  return report.ok ? 0 : 1;
}

/** A run of one cell, without the results of others that it needed. */
async function ofCell(notebook: OpenNotebook, cell: number): Promise<RunReport> {
  const report = await runCell(notebook, cell);
  return { ...report, results: report.results.filter((result) => result.cell === cell) };
}

/** The font's files, where they are named: the regular face, and the bold one where it is another. */
async function facesOf(files: string | undefined, family: string | undefined): Promise<Result<Faces | undefined>> {
  if (files === undefined) return success(undefined);
  const [regular, bold = regular] = files.split(',');
  const { facesFrom } = await import('../files/fonts.ts');
  return facesFrom(regular, bold, family);
}

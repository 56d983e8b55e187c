import { decode } from '../../notebook/decode.ts';
import { parseRecord, type NotebookRecord } from '../../notebook/record.ts';
import { notebookStem } from '../../result/fileNames.ts';
import { refused, success, type Result } from '../../result/result.ts';
import { listedPaths } from '../recordings/choice.ts';
import type { EarlierRow, EarlierStudy, EarlierValue } from '../../values/earlier.ts';
import type { Files } from '../../values/ports.ts';
import { refuse } from '../messages/earlier.ts';
import { recordedRows } from './earlierRecord.ts';

export interface EarlierRequest {
  /** Names or patterns of records. */
  readonly patterns: readonly string[];
  /** Names of results that are wanted; none: all comparisons. */
  readonly of: readonly string[];
  /** What the study is called, where there is one. */
  readonly label: string | undefined;
}

/** A record of more bytes than this is no record: one of ours holds some thousand figures. */
const largest = 50_000_000;

/** The records that patterns stand for, each once; refuses a pattern without a file. */
export async function recordPaths(patterns: readonly string[], files: Files): Promise<Result<readonly string[]>> {
  const listed = await listedPaths(patterns, files);
  return listed.ok ? listed : refused({ ...listed.failure, at: 'files' });
}

/**
 * What records of other studies say. Refuses what is no record or one of another version, names that are not in it, damaged
 * comparisons, and a label for several studies.
 */
export async function earlierStudies(request: EarlierRequest, files: Files): Promise<Result<EarlierValue>> {
  const { patterns, of, label } = request;
  const paths = await recordPaths(patterns, files);
  if (!paths.ok) return paths;
  if (label !== undefined && paths.value.length > 1)
    return refuse('earlier.label', { label, records: paths.value.length }, 'label');
  const studies: EarlierStudy[] = [];
  const rows: EarlierRow[] = [];
  for (const path of paths.value) {
    const record = await recordIn(path, files);
    if (!record.ok) return record;
    const { notebook, tool, sources, results } = record.value;
    const study = label ?? nameFor(notebook, path, studies);
    const found = recordedRows({ study, path, results }, of);
    if (!found.ok) return found;
    if (found.value.length === 0) return refuse('earlier.empty', { path }, 'files');
    rows.push(...found.value);
    studies.push({ name: study, path, notebook, tool, sources });
  }
  return success({ kind: 'earlier', studies, rows });
}

/** A study is called by its notebook; by its record's path where another one is called so. */
function nameFor(notebook: string, path: string, before: readonly EarlierStudy[]): string {
  const name = notebookStem(notebook.replace(/^.*[/\\]/, ''));
  return name === '' || before.some((one) => one.name === name) ? path : name;
}

async function recordIn(path: string, files: Files): Promise<Result<NotebookRecord>> {
  const source = await files.open(path);
  if (source.size > largest) return refuse('earlier.record', { path, why: 'large' }, 'files');
  const bytes = await source.read(0, source.size);
  const text = decode(bytes);
  if (!text.ok) return refuse('earlier.record', { path, why: 'json' }, 'files');
  const found = parseRecord(text.value.replace(/^\ufeff/, ''));
  if (!found.ok) {
    const { code, facts } = found.failure;
    const { version } = facts as { version?: unknown };
    if (code === 'record.version') return refuse('earlier.version', { path, version }, 'files');
    const why = code === 'record.json' ? 'json' : code === 'record.object' ? 'object' : 'incomplete';
    return refuse('earlier.record', { path, why }, 'files');
  }
  const { notebook, tool } = found.value as { notebook: unknown; tool: unknown };
  const isWhole = typeof notebook === 'string' && typeof tool === 'string';
  return isWhole ? found : refuse('earlier.record', { path, why: 'incomplete' }, 'files');
}

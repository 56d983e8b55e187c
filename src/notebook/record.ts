import { success, type Result } from '../result/result.ts';
import { refuse } from './messages.ts';

/** A result's single value: what one line of a record holds. */
export type Scalar = number | string | boolean | null;

/** A raw file as it was when the notebook ran. */
export interface RecordedSource {
  readonly path: string;
  readonly bytes: number;
  readonly sha256: string;
}

/** What a notebook gave: the raw files behind it, and each single value of its results under a name that says where it stands. */
export interface NotebookRecord {
  readonly record: 1;
  readonly tool: string;
  readonly notebook: string;
  readonly sources: readonly RecordedSource[];
  readonly results: Readonly<Record<string, Scalar>>;
}

/** The part of a run's JSON (`run --json`) that a record is made of. */
export interface RunDocument {
  readonly notebook: string;
  readonly sources: readonly RecordedSource[];
  readonly cells: readonly {
    readonly index: number;
    readonly statements: readonly {
      readonly name: string | null;
      readonly shows?: string;
      readonly kind: string | null;
      readonly value: unknown;
      readonly warnings: readonly { readonly code: string }[];
      readonly error: { readonly code: string } | null;
    }[];
  }[];
}

/** Sentences made of the numbers beside them: to record them too would show each change twice. */
const sentences = new Set(['message', 'sentence', 'because', 'description']);

/** What tells the rows of a table from one another; it goes into the name of their values. */
const labels = ['run', 'label', 'name', 'channel', 'code'];

/**
 * The record of a run. Its results stand in the order of the notebook; a value is called by the statement's
 * name (or its cell and place, counted from 1) and the way to it: `after.rows[gel-1 z].rms`.
 * @param tool the name and version of what ran the notebook
 */
export function makeRecord(run: RunDocument, tool: string): NotebookRecord {
  const results = new Map<string, Scalar>();
  for (const { index, statements } of run.cells) {
    statements.forEach(({ name, shows, kind, value, warnings, error }, at) => {
      const where = name ?? `cell ${index + 1} statement ${at + 1}`;
      if (error) results.set(`${where}.error`, error.code);
      // Under its name it stands already: once more it would be another result.
      if (shows !== undefined) return;
      warnings.forEach(({ code }, warning) => results.set(`${where}.warnings[${warning + 1}]`, code));
      // A chart holds nothing that the values it draws do not.
      if (kind !== 'chart' && value !== null) flatten(value, where, results);
    });
  }
  const sources = run.sources.map(({ path, bytes, sha256 }) => ({ path, bytes, sha256 }));
  sources.sort((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : 0));
  return { record: 1, tool, notebook: run.notebook, sources, results: Object.fromEntries(results) };
}

function flatten(value: unknown, where: string, into: Map<string, Scalar>, inName: readonly string[] = []): void {
  if (Array.isArray(value)) {
    const names = rowNames(value);
    // What stands in the row's name need not stand below it once more.
    value.forEach((item, at) => flatten(item, `${where}[${names[at]}]`, into, labels));
  } else if (typeof value === 'object' && value !== null) {
    for (const [key, item] of Object.entries(value)) {
      const left = typeof item === 'string' && (sentences.has(key) || inName.includes(key));
      if (!left && item !== undefined) flatten(item, `${where}.${key}`, into);
    }
  } else if (typeof value === 'number') into.set(where, roundTo6(value));
  else if (typeof value === 'string' || typeof value === 'boolean' || value === null) into.set(where, value);
}

/** A name for each item of a list: of its labels where it has some, else its place counted from 1. */
function rowNames(items: readonly unknown[]): string[] {
  const seen = new Map<string, number>();
  return items.map((item, at) => {
    const label = labelOf(item);
    if (label === '') return String(at + 1);
    const count = (seen.get(label) ?? 0) + 1;
    seen.set(label, count);
    return count === 1 ? label : `${label} #${count}`;
  });
}

function labelOf(item: unknown): string {
  if (typeof item !== 'object' || item === null || Array.isArray(item)) return '';
  const fields = item as Readonly<Record<string, unknown>>;
  const words = labels.map((key) => fields[key]).filter((word) => typeof word === 'string' && word !== '');
  const { from_hz: from, to_hz: to } = fields;
  if (typeof from === 'number' && typeof to === 'number') words.push(`${roundTo6(from)}..${roundTo6(to)} Hz`);
  return words.join(' ');
}

/** To 6 significant digits; what JSON cannot hold never gets here. */
export const roundTo6 = (value: number): number => Number(value.toPrecision(6)) + 0;

/** The record's file: JSON, one value a line, so that a change shows in a diff as the lines of what it changed. */
export const recordText = (record: NotebookRecord): string => JSON.stringify(record, null, 2) + '\n';

/** Reads a record's file. */
export function parseRecord(text: string): Result<NotebookRecord> {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    return refuse('record.json', {});
  }
  if (typeof data !== 'object' || data === null) return refuse('record.object', {});
  const { record, sources, results } = data as Partial<Record<keyof NotebookRecord, unknown>>;
  if (record !== 1) return refuse('record.version', { version: record });
  const whole = Array.isArray(sources) && sources.every(isSource) && isResults(results);
  return whole ? success(data as NotebookRecord) : refuse('record.incomplete', {});
}

function isSource(source: unknown): source is RecordedSource {
  if (typeof source !== 'object' || source === null) return false;
  const { path, bytes, sha256 } = source as Partial<Record<keyof RecordedSource, unknown>>;
  return typeof path === 'string' && typeof bytes === 'number' && typeof sha256 === 'string';
}

const isResults = (results: unknown): boolean =>
  typeof results === 'object' &&
  results !== null &&
  !Array.isArray(results) &&
  Object.values(results).every((value) => value === null || typeof value !== 'object');

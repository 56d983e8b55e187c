import type { Message } from '../result/result.ts';
import { tell } from './messages.ts';
import { roundTo6, type NotebookRecord, type RecordedSource, type Scalar } from './record.ts';

/** What may differ, in the order in which it is told: first what the study says, then why, then the rest. */
export const differenceKinds = ['verdict', 'change', 'source', 'figure'] as const;
export type DifferenceKind = (typeof differenceKinds)[number];

/** One thing in which a notebook no longer gives what was recorded. */
export interface Difference {
  readonly kind: DifferenceKind;
  /** The file's path, or the name of the value. */
  readonly where: string;
  /** As it was recorded; absent where it was not. */
  readonly old?: string;
  /** As it is now; absent where it is gone. */
  readonly now?: string;
  /** By how much a number changed, in words: `+10 %` of what was recorded; absent where there is no telling. */
  readonly relative?: string;
  /** One line that says all. */
  readonly message: string;
}

/**
 * What differs between a record and a new run of the notebook: verdicts, changes from a comparison, raw files, then all other
 * values, each in the notebook's order. Numbers are the same when they agree to 6 significant digits. The version of the tool
 * and the name of the notebook are not compared.
 */
export function compareRecords(recorded: NotebookRecord, now: NotebookRecord): Difference[] {
  const found = [...compareSources(recorded.sources, now.sources), ...compareResults(recorded.results, now.results)];
  return differenceKinds.flatMap((kind) => found.filter((one) => one.kind === kind));
}

/** What is to be known of a record that another version of the tool wrote; undefined where this one did. */
export const writtenByAnother = ({ tool }: NotebookRecord, now: NotebookRecord): Message | undefined =>
  tool === now.tool ? undefined : tell('record.tool', { recorded: String(tool), now: now.tool });

function compareSources(recorded: readonly RecordedSource[], now: readonly RecordedSource[]): Difference[] {
  const before = new Map(recorded.map((source) => [source.path, source]));
  const differences: Difference[] = [];
  const add = (where: string, message: string, sides: Pick<Difference, 'old' | 'now'>): void =>
    void differences.push({ kind: 'source', where, ...sides, message });
  for (const source of now) {
    const old = before.get(source.path);
    before.delete(source.path);
    if (!old) add(source.path, `${source.path}: read now, and not in the record`, { now: digest(source) });
    else if (old.sha256 !== source.sha256 || old.bytes !== source.bytes) {
      const sides = { old: digest(old), now: digest(source) };
      add(source.path, `${source.path}: the file has changed; recorded ${sides.old}, now ${sides.now}`, sides);
    }
  }
  for (const [path, source] of before)
    add(path, `${path}: in the record, and not read any more`, { old: digest(source) });
  return differences;
}

const digest = ({ bytes, sha256 }: RecordedSource): string => `${bytes} bytes with SHA-256 ${sha256.slice(0, 12)}…`;

type Results = NotebookRecord['results'];

function compareResults(recorded: Results, now: Results): Difference[] {
  const before = new Map(Object.entries(recorded));
  const differences: Difference[] = [];
  const add = (where: string, message: string, sides: Pick<Difference, 'old' | 'now' | 'relative'>): void =>
    void differences.push({ kind: kindOf(where, [recorded, now]), where, ...sides, message });
  for (const [where, value] of Object.entries(now)) {
    const old = before.get(where);
    const isKnown = before.delete(where);
    const text = shown(value);
    if (!isKnown) add(where, `${where}: now ${text}, and not in the record`, { now: text });
    else if (!same(old!, value)) {
      const relative = change(old!, value);
      const message = `${where}: recorded ${shown(old!)}, now ${text}${relative === undefined ? '' : ` (${relative})`}`;
      add(where, message, { old: shown(old!), now: text, ...(relative === undefined ? {} : { relative }) });
    }
  }
  for (const [where, old] of before) add(where, `${where}: recorded ${shown(old)}, and gone now`, { old: shown(old) });
  return differences;
}

/** What a row of a comparison says of the change; the rest of it are levels and conditions. */
const ofChanges = new Set(['outcome', 'change_percent', 'change_db', 'low_percent', 'high_percent', 'p', 'p_adjusted']);

/** A figure is known by what stands beside it: the values of one verdict, or of one row of a comparison. */
function kindOf(where: string, records: readonly Results[]): DifferenceKind {
  const dot = where.lastIndexOf('.');
  // A label in brackets may hold a full stop.
  if (dot < where.lastIndexOf(']')) return 'figure';
  const beside = (key: string): boolean => records.some((one) => Object.hasOwn(one, `${where.slice(0, dot)}.${key}`));
  if (beside('verdict')) return 'verdict';
  return ofChanges.has(where.slice(dot + 1)) && beside('change_percent') ? 'change' : 'figure';
}

const same = (old: Scalar, value: Scalar): boolean =>
  typeof old === 'number' && typeof value === 'number' ? roundTo6(old) === roundTo6(value) : old === value;

const shown = (value: Scalar): string => JSON.stringify(value);

/** The change in percent of what was recorded, where there is one to tell. */
function change(old: Scalar, value: Scalar): string | undefined {
  if (typeof old !== 'number' || typeof value !== 'number' || old === 0) return undefined;
  const percent = (100 * (value - old)) / Math.abs(old);
  return `${percent > 0 ? '+' : '−'}${Number(Math.abs(percent).toPrecision(3))} %`;
}

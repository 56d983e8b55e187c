import { roundTo6, type NotebookRecord, type RecordedSource, type Scalar } from './record.ts';

/** One thing in which a notebook no longer gives what was recorded. */
export interface Difference {
  readonly kind: 'source' | 'result';
  /** The file's path, or the name of the value. */
  readonly where: string;
  /** One line that says all. */
  readonly message: string;
}

/**
 * What differs between a record and a new run of the notebook: raw files first, then values in the
 * notebook's order. Numbers are the same when they agree to 6 significant digits. The version of the tool
 * and the name of the notebook are not compared.
 */
export function compareRecords(recorded: NotebookRecord, now: NotebookRecord): Difference[] {
  return [...compareSources(recorded.sources, now.sources), ...compareResults(recorded.results, now.results)];
}

function compareSources(recorded: readonly RecordedSource[], now: readonly RecordedSource[]): Difference[] {
  const before = new Map(recorded.map((source) => [source.path, source]));
  const differences: Difference[] = [];
  const add = (where: string, message: string): void => void differences.push({ kind: 'source', where, message });
  for (const source of now) {
    const old = before.get(source.path);
    before.delete(source.path);
    if (!old) add(source.path, `${source.path}: read now, and not in the record`);
    else if (old.sha256 !== source.sha256 || old.bytes !== source.bytes) {
      add(source.path, `${source.path}: the file has changed; recorded ${digest(old)}, now ${digest(source)}`);
    }
  }
  for (const path of before.keys()) add(path, `${path}: in the record, and not read any more`);
  return differences;
}

const digest = ({ bytes, sha256 }: RecordedSource): string => `${bytes} bytes with SHA-256 ${sha256.slice(0, 12)}…`;

function compareResults(recorded: NotebookRecord['results'], now: NotebookRecord['results']): Difference[] {
  const before = new Map(Object.entries(recorded));
  const differences: Difference[] = [];
  const add = (where: string, message: string): void => void differences.push({ kind: 'result', where, message });
  for (const [where, value] of Object.entries(now)) {
    const old = before.get(where);
    const known = before.delete(where);
    if (!known) add(where, `${where}: now ${shown(value)}, and not in the record`);
    else if (!same(old!, value)) {
      add(where, `${where}: recorded ${shown(old!)}, now ${shown(value)}${change(old!, value)}`);
    }
  }
  for (const [where, old] of before) add(where, `${where}: recorded ${shown(old)}, and gone now`);
  return differences;
}

const same = (old: Scalar, value: Scalar): boolean =>
  typeof old === 'number' && typeof value === 'number' ? roundTo6(old) === roundTo6(value) : old === value;

const shown = (value: Scalar): string => JSON.stringify(value);

/** The change in percent, where there is one to tell. */
function change(old: Scalar, value: Scalar): string {
  if (typeof old !== 'number' || typeof value !== 'number' || old === 0) return '';
  const percent = (100 * (value - old)) / Math.abs(old);
  return ` (${percent > 0 ? '+' : '−'}${Number(Math.abs(percent).toPrecision(3))} %)`;
}

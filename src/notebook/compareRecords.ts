import type { Message } from '../result/result.ts';
import { tell } from './messages.ts';
import { roundTo6, type NotebookRecord, type RecordedSource, type Scalar } from './record.ts';

/** What may differ, in the order in which it is told: first what the study says, then why, then the rest. */
const differenceKinds = ['verdict', 'change', 'source', 'figure'] as const;
export type DifferenceKind = (typeof differenceKinds)[number];

/** One thing in which a notebook no longer gives what was recorded. */
export interface Difference {
  readonly kind: DifferenceKind;
  /** The file's path, or the name of the value, or of the list of numbers of which several differ. */
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
 * values, each in the notebook's order. Of a list of numbers, such as a spectrum's bins, the one that changed most stands for all. Numbers are the same when they agree to 6 significant digits. The version of the tool
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
  const add = (where: string, message: string, sides: Pick<Difference, 'old' | 'now'>): void =>
    void differences.push({ kind: kindOf(where, [recorded, now]), where, ...sides, message });
  const groups = byList(
    Object.entries(now).flatMap(([where, value]) => {
      const old = before.get(where);
      return old === undefined || same(old, value) ? [] : [{ where, old, value }];
    }),
  );
  for (const [where, value] of Object.entries(now)) {
    const group = groups.get(where);
    if (!before.delete(where))
      add(where, `${where}: now ${shown(value)}, and not in the record`, { now: shown(value) });
    else if (group !== undefined) differences.push({ kind: kindOf(where, [recorded, now]), ...differenceOf(group) });
  }
  for (const [where, old] of before) add(where, `${where}: recorded ${shown(old)}, and gone now`, { old: shown(old) });
  return differences;
}

interface Differing {
  readonly where: string;
  readonly old: Scalar;
  readonly value: Scalar;
}

/** From so many values of one list on, they are told together. */
const manyInList = 4;

/** Values that differ by the name of the first, those of each list of numbers together: a spectrum's bins are one thing to read. */
function byList(differing: readonly Differing[]): ReadonlyMap<string, readonly Differing[]> {
  const isOfList = ({ where, old, value }: Differing): boolean =>
    typeof old === 'number' && typeof value === 'number' && place.test(where);
  const keyOf = (one: Differing): string => (isOfList(one) ? one.where.replace(place, '[]') : one.where);
  const lists = new Map<string, Differing[]>();
  for (const one of differing) {
    const list = lists.get(keyOf(one));
    if (list === undefined) lists.set(keyOf(one), [one]);
    else list.push(one);
  }
  return new Map(
    [...lists.values()]
      .flatMap((list) => (list.length < manyInList ? list.map((one) => [one]) : [list]))
      .map((group) => [group[0].where, group]),
  );
}

/** The place of a value in a list, at the end of its name. */
const place = /\[\d+\]$/;

/** One value, or a list's by the one that changed most. */
function differenceOf(group: readonly Differing[]): Omit<Difference, 'kind'> {
  const size = ({ old, value }: Differing): number => Math.abs(Number(value) - Number(old));
  const most = group.reduce((top, one) => (size(one) > size(top) ? one : top));
  const [old, now] = [shown(most.old), shown(most.value)];
  const relative = change(most);
  const sides = { old, now, ...(relative === undefined ? {} : { relative }) };
  const words = `recorded ${old}, now ${now}${relative === undefined ? '' : ` (${relative})`}`;
  if (group.length === 1) return { where: most.where, ...sides, message: `${most.where}: ${words}` };
  const where = most.where.replace(place, '');
  return { where, ...sides, message: `${where}: ${group.length} values differ, most of all ${most.where}: ${words}` };
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

/** Figures of which a percentage says nothing: a p, and what is in percent or decibels itself. */
const withoutPercentage = /(?:^|\.)p(?:_\w+)?$|_(?:percent|db)(?:\[\d+\])?$/;

/** A change beyond this, in percent, is told by its two values alone: what was recorded was next to nothing. */
const mostPercent = 999;

/** The change in percent of what was recorded, where there is one to tell. */
function change({ where, old, value }: Differing): string | undefined {
  if (typeof old !== 'number' || typeof value !== 'number' || old === 0 || withoutPercentage.test(where))
    return undefined;
  const percent = (100 * (value - old)) / Math.abs(old);
  if (Math.abs(percent) > mostPercent) return undefined;
  return `${percent > 0 ? '+' : '−'}${Number(Math.abs(percent).toPrecision(3))} %`;
}

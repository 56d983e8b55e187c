import type { NotebookRecord, Scalar } from '../../notebook/record.ts';
import { success, type Result } from '../../result/result.ts';
import { parseUnit, unit as unitOf } from '../../units/parse.ts';
import type { EarlierChange, EarlierFigure, EarlierRow } from '../../values/earlier.ts';
import { kinds } from '../../values/kinds.ts';
import { figuresIn, jsonKey } from '../../values/rows.ts';
import { refuse } from '../messages/earlier.ts';
import { clausesOfOrder } from './byOrder.ts';
import { log10Of } from '../../numbers/logarithm.ts';

/** A record that is taken apart, and what its study is called. */
export interface RecordOfStudy {
  readonly study: string;
  readonly path: string;
  readonly results: NotebookRecord['results'];
}

type Results = NotebookRecord['results'];

/** The result that a name in a record belongs to: `pads` of `pads.rows[10..50 Hz].change_percent`. */
const resultOf = (name: string): string => /^[^.[]*/.exec(name)![0];

/** Whether a comparison is recorded under this name. */
const isComparison = (results: Results, result: string): boolean =>
  ['metric_code', 'baseline', 'confidence'].every((key) => Object.hasOwn(results, `${result}.${key}`));

const rowName = /^([^.[]*\.rows\[[^\]]*\])\./;

/**
 * The rows of a record: the changes of comparisons; where none is asked for, or where none is there, single figures. Refused
 * where a name that is asked for is not in it, and where a recorded comparison is no whole one.
 * @param asked names of results, or of what stands below them; none: all comparisons, else all figures
 */
export function recordedRows(record: RecordOfStudy, asked: readonly string[]): Result<readonly EarlierRow[]> {
  const names = Object.keys(record.results);
  for (const name of asked) {
    if (names.some((one) => isBelow(one, name))) continue;
    const known = [...new Set(names.map(resultOf))];
    return refuse('earlier.absent', { path: record.path, name, known }, 'of');
  }
  const compared = [...new Set(names.map(resultOf))].filter((result) => isComparison(record.results, result));
  const all = asked.length === 0 ? compared : asked;
  // In the order in which they are asked for.
  const wanted = all.length === 0 ? names : [...new Set(all.flatMap((of) => names.filter((one) => isBelow(one, of))))];
  const changes: EarlierRow[] = [];
  const figures: EarlierRow[] = [];
  const taken = new Set<string>();
  for (const name of wanted) {
    const result = resultOf(name);
    const row = compared.includes(result) ? rowName.exec(name)?.[1] : undefined;
    const isAsked = row !== undefined && (asked.length === 0 || asked.some((one) => isBelow(row, one)));
    if (row !== undefined && isAsked) {
      if (taken.has(row)) continue;
      taken.add(row);
      const change = changeOf(record, result, row);
      if (!change.ok) return change;
      changes.push({ study: record.study, result, name: row, change: change.value });
    } else if (!compared.includes(result) || asked.includes(name))
      figures.push({ study: record.study, result, name, figure: figureOf(record.results, result, name) });
  }
  return success([...changes, ...figures]);
}

const isBelow = (name: string, of: string): boolean =>
  name === of || name.startsWith(`${of}.`) || name.startsWith(`${of}[`);

const outcomes = ['lower', 'higher', 'equivalent', 'not shown'] as const;

function changeOf({ path, results }: RecordOfStudy, result: string, row: string): Result<EarlierChange> {
  const of = (key: string): Scalar | undefined => results[`${row}.${key}`];
  const whole = (key: string): Scalar | undefined => results[`${result}.${key}`];
  const words = (key: string): string => String(of(key) ?? whole(key) ?? '');
  const number = (key: string): number => numberIn(of(key)) ?? NaN;
  const optional = <K extends string>(key: K, value: number | undefined): { [P in K]?: number } =>
    (value === undefined ? {} : { [key]: value }) as { [P in K]?: number };
  const outcome = outcomes.find((one) => one === of('outcome'));
  const unit = parseUnit(words('unit'));
  const [low, high] = [numberIn(of('low_percent')), numberIn(of('high_percent'))];
  const [a, b, changePercent, changeDb] = ['a', 'b', 'change_percent', 'change_db'].map(number);
  const confidence = numberIn(whole('confidence')) ?? NaN;
  const isSound =
    [a, b, changePercent, changeDb, confidence].every(Number.isFinite) &&
    agree(changeDb, 20 * log10Of(1 + changePercent / 100)) &&
    (low ?? changePercent) <= changePercent &&
    changePercent <= (high ?? changePercent) &&
    outcome !== undefined;
  if (!isSound || !unit.ok) return refuse('earlier.row', { path, row }, 'files');
  const { stratum, margin } = { stratum: of('stratum'), margin: numberIn(whole('margin_percent')) };
  const baseline = words('baseline');
  const condition = typeof of('condition') === 'string' ? words('condition') : String(whole('b') ?? '');
  return success({
    ...{ baseline, condition },
    ...(typeof stratum !== 'string' || stratum === 'all' ? {} : { stratum }),
    channel: String(of('axis') ?? whole('channel') ?? ''),
    metric: String(whole('metric') ?? ''),
    metricCode: String(whole('metric_code')),
    band: { from: numberIn(of('from_hz')) ?? 0, to: numberIn(of('to_hz')) ?? Infinity },
    primary: of('primary') === true,
    unit: unit.unit,
    ...{ a, b, changePercent, changeDb, outcome, confidence },
    ...optional('lowPercent', low),
    ...optional('highPercent', high),
    ...optional('standardError', numberIn(of('standard_error'))),
    ...optional('df', numberIn(of('degrees_of_freedom'))),
    ...optional('margin', margin === undefined ? undefined : margin / 100),
    family: numberIn(of('family')) ?? numberIn(whole('family')) ?? 1,
    runs: [...listOf(results, `${result}.a_runs`), ...listOf(results, `${result}.b_runs`)],
    guards: [
      ...listOf(results, `${result}.guards`),
      ...listOf(results, `${row}.guards`),
      ...(outcome === 'not shown' ? clausesOfOrder(whole('sequence')) : []),
    ],
    ...sizesOf(results, result, [baseline, condition]),
  });
}

const numberIn = (value: Scalar | undefined): number | undefined => (typeof value === 'number' ? value : undefined);

/** Both were rounded to 6 significant digits. */
const agree = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-3 * Math.max(Math.abs(b), 0.01);

/** How many runs each side has, over all strata; nothing where the record does not tell. */
function sizesOf(results: Results, result: string, sides: readonly [string, string]): Pick<EarlierChange, 'sizes'> {
  const [a, b] = sides.map((side) => listOf(results, `${result}.sides[${side}].runs`).length);
  return a > 0 && b > 0 ? { sizes: [a, b] } : {};
}

/** A recorded list of words: `pads.a_runs[1]`, `pads.a_runs[2]` and so on. */
function listOf(results: Results, name: string): string[] {
  const found: string[] = [];
  for (let at = 1; typeof results[`${name}[${at}]`] === 'string'; at++) found.push(String(results[`${name}[${at}]`]));
  return found;
}

const suffixes = [
  ['_percent', '%'],
  ['_hz', 'Hz'],
  ['_s', 's'],
  ['_db', 'dB'],
  ['_m_s2', 'm/s^2'],
] as const;

/** Keys of figures that are told in the data's own unit, in whatever kind of value they stand. */
const inOwnUnit: ReadonlySet<string> = new Set(
  Object.values(kinds).flatMap(({ whole, rows }) =>
    [...figuresIn<never, never>(whole), ...figuresIn<never, never>(rows?.columns ?? [])].flatMap((figure) =>
      typeof figure.unit === 'function' ? [jsonKey(figure)] : [],
    ),
  ),
);

/** A recorded figure with its unit, so far as its name and what is recorded beside it tell that. */
function figureOf(results: Results, result: string, name: string): EarlierFigure {
  const value = results[name] ?? undefined;
  const plain = { value, unit: unitOf('') };
  if (typeof value !== 'number') return plain;
  const key = name.slice(name.lastIndexOf('.') + 1);
  const suffix = suffixes.find(([ending]) => key.endsWith(ending));
  if (suffix !== undefined) return { value, unit: unitOf(suffix[1]) };
  if (!inOwnUnit.has(key)) return plain;
  const own = results[`${name.slice(0, name.lastIndexOf('.'))}.unit`] ?? results[`${result}.unit`];
  const parsed = typeof own === 'string' ? parseUnit(own) : undefined;
  return parsed?.ok === true ? { value, unit: parsed.unit } : plain;
}

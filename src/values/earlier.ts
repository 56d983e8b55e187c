import { decibelsPerNeper } from '../numbers/logarithm.ts';
import type { Outcome } from '../statistics/outcome.ts';
import { unit as unitOf } from '../units/parse.ts';
import type { Unit } from '../units/unit.ts';
import type { Band } from './band.ts';
import { detail, field, figure } from './columns.ts';
import { isOfSignal } from './comparison.ts';
import type { DrawnDescription, Figure } from './description.ts';
import { rowsIn, type Scaling } from './scaling.ts';
import { finite } from './jsonNumbers.ts';
import { interval, signed } from './number.ts';
import { inShort } from './short.ts';
import { counted, listed } from '../result/words.ts';

/** What the records of other studies say: changes where they compared, else single figures. */
export interface EarlierValue {
  readonly kind: 'earlier';
  readonly studies: readonly EarlierStudy[];
  readonly rows: readonly EarlierRow[];
}

/** A study as its record tells of it. */
export interface EarlierStudy {
  /** Unique among those that were read together. */
  readonly name: string;
  /** The record's file. */
  readonly path: string;
  readonly notebook: string;
  /** Name and version of what wrote the record. */
  readonly tool: string;
  /** The raw files behind it. */
  readonly sources: readonly { readonly path: string; readonly sha256: string }[];
}

/** A change, or one figure or word. */
export interface EarlierRow {
  readonly study: string;
  /** What the result is called in its notebook: `pads`. */
  readonly result: string;
  /** What the record calls it: `pads.rows[10..50 Hz]`. */
  readonly name: string;
  readonly change?: EarlierChange;
  readonly figure?: EarlierFigure;
}

export interface EarlierFigure {
  readonly value: number | string | boolean | undefined;
  /** Without a symbol where the record does not tell it. */
  readonly unit: Unit;
}

/** A row of a comparison as it was recorded, to 6 significant digits. */
export interface EarlierChange {
  readonly baseline: string;
  readonly condition: string;
  /** Undefined over all strata, and where there were none. */
  readonly stratum?: string;
  readonly channel: string;
  readonly metric: string;
  readonly metricCode: string;
  /** Of the whole signal it ends nowhere. */
  readonly band: Band;
  readonly primary: boolean;
  readonly unit: Unit;
  readonly a: number;
  readonly b: number;
  readonly changePercent: number;
  readonly changeDb: number;
  readonly lowPercent?: number;
  readonly highPercent?: number;
  readonly standardError?: number;
  readonly df?: number;
  readonly outcome: Outcome;
  /** 0 to 1; of the interval for all `family` changes together. */
  readonly confidence: number;
  readonly family: number;
  readonly margin?: number;
  /** The recordings that were compared, by their labels. */
  readonly runs: readonly string[];
  /** Runs of the baseline and of the condition over all strata, where the record tells them. */
  readonly sizes?: readonly [number, number];
  /** Why no verdict rests on it, where one of them was told. */
  readonly guards: readonly string[];
}

const none = unitOf('');
const hasChanges = ({ rows }: EarlierValue): boolean => rows.some(({ change }) => change !== undefined);
const hasFigures = ({ rows }: EarlierValue): boolean => rows.some((row) => row.figure !== undefined);
const hasStrata = ({ rows }: EarlierValue): boolean => rows.some(({ change }) => change?.stratum !== undefined);
/** What was recorded that is no number: a verdict, an outcome. */
const wordOf = ({ figure: one }: EarlierRow): string | undefined =>
  one?.value === undefined || typeof one.value === 'number' ? undefined : String(one.value);
const ofChanges = { inTableOf: hasChanges };

/** The band of a change as JSON, fields and tables have it: none of a whole signal. */
const bandOf = ({ change }: EarlierRow): Band | undefined =>
  change === undefined || isOfSignal(change.metricCode) ? undefined : change.band;

/** A figure of the change's levels, in their own unit. */
const level = (key: 'a' | 'b', doc: string, side: 'baseline' | 'condition'): Figure<EarlierRow, EarlierValue> =>
  field(
    key,
    ({ change }) => change?.unit ?? none,
    ({ change }) => change?.[key],
    doc,
    { ...ofChanges, heading: side },
  );

/** What it has of uncertainty: the record's standard error of ln(B/A), known with its degrees of freedom; nobody knows it where a verdict was kept back. */
const parts =
  (slope: (change: EarlierChange) => number) =>
  ({ study, name, change }: EarlierRow): readonly { input: string; size: number; df: number }[] | undefined =>
    change === undefined
      ? undefined
      : [
          {
            input: `${name} of ${study}`,
            size:
              change.standardError === undefined || change.guards.length > 0
                ? Infinity
                : Math.abs(slope(change)) * change.standardError,
            df: change.df ?? Infinity,
          },
        ];

function earlierInShort({ studies, rows }: EarlierValue): string {
  const changes = rows.flatMap(({ change }) => (change === undefined ? [] : [change]));
  const shown = changes.slice(0, 2).map(({ condition, changePercent, lowPercent, highPercent }) => {
    const { value } = interval(changePercent, lowPercent, highPercent);
    return `${condition}: ${signed(value)} %`;
  });
  const what = changes.length > 0 ? counted(changes.length, 'change') : counted(rows.length, 'figure');
  return inShort(`${what} of ${listed(studies.map(({ name }) => name))}`, ...shown);
}

/** Levels and figures in another unit; a change is a ratio and stays. */
function earlierIn(row: EarlierRow, { unit, factor }: Scaling): EarlierRow {
  const { change, figure: one } = row;
  if (change !== undefined) return { ...row, change: { ...change, unit, a: change.a * factor, b: change.b * factor } };
  return typeof one?.value === 'number' ? { ...row, figure: { value: one.value * factor, unit } } : row;
}

export const earlierKind = {
  kind: 'earlier',
  words: 'an earlier study',
  summary: earlierInShort,
  caption: ({ studies }) => `As recorded in ${listed(studies.map(({ path }) => path))}`,
  whole: [
    detail(
      'studies',
      ({ studies }) => studies.map(({ name, path, notebook, tool }) => ({ study: name, path, notebook, tool })),
      'rows',
    ),
  ],
  rows: {
    key: 'rows',
    of: ({ rows }) => rows,
    each: ['change or figure', 'a recorded change or figure'],
    names: [
      figure('study', '', ({ study }) => study),
      figure('result', '', ({ result }) => result),
      figure('recorded_as', '', ({ name }) => name, { inTableOf: hasFigures, heading: 'recorded as' }),
      figure('baseline', '', ({ change }) => change?.baseline, ofChanges),
      figure('condition', '', ({ change }) => change?.condition, ofChanges),
      figure('stratum', '', ({ change }) => (change === undefined ? undefined : (change.stratum ?? 'all')), {
        inTableOf: hasStrata,
      }),
      figure('axis', '', ({ change }) => change?.channel, ofChanges),
    ],
    columns: [
      figure('from', 'Hz', (row) => bandOf(row)?.from, ofChanges),
      figure('to', 'Hz', (row) => bandOf(row)?.to, ofChanges),
      figure('metric', '', ({ change }) => change?.metric, ofChanges),
      level('a', 'The recorded geometric mean over the runs of A', 'baseline'),
      level('b', 'The recorded geometric mean over the runs of B', 'condition'),
      detail('unit', ({ change, figure: one }) => (change?.unit ?? one?.unit)?.symbol ?? '', 'text'),
      field('change', '%', ({ change }) => change?.changePercent, 'The recorded change B/A − 1', {
        ...ofChanges,
        parts: parts(({ changePercent }) => 100 + changePercent),
      }),
      field('low', '%', ({ change }) => change?.lowPercent, 'The lower end of the recorded interval', ofChanges),
      field('high', '%', ({ change }) => change?.highPercent, 'The upper end of the recorded interval', ofChanges),
      field('change_db', 'dB', ({ change }) => change?.changeDb, 'The recorded change in dB', {
        ...ofChanges,
        heading: 'change',
        parts: parts(() => decibelsPerNeper),
      }),
      figure('outcome', '', ({ change }) => change?.outcome, ofChanges),
      figure('confidence', '', ({ change }) => change?.confidence, ofChanges),
      figure('family', '', ({ change }) => change?.family, ofChanges),
      detail('primary', ({ change }) => change?.primary ?? null, 'flag'),
      detail('standard_error', ({ change }) => finite(change?.standardError), 'number'),
      detail('degrees_of_freedom', ({ change }) => finite(change?.df), 'number'),
      detail('guards', ({ change }) => change?.guards ?? [], 'texts'),
      field(
        'value',
        ({ figure: one }) => one?.unit ?? none,
        ({ figure: one }) => (typeof one?.value === 'number' ? one.value : undefined),
        'The recorded figure that is no change',
        { inTableOf: hasFigures },
      ),
      figure('word', '', wordOf, { inTableOf: ({ rows }) => rows.some((row) => wordOf(row) !== undefined) }),
    ],
    // As of a comparison: the change that the question was about, else the one over all strata.
    speakers: (rows) => {
      const primary = rows.filter(({ change }) => change?.primary === true && change.stratum === undefined);
      if (primary.length === 1) return primary;
      const over = rows.filter(({ change }) => change?.stratum === undefined);
      return over.length === 1 ? over : rows;
    },
    pick: { keep: (value, rows) => ({ ...value, rows }) },
  },
  inUnit(value, asked) {
    const own = ({ change, figure: one }: EarlierRow): Unit => (change ?? one)?.unit ?? none;
    const rows = rowsIn(value.rows, asked, own, earlierIn);
    return rows && { ...value, rows };
  },
  drawn: 'frequency',
  runs: () => [],
} satisfies DrawnDescription<EarlierValue, EarlierRow>;

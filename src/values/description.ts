import type { UncertaintyParts } from '../units/uncertainty.ts';
import type { Unit } from '../units/unit.ts';
import type { Cells } from './cells.ts';
import type { Json } from './jsonNumbers.ts';
import type { Run, SensorUncertainty } from './run.ts';
import type { Schema, Shape } from './shapes.ts';

// Functions of a value, and of one of its rows. Taken from methods, so that what is made for one kind may stand among those of all kinds.
type Of<V, T> = { of(value: V): T }['of'];
export type From<Row, V, T> = { from(row: Row, value: V): T }['from'];

/** A figure or a word of each row: JSON, tables, CSV, fields, the reference and charts all read this. */
export interface Figure<Row, V = unknown> extends More<Row, V> {
  /** Its name in JSON, over a table's column and as a field: `crest_factor`. JSON adds a unit that never varies: `width_hz`. */
  readonly key: string;
  /** A symbol, or where it comes from; empty for words and plain numbers. */
  readonly unit: string | From<Row, V, Unit>;
  /** What stands in a row; undefined or not finite where there is none. */
  readonly read: From<Row, V, number | string | boolean | undefined>;
  /** What it is; this makes it a field (`L.rms`) with a line in completion and in the reference. */
  readonly doc?: string;
}

/** Where a figure departs from what its key and unit give. */
export interface More<Row, V = unknown> extends Shown {
  /** What its inputs contribute to its uncertainty, where that is known; undefined of an exact figure. */
  readonly parts?: From<Row, V, UncertaintyParts | undefined>;
  /** Of a figure in a unit of its own that is as many times the sensor's sensitivity as the row's figures are. */
  readonly bySensor?: true;
  /** Over a table's column, where the key won't do. */
  readonly heading?: string | Of<V, string>;
  /** Over a column that people read, where key and heading, as files have them, are written otherwise: `r.m.s.` */
  readonly written?: string;
  /** In JSON, where it is called otherwise than key and unit say. */
  readonly jsonKey?: string;
  /** In JSON, where it is more than what a table's cell can hold; undefined leaves it out. */
  readonly json?: From<Row, V, Json | undefined>;
  /** Whether its `json` may leave it out. */
  readonly optional?: true;
  /** In a table, where that has other words than JSON. */
  readonly inWords?: From<Row, V, string>;
  /** Where it does not stand. */
  readonly notIn?: 'table' | 'json and table';
  /** Of which values it stands in a table; of all unless said. */
  readonly inTableOf?: Of<V, boolean>;
}

/** What only JSON can hold of each row: lists and parts. Undefined leaves it out. */
export interface Detail<Row, V = unknown> {
  readonly key: string;
  readonly json: From<Row, V, Json | undefined>;
  /** For the schema of JSON; anything unless said. */
  readonly shape?: Shape;
}

export type Column<Row, V = unknown> = Figure<Row, V> | Detail<Row, V>;

/** How a chart's table writes a figure for people: to 4 digits and with equal decimals down the column unless said. */
export interface Shown {
  /** The key in words with a capital unless said: `crest_factor` is `Crest factor`. */
  readonly title?: string;
  readonly digits?: number;
  /** So many, whatever the size. */
  readonly decimals?: number;
  /** Each by its own size, or exact as given. */
  readonly each?: 'rounded' | 'as given';
  readonly signed?: true;
  /** It may be of either sign, and so has no level in dB. */
  readonly eitherSign?: true;
  /** A ratio that is written in percent. */
  readonly percent?: true;
  /** Of second rank: it stands in the further table. */
  readonly further?: true;
}

/** Arrays in each row, all of one length: lists in JSON, one row an index in tables. */
export interface Series<Row, V = unknown> {
  /** What is shown of the arrays. */
  readonly indices: From<Row, V, ArrayLike<number>>;
  readonly columns: readonly SeriesColumn<Row, V>[];
}

export interface SeriesColumn<Row, V = unknown> extends Pick<Figure<Row, V>, 'key' | 'unit' | 'heading' | 'written'> {
  readonly at: From<Row, number, number>;
  /** In JSON, where that is not the list of the same figures; null where JSON has no need of it. */
  readonly json?: From<Row, V, Json> | null;
}

/** The rows of a value and what each of them says. */
export interface Rows<V, Row = unknown> {
  /** Under which JSON has them. */
  readonly key: string;
  readonly of: Of<V, readonly Row[]>;
  /** What there is a row for, and whose its fields are: `run and channel`, `a run’s channel`. */
  readonly each: readonly [what: string, owner: string];
  /** Unit of its figures: JSON says the first row's before all rows, and a row's own where that is another. */
  readonly unit?: From<Row, V, Unit>;
  /** The sensor that its figures in a unit of their own are of: what is known of its sensitivity widens their fields. */
  readonly sensor?: From<Row, V, SensorUncertainty | undefined>;
  /** What a row is called by: run, channel. */
  readonly names: readonly Column<Row, V>[];
  readonly columns: readonly Column<Row, V>[];
  readonly series?: Series<Row, V>;
  /** Keys that JSON has before the others, since it keeps the order of its first version. */
  readonly jsonFirst?: readonly string[];
  /** The rows whose fields speak for the value, where not all do. */
  readonly speakers?: Of<readonly Row[], readonly Row[]>;
  /** How rows are picked: those that go together, such as a run's channels, or each by itself; and the value with these alone. */
  readonly pick?: { readonly together?: From<Row, V, string>; readonly keep: From<V, readonly Row[], V> };
}

/** A table that is saved beside a value's own; one word says what it is of: `runs`. */
export interface SavedTable {
  readonly of: string;
  readonly cells: Cells;
}

/** What a kind is drawn over; kinds over time and over frequency share no chart. */
export type DrawnOver = 'time' | 'frequency' | 'itself';

/** What is known of a value's signals, so far as they have it in common. */
export interface Known {
  readonly channels?: readonly string[];
  /** The channels' other names: how their files spell them. */
  readonly headers?: readonly string[];
  readonly unit?: string;
  /** Of the slowest run, in Hz. */
  readonly rate?: number;
  /** What all runs have in common, in s from the start of each. */
  readonly duration?: number;
}

/** A kind of value as all kinds can be read. */
export interface Described<V extends { readonly kind: string }, Row = unknown> {
  readonly kind: V['kind'];
  /** In a sentence: `levels`, `a spectrum`. */
  readonly words: string;
  /** The value in a few words, for completion, a hover and the lines that stay in view: unit, runs, rate, the figures that matter. */
  readonly summary: Of<V, string>;
  /** What can be checked against the value before anything is made of it. */
  readonly known?: Of<V, Known>;
  /** What the value says as a whole, in JSON before its rows; a value without rows has its table of these. */
  readonly whole: readonly Column<V, V>[];
  /** As of rows, for the whole. */
  readonly jsonFirst?: readonly string[];
  readonly rows?: Rows<V, Row>;
  /** What JSON says after the rows. */
  readonly after?: readonly Detail<V, V>[];
  /** Over its table; a kind without caption and table is not tabulated. */
  readonly caption?: Of<V, string>;
  /** A table of another shape than its rows have. */
  readonly table?: Of<V, Cells>;
  /** The table that is saved as a file, where that has another shape: long, for other programs. */
  readonly saved?: Of<V, Cells>;
  /** Further tables, each saved as a file beside its own. */
  readonly savedBeside?: Of<V, readonly SavedTable[]>;
  /** JSON of another shape than its columns give. */
  readonly json?: Of<V, { readonly [key: string]: Json }>;
  /** The schema of such JSON. */
  readonly jsonSchema?: Schema;
  /** The same in a unit that is asked for; undefined where nothing of it measures that. A kind without it has no unit. */
  readonly inUnit?: From<V, Unit, V | undefined>;
  /** Every run it was made from: their faults are told with whatever is made of it. */
  readonly runs: Of<V, readonly Run[]>;
  /** Over which axis `plot` draws it, if it does. */
  readonly drawn?: DrawnOver;
  /** Whether a value without a label of its own is called by the name it is bound to. */
  readonly named?: true;
  /** Whether it hands on the runs that a run sheet leaves out. */
  readonly handsOnExcluded?: true;
}

/** What follows from the properties of a kind's type, so that none of it can be forgotten. */
type HandsOn<V> = ('set' extends keyof V ? { readonly named: true } : { readonly named?: never }) &
  ('excluded' extends keyof V ? { readonly handsOnExcluded: true } : { readonly handsOnExcluded?: never });

/** A kind of value, described once: one that `plot` does not take. */
export type Description<V extends { readonly kind: string }, Row = unknown> = Described<V, Row> &
  HandsOn<V> & { readonly drawn?: never };

/** A kind of value that `plot` draws, described once. */
export type DrawnDescription<V extends { readonly kind: string }, Row = unknown> = Described<V, Row> &
  HandsOn<V> & { readonly drawn: DrawnOver };

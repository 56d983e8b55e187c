import type { StartBeside } from './text/rowsBeside.ts';
import type { Message } from '../result/result.ts';
import type { Severity } from '../result/severity.ts';
import type { Stretch } from '../signal/stretch.ts';

export type { Stretch };

/** What a reader gives for one file: its channels, its clock, and what was noticed while reading. */
export interface Recording {
  /** The file's path, as the host named it. */
  readonly file: string;
  /** How the file was understood, for the person who must be able to check it. */
  readonly layout: Layout;
  /** Every numeric column but the time, in file order; all of the same length. */
  readonly channels: readonly RecordedChannel[];
  readonly clock: Clock;
  /** Things a careful reader would mention, the most serious first. */
  readonly findings: readonly Finding[];
  /** Of a recording that is too large to stand in memory: then its channels have no samples, and are read part by part. */
  readonly long?: LongRecording;
}

/** How a recording that is too large for memory is read again, part by part. Plain data. */
export interface LongRecording {
  /** Samples of each channel. */
  readonly rows: number;
  /** In order, without anything between them. */
  readonly parts: readonly LongPart[];
  readonly sizes: PartSizes;
}

/** A part of a file that is read by itself. */
export interface LongPart {
  /** Its bytes, from one up to but without another. */
  readonly from: number;
  readonly to: number;
  /** 1-based line of its first row. */
  readonly line: number;
  /** Index of its first sample, and how many it has. */
  readonly row: number;
  readonly rows: number;
}

/** From how many bytes on a file is read part by part, how many bytes make a part, and numbers that stand in memory at once at most. */
export interface PartSizes {
  readonly from: number;
  readonly part: number;
  readonly most: number;
}

/** The lowest and the highest of so many samples after one another, none of them across a gap. */
export interface Outline {
  readonly stride: number;
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** The first block of each unbroken stretch, and the first of its samples. */
  readonly starts: readonly { readonly block: number; readonly row: number }[];
}

/** One column of readings. */
export interface RecordedChannel {
  /** `x`, `y`, `z` for a recognised acceleration axis, else the header without its unit, else `column1`… */
  readonly name: string;
  /** The header's text as it stands in the file, or undefined where there is none. */
  readonly header: string | undefined;
  /** The unit's symbol in the language's spelling (`g`, `m/s^2`, `mm/s^2`, `mg`), or undefined if unsettled. */
  readonly unit: string | undefined;
  readonly unitFrom: 'option' | 'header' | 'mean vector' | 'none';
  /** Whether this is an axis of acceleration (taken by `load` when no channel is named). */
  readonly axis: boolean;
  /** None where the recording was read for other channels. */
  readonly samples: Float64Array;
  /** Smallest difference between two values, where it is known already. */
  readonly step?: number;
  /** Of a recording that is too large for memory. */
  readonly outline?: Outline;
}

/** The time base of a recording. Sample i of stretch s is at s.start + (i - s.from) / rate. */
export interface Clock {
  /** Samples a second, in Hz. */
  readonly rate: number;
  readonly rateFrom: 'stamps' | 'option' | 'preamble' | 'file header';
  /** Time of the first sample on the file's own clock in s, or undefined when there is no time column. */
  readonly epoch: number | undefined;
  /** Unbroken stretches in order; more than one when there are gaps. Times in s from the first sample. */
  readonly stretches: readonly Stretch[];
  /** Standard deviation of the steps over their mean, after rounding of the stamps is taken out; 0 without stamps. */
  readonly jitter: number;
  /** Each sample's time in s from the first: kept only where sampling is too uneven to be called uniform. */
  readonly times: Float64Array | undefined;
}

export type { Severity };

/** Something that a careful reader would mention. */
export interface Finding extends Message {
  readonly severity: Severity;
  /** The figure that was judged, and the threshold it was judged by, in the check's own unit. */
  readonly value?: number | undefined;
  readonly threshold?: number | undefined;
  readonly channel?: string | undefined;
  /** Of clipping: integral over time of the square of what was cut off, as far as its edges tell; in the channel's unit squared by s. */
  readonly lost?: number | undefined;
  /** Where in the recording, in s from the first sample. */
  readonly spans?: readonly TimeSpan[];
}

/** In s from the recording's first sample. */
export interface TimeSpan {
  readonly from: number;
  readonly to: number;
}

/** How a file was understood. Every entry can be overridden by an option of `load`. */
export interface Layout {
  /** `delimited text`, `wav`, … */
  readonly format: string;
  readonly encoding?: string;
  readonly delimiter?: string;
  readonly decimal?: '.' | ',';
  /** Lines before the header (or the first row), and the keys that were read from them. */
  readonly preamble?: readonly string[];
  readonly keys?: Readonly<Record<string, string>>;
  /** 1-based line of the header and of the units row, if there are such. */
  readonly headerLine?: number | undefined;
  readonly unitsLine?: number | undefined;
  /** 1-based line of the first row of numbers. */
  readonly firstRowLine?: number;
  readonly rows: number;
  /** Header of the column read as time, its style (`s`, `ms`, `us`, `epoch`, `iso8601`, `clock`, …) and its step in s. */
  readonly time?: { readonly column: string; readonly style: string; readonly quantum: number };
  /** Columns that are not numbers or were left out, with the reason. */
  readonly leftOut?: readonly LeftOut[];
  /** The sensors of a long-form file, of which one was read. */
  readonly sensors?: readonly string[];
  /** The first lines with numbers, as they stand and as they were read. */
  readonly firstRows?: readonly FirstRow[];
}

/** A column that becomes no channel, and why: a clause. */
export interface LeftOut {
  readonly column: string;
  readonly why: Message;
}

/** A row as it stands, and as it was read. */
export interface FirstRow {
  readonly line: number;
  readonly text: string;
  /** One value a column of the file, in file order: a number, or a text as it stands. */
  readonly values: readonly (number | string)[];
}

/** Hours and minutes, or minutes and seconds. */
export type ClockParts = 'hh:mm' | 'mm:ss';

/** Options of `load` that override detection. Names as in the language. */
export interface ReadOptions {
  readonly time?: string;
  readonly unit?: string;
  /** Samples a second, above 0. */
  readonly rate?: number;
  readonly delimiter?: string;
  readonly decimal?: '.' | ',';
  readonly skip?: number;
  /** The value of one count, in `unit`. */
  readonly scale?: number;
  /** Which sensors of a long-form file: one, or several beside each other. */
  readonly sensors?: readonly string[];
  /** Channels that will be asked for; where sensors fill rows of their own, those of theirs are taken. */
  readonly wanted?: readonly string[];
  /** A channel that counts turns, which is taken beside the others, in plain numbers where it has no unit that is known. */
  readonly tacho?: string;
  /** Numbers that stand for no reading. */
  readonly sentinels?: readonly number[];
  /** `none`: lines that begin with a mark of comments are rows as well. */
  readonly comment?: 'none';
  /** What the two parts of a clock such as `10:20` are. */
  readonly clock?: ClockParts;
  /** Offset from UTC, such as `+02:00`, or `local`. */
  readonly timezone?: string;
  /** Channel names given by hand: our name to the header's text. */
  readonly channels?: Readonly<Record<string, string>>;
}

/** Bytes of a file, read in pieces so that a large file never stands in memory as text. */
export interface ByteSource {
  readonly path: string;
  readonly size: number;
  /** Up to `length` bytes from `position`; fewer only at the end. The array may be reused by the next call. */
  read(position: number, length: number, into?: Uint8Array): Promise<Uint8Array>;
  /** What is read part by part, where the host has more or less memory than most. */
  readonly sizes?: PartSizes;
  /** Why a reading gave no bytes where there should be some, once one did. */
  fault?(): SourceFault | undefined;
}

/** Other bytes than those that were hashed, or the system's refusal by its code, as `EACCES`. */
export type SourceFault = { readonly kind: 'changed' } | { readonly kind: 'refused'; readonly system: string };

/** How the host watches and stops a long reading. */
export interface ReadWatch {
  readonly cancelled: () => boolean;
  readonly progress: (fraction: number) => void;
  /** Has another thread read rows of the same file, where there is one that is worth it. */
  readonly beside?: StartBeside | undefined;
  /** Tells the host that it soon may be asked for another thread. */
  readonly expectBeside?: (() => void) | undefined;
}

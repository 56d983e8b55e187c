import type { Sentences } from '../../result/messages.ts';
import { counted } from '../../result/words.ts';
import { limits } from '../limits.ts';
import { figure, location, quote } from './words.ts';

interface File {
  readonly path: string;
}

/** What a message tells of a file as a whole, of its format, and of a run sheet. */
export interface FileFacts {
  memory: File;
  /** `skip` lines were passed over of so many. */
  empty: File & { readonly skipped?: { readonly skip: number; readonly lines: number } };
  cancelled: File;
  /** `short`: the file ended early. */
  'file-changed': File & { readonly short?: { readonly read: number; readonly size: number } };
  'file-unreadable': File & { readonly system: string };
  'packed-twice': File;
  'damaged-gzip': File;
  'expands-too-far': File & { readonly expanded: number; readonly factor: number };
  'foreign-format': File & { readonly format: string; readonly remedy: string };
  'damaged-parquet': File;
  /** `page` of a group of rows, counted from 1, or 0 for the dictionary of the column there. */
  'damaged-page': File & { readonly column: string; readonly group: number; readonly page: number };
  'damaged-wav': File & { readonly lacks: 'samples' | 'format' | 'end of the format' };
  'wav-format': File &
    (
      | { readonly format: number; readonly bits: number }
      | { readonly channels: number; readonly rate: number }
      /** Bytes of one sample of every channel, as the file states them. */
      | { readonly channels: number; readonly bits: number; readonly frame: number }
    );
  'wav-formats-differ': File & { readonly first: SpeltFormat; readonly second: SpeltFormat };
  'wav-list': File;
  'damaged-universal': File & { readonly line: number };
  /** `format` of the numbers, as the dataset states it: 1 VAX, 2 IEEE 754, 3 IBM 370. */
  'universal-binary': File & { readonly line: number; readonly format: number };
  'universal-format': File & { readonly line: number; readonly fault: UniversalFault };
  'universal-differ': File & { readonly line: number; readonly own: UniversalSeries; readonly first: UniversalSeries };
  'no-time-response': File & { readonly held: readonly string[] };
  'direction-reversed': object;
  /** Columns of a table, or of the rows of a text, which may be more than were counted. */
  'too-many-columns': File & { readonly columns?: number };
  'too-many-samples': File & { readonly what: 'numbers' | 'values' | 'samples' };
  /** Of a file of more than `from` bytes, at the line where a part begins. */
  'parts-unfit': File & { readonly why: PartsUnfit; readonly line: number; readonly from: number };
  'read-in-parts': { readonly parts: number };
  'cut-short':
    | { readonly line: number; readonly text: string }
    | { readonly samples: number; readonly stated: number | undefined };
  /** Of a WAV file: chunks of samples after the first, and how many samples of each channel they hold. */
  'samples-after': { readonly chunks: number; readonly samples: number };
  'sheet.large': File;
  'sheet.binary': File;
  'sheet.empty': File;
  'sheet.column': File & { readonly line: number; readonly name: string };
  'sheet.width': File & { readonly line: number; readonly cells: number; readonly columns: number };
}

/** Why the parts of a file make no recording. */
export type PartsUnfit =
  'uneven' | 'shared stamps' | 'backward' | 'other rate' | 'rows left out' | 'other columns' | 'sensors';

const partsUnfit: Readonly<Record<PartsUnfit, string>> = {
  uneven: 'its samples were taken too unevenly',
  'shared stamps': 'several of its rows share a stamp',
  backward: 'its time runs back or stands still',
  'other rate': 'its rate changes',
  'rows left out': 'rows are missing and no stamp tells when the others were sampled',
  'other columns': 'its columns read otherwise than before',
  sensors: 'its rows are of several sensors',
};

/** What a format chunk of a WAV file states. */
export interface SpeltFormat {
  readonly float: boolean;
  readonly channels: number;
  /** In Hz. */
  readonly rate: number;
  readonly bits: number;
}

const speltFormat = ({ float, channels, rate, bits }: SpeltFormat): string =>
  `${counted(channels, 'channel')} of ${bits} bits${float ? ' floating point' : ''} at ${rate} Hz`;

/** A function of dataset 58: how many values it has, and their rate in Hz. */
export interface UniversalSeries {
  readonly values: number;
  readonly rate: number;
}

/** Why a function of dataset 58 can't be read. */
export type UniversalFault =
  | { readonly kind: 'header'; readonly lines: number }
  | { readonly kind: 'data type'; readonly type: number }
  | { readonly kind: 'spacing' }
  | { readonly kind: 'step'; readonly step: number }
  /** `exponents` of length, force and temperature. */
  | { readonly kind: 'abscissa'; readonly unit: string; readonly exponents: readonly number[] }
  | { readonly kind: 'count'; readonly count: number }
  | { readonly kind: 'values'; readonly values: number; readonly count: number };

function universalFault(fault: UniversalFault): string {
  switch (fault.kind) {
    case 'header':
      return `dataset 58 has ${counted(fault.lines, 'line')}, fewer than its header`;
    case 'data type':
      return `the function is ${fault.type === 5 || fault.type === 6 ? 'complex' : `of data type ${fault.type}`}, and only real ones can be read`;
    case 'spacing':
      return 'the function states a spacing that is neither even nor uneven (1 or 0)';
    case 'step':
      return `the step of ${fault.step} s is no time step`;
    case 'abscissa':
      return fault.exponents.some((one) => one !== 0)
        ? `the abscissa has the exponents ${fault.exponents.join(', ')} of length, force and temperature, which are no time`
        : `the abscissa is in ${quote(fault.unit)}, which is no unit of time`;
    case 'count':
      return `the function states ${counted(fault.count, 'value')}`;
    case 'values':
      return `the function has ${counted(fault.values, 'value')} where its header states ${fault.count}`;
  }
}

export const fileSentences: Sentences<FileFacts> = {
  memory: ({ path }) => `${path}: there is not enough memory for all of this file's numbers: cut it into parts.`,
  empty: ({ path, skipped }) =>
    skipped
      ? `${path}: skip ${skipped.skip} passes over the whole file, which has ${counted(skipped.lines, 'line')}.`
      : `${path}: the file is empty.`,
  cancelled: ({ path }) => `${path}: reading was stopped.`,
  'file-changed': ({ path, short }) =>
    short === undefined
      ? `${path}: the file changed while it was read, so these are not the bytes that were hashed: run this again when nothing writes to it any more.`
      : `${path}: the file became shorter while it was read (${short.read} of ${short.size} bytes): read it again when nothing writes to it any more.`,
  'file-unreadable': ({ path, system }) =>
    system === 'ENOENT'
      ? `${path}: the file was found, but is not there when it is read (ENOENT): it was moved meanwhile, or its name holds a backslash, which stands for a folder here; see where it is, and rename it.`
      : `${path}: the system refuses to read the file (${system}): see its permissions, or copy it to another disk.`,
  'packed-twice': ({ path }) => `${path}: the compressed file holds another packed file: unpack it first.`,
  'damaged-gzip': ({ path }) => `${path}: the compressed file is damaged or cut short: copy it again from the logger.`,
  'expands-too-far': ({ path, expanded, factor }) =>
    `${path}: the packed file grows to more than ${figure(expanded / 2 ** 20)} MiB, ${figure(factor)} times its size; the limits are ${limits.expanded / 2 ** 30} GiB and, past ${limits.expandedFree / 2 ** 20} MiB, ${limits.expansion} times: unpack it and load the parts you need.`,
  'foreign-format': ({ path, format, remedy }) => `${path}: this is ${format}, which can't be read: ${remedy}.`,
  'damaged-parquet': ({ path }) =>
    `${path}: the Parquet file is damaged or uses a part of the format that can't be read: export it again, or as CSV.`,
  'damaged-page': ({ path, column, group, page }) =>
    `${path}: ${page === 0 ? 'the dictionary' : `page ${page}`} of the column ${quote(column)} in row group ${group} does not match its checksum, so its bytes changed after they were written: copy the file again, or export it anew.`,
  'damaged-wav': ({ path, lacks }) =>
    ({
      samples: `${path}: the WAV file ends before its samples: copy it again from the recorder.`,
      format: `${path}: the WAV file has samples but no format before them, so they can't be read.`,
      'end of the format': `${path}: the format chunk of the WAV file is cut short.`,
    })[lacks],
  'wav-format': (facts) => {
    if ('frame' in facts)
      return `${facts.path}: the WAV file states ${counted(facts.channels, 'channel')} of ${facts.bits} bits, and ${counted(facts.frame, 'byte')} for one sample of each, which does not go together: export it anew, with ${facts.bits} bits packed.`;
    return 'bits' in facts
      ? `${facts.path}: this WAV file is in format ${facts.format} with ${facts.bits} bits; only whole numbers of 8, 16, 24 and 32 bits and floating point of 32 and 64 can be read: export it as one of those.`
      : `${facts.path}: the WAV file states ${counted(facts.channels, 'channel')} at ${facts.rate} Hz, which is no recording.`;
  },
  'wav-formats-differ': ({ path, first, second }) =>
    `${path}: the WAV file has two format chunks before its samples, ${speltFormat(first)} and ${speltFormat(second)}, so that nobody can tell which of them holds: export it anew from the recorder.`,
  'wav-list': ({ path }) =>
    `${path}: the samples of this WAV file lie in a list of pieces with silence between them (wavl), which can't be read: open it in a program for sound and save it as a plain WAV file, whose samples are one piece.`,
  'damaged-universal': ({ path, line }) =>
    `${location(path, line)}: the last dataset of this Universal File is not closed, so the file is cut short: export it again.`,
  'universal-binary': ({ path, line, format }) =>
    `${location(path, line)}: this dataset 58 holds binary numbers ${format === 1 || format === 3 ? `of ${format === 1 ? 'a VAX' : 'an IBM 370'}` : 'in an unknown form'}, and only those of IEEE 754 can be read: export it as ASCII.`,
  'universal-format': ({ path, line, fault }) =>
    `${location(path, line)}: ${universalFault(fault)}: export the time histories as real numbers over the time in s.`,
  'universal-differ': ({ path, line, own, first }) =>
    `${location(path, line)}: this function has ${counted(own.values, 'value')} at ${figure(own.rate)} Hz where the first has ${first.values} at ${figure(first.rate)} Hz: export functions of one rate and length to one file.`,
  'no-time-response': ({ path, held }) => {
    const others = held.map((kind) => (kind === '58' ? 'functions that are no time responses' : `dataset ${kind}`));
    const only = others.length > 0 ? `, only ${others.join(', ')}` : '';
    return `${path}: this Universal File holds no time response (dataset 58, function type 1)${only}: export the time histories.`;
  },
  'direction-reversed': () => 'Functions that are stated along a negative axis were turned to the positive one.',
  'too-many-columns': ({ path, columns }) =>
    columns === undefined
      ? `${path}: the rows have more than ${limits.columns} columns, the most that a recording may have: cut the file into parts.`
      : `${path}: the file has ${columns} columns; a recording may have ${limits.columns} at most.`,
  'too-many-samples': ({ path, what }) =>
    `${path}: the file holds more than ${limits.samples / 1e6} million ${what}, the most that one recording may have: cut it into parts.`,
  'parts-unfit': ({ path, why, line, from }) =>
    `${location(path, line)}: the file is so large that it is read in parts, and in the one that begins here ${partsUnfit[why]}: cut it into files of less than ${figure(from / 2 ** 30)} GiB.`,
  'read-in-parts': ({ parts }) =>
    `The file was too large for memory and was read in ${counted(parts, 'part')}; what was found in several of them is told with the figures of the first.`,
  'cut-short': (facts) => {
    if ('line' in facts) return `The last line (${facts.line}) is cut short (${quote(facts.text)}) and was left out.`;
    const { samples, stated } = facts;
    const how = stated === undefined ? 'without stating its length' : `after ${samples} of ${stated} samples`;
    return `The file ends ${how}, as where the recorder was switched off; what is there was read.`;
  },
  'samples-after': ({ chunks, samples }) =>
    `${counted(samples, 'more sample')} of each channel in ${counted(chunks, 'later chunk')} of the file ${samples === 1 ? 'was' : 'were'} not read, as nothing says when after the first ones they were taken: save each chunk as a file of its own.`,
  'sheet.large': ({ path }) => `${path} is too large for a run sheet: is it a recording?`,
  'sheet.binary': ({ path }) => `${path} is no text: a run sheet is a CSV file.`,
  'sheet.empty': ({ path }) => `${path} is empty: a run sheet begins with a header such as file,condition,order.`,
  'sheet.column': ({ path, line, name }) => `${location(path, line)}: two columns are called ${name}: rename one.`,
  'sheet.width': ({ path, line, cells, columns }) =>
    `${location(path, line)} has ${cells} cells and the header ${columns}: put quotes around a note that holds the delimiter.`,
};

import { counted } from '../result/words.ts';
import { gapsOf } from '../readers/checks/gaps.ts';
import { unwatched } from '../readers/read.ts';
import { readChecked } from '../readers/readChecked.ts';
import { worstFirst } from '../result/severity.ts';
import { rowsIn } from '../readers/long/rowsIn.ts';
import type { ByteSource, Finding, ReadOptions, Outline, Recording } from '../readers/recording.ts';
import { loadLine } from './loadLine.ts';

/** A first look at one file: how it is understood, in lines of text, and the line that loads it. */
export interface Look {
  readonly path: string;
  readonly ok: boolean;
  readonly lines: readonly string[];
  /** The statement to paste into a cell; undefined for a file that can't be read as it stands. */
  readonly load: string | undefined;
  readonly recording: Recording | undefined;
}

/** Looks at a file without keeping it, with the checks that `load` makes. @param given the options of `load` that were stated by hand */
export async function look(source: ByteSource, given: ReadOptions): Promise<Look> {
  const { path, size } = source;
  const found = await readChecked(source, given, unwatched);
  if (!found.ok)
    return {
      path,
      ok: false,
      lines: [`${path}  ${bytes(size)}`, `  can't be read: ${found.failure.message}`],
      load: undefined,
      recording: undefined,
    };
  const recording = found.value;
  const unsettled = recording.channels.filter(
    ({ axis, unit }) => unit === undefined && (axis || !recording.channels.some((one) => one.axis)),
  );
  const lines = [
    `${path}  ${bytes(size)}`,
    ...layoutLines(recording),
    ...clockLines(recording),
    ...channelLines(recording),
    ...rowLines(recording),
    ...findingLines(recording.findings),
  ];
  const load = loadLine([path], given);
  lines.push(unsettled.length > 0 ? `  to load it, add what settles the unit:  ${load}` : `  to load it:  ${load}`);
  return { path, ok: true, lines, load, recording };
}

function bytes(size: number): string {
  if (size < 1000) return `${size} bytes`;
  return size < 1e6 ? `${(size / 1e3).toFixed(1)} kB` : `${(size / 1e6).toFixed(2)} MB`;
}

const delimiters: Readonly<Record<string, string>> = {
  ',': 'commas',
  ';': 'semicolons',
  '\t': 'tabs',
  ' ': 'blanks',
  '|': 'upright bars',
};

function layoutLines({ layout }: Recording): string[] {
  const how = [layout.format];
  if (layout.encoding !== undefined) how.push(layout.encoding);
  if (layout.delimiter !== undefined)
    how.push(`${delimiters[layout.delimiter] ?? `"${layout.delimiter}"`} between columns`);
  if (layout.decimal !== undefined) how.push(`decimal mark "${layout.decimal}"`);
  const lines = [how.join(', ')];
  const { preamble = [], headerLine, unitsLine, firstRowLine } = layout;
  if (preamble.length > 0)
    lines.push(`${preamble.length} ${preamble.length === 1 ? 'line' : 'lines'} before the table`);
  const keys = Object.entries(layout.keys ?? {}).slice(0, 8);
  if (keys.length > 0) lines.push(`read from them: ${keys.map(([key, value]) => `${key} = ${value}`).join('; ')}`);
  const where = [
    headerLine === undefined
      ? layout.format === 'Parquet'
        ? 'named columns'
        : 'no header'
      : `header on line ${headerLine}`,
    ...(unitsLine === undefined ? [] : [`units on line ${unitsLine}`]),
    ...(firstRowLine === undefined ? [] : [`numbers from line ${firstRowLine}`]),
    counted(layout.rows, 'row'),
  ];
  lines.push(where.join(', '));
  for (const { column, why } of layout.leftOut ?? []) lines.push(`left out: ${column}, ${why.message}`);
  if (layout.sensors !== undefined) lines.push(`sensors in this file: ${layout.sensors.join(', ')}`);
  return lines.map((line) => `  ${line}`);
}

function clockLines(recording: Recording): string[] {
  const { clock, layout } = recording;
  const samples = rowsIn(recording);
  const origin = {
    stamps: 'by its time stamps',
    option: 'as stated',
    preamble: 'from the lines above the table',
    'file header': 'from the file’s header',
  }[clock.rateFrom];
  const gaps = gapsOf(clock).length;
  const last = clock.stretches.at(-1);
  const duration = last === undefined ? 0 : last.start + (last.to - last.from) / clock.rate;
  const lines: string[] = [];
  if (layout.time !== undefined)
    lines.push(
      `time: "${layout.time.column}" as ${layout.time.style}, in steps of ${Number(layout.time.quantum.toPrecision(3))} s`,
    );
  lines.push(
    `rate: ${Number(clock.rate.toPrecision(7))} Hz ${origin}; ${samples} samples, ${duration.toFixed(2)} s, ${gaps === 0 ? 'no gap' : gaps === 1 ? '1 gap' : `${gaps} gaps`}`,
  );
  return lines.map((line) => `  ${line}`);
}

function channelLines({ channels }: Recording): string[] {
  return channels.map(({ name, header, unit, unitFrom, axis, samples, outline }) => {
    const from = header === undefined || header === name ? '' : ` ("${header}")`;
    const inUnit =
      unit === undefined ? 'unit not settled' : `in ${unit === '' ? 'plain numbers' : unit}, from the ${unitFrom}`;
    const { mean, low, high } = outline === undefined ? extent(samples) : extentOf(outline);
    const about = mean === undefined ? '' : `mean ${short(mean)}, `;
    return `  channel ${name}${from}: ${inUnit}${axis ? '' : ', no axis of acceleration'}; ${about}${short(low)} to ${short(high)}`;
  });
}

interface Extent {
  readonly mean?: number;
  readonly low: number;
  readonly high: number;
}

/** Of a recording that is too large for memory. */
const extentOf = ({ low, high }: Outline): Extent => ({ low: extent(low).low, high: extent(high).high });

function extent(samples: Float64Array): Extent {
  let [sum, low, high] = [0, Infinity, -Infinity];
  for (const value of samples) {
    sum += value;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return { mean: sum / samples.length, low, high };
}

const short = (value: number): string => String(Number(value.toPrecision(4)));

function rowLines({ layout: { firstRows = [] } }: Recording): string[] {
  if (firstRows.length === 0) return [];
  const shown = firstRows.slice(0, 3).map(({ line, text, values }) => ({
    line: String(line),
    text: text.length > 60 ? `${text.slice(0, 57)}…` : text,
    values: values.join('  '),
  }));
  const [lineWidth, textWidth] = [
    Math.max(4, ...shown.map(({ line }) => line.length)),
    Math.max(...shown.map(({ text }) => text.length)),
  ];
  return [
    `  ${'line'.padStart(lineWidth)}  ${'as it stands'.padEnd(textWidth)}  as read`,
    ...shown.map(({ line, text, values }) => `  ${line.padStart(lineWidth)}  ${text.padEnd(textWidth)}  ${values}`),
  ];
}

function findingLines(findings: readonly Finding[]): string[] {
  return worstFirst(findings, (one) => one).map(({ severity, message }) => `  ${severity}: ${message}`);
}

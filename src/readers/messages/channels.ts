import { counted, listedInFew } from '../../result/words.ts';
import type { Sentences } from '../../result/messages.ts';
import type { Message } from '../../result/result.ts';
import { listed } from '../../result/words.ts';
import { atLine, figure, inQuotes, location, quote, rowsOf } from './words.ts';

interface Calibration {
  readonly unit: string;
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** Why nothing settles the unit of acceleration. `length` is that of the mean vector; `unit` the one in which it is gravity. */
export type UnsettledUnit =
  | { readonly kind: 'some columns'; readonly without: readonly string[] }
  | { readonly kind: 'raw'; readonly raw: string }
  /** `unknown`: what the header says and is no known unit. */
  | { readonly kind: 'no axes'; readonly unknown: string | undefined }
  | { readonly kind: 'counts'; readonly length: number; readonly counts: number; readonly unit: string | undefined }
  | {
      readonly kind: 'no gravity';
      readonly unknown: string | undefined;
      readonly length: number;
      readonly isSmall: boolean;
    }
  | { readonly kind: 'calibration'; readonly calibration: Calibration; readonly length: number };

/** What a message tells of rows, columns, sensors and units. */
export interface ChannelFacts {
  scale: { readonly path: string; readonly lacksUnit?: { readonly scale: number } };
  'too-short': { readonly path: string; readonly rows: 0 | 1 | 'incomplete' };
  /** Columns that a file of binary format holds in a form that is not read, and why. */
  'no-channels': {
    readonly path: string;
    readonly unread: readonly { readonly column: string; readonly why: Message }[];
  };
  'no-such-channel': {
    readonly path: string;
    readonly name: string;
    readonly header: string;
    readonly columns: readonly string[];
  };
  'axis-not-numbers': {
    readonly path: string;
    readonly column: string;
    readonly isNamed: boolean;
    readonly text: string;
  };
  'no-sensor-column': { readonly path: string; readonly sensor: string };
  'which-sensor': { readonly path: string; readonly column: string; readonly sensors: readonly string[] };
  'no-such-sensor': {
    readonly path: string;
    readonly column: string;
    readonly sensor: string;
    readonly sensors: readonly string[];
  };
  'mostly-empty': {
    readonly path: string;
    readonly line: number | undefined;
    readonly empty: number;
    readonly rows: number;
  };
  /** `both`: rows that hold both channels. */
  'filled-apart': {
    readonly path: string;
    readonly one: string;
    readonly other: string;
    readonly both: number;
    readonly rows: number;
  };
  /** `others`: rows that hold none of the channels. */
  'other-rows': { readonly others: number; readonly rows: number; readonly channels: readonly string[] };
  /** Rates in Hz of the first and the other. */
  'sensors-unequal': {
    readonly path: string;
    readonly first: string;
    readonly other: string;
    readonly rates: readonly [number, number];
  };
  'sensors-apart': {
    readonly path: string;
    readonly first: string;
    readonly other: string;
    readonly met: number;
    readonly rows: number;
  };
  /** `offset` in s: how much later the other is read. */
  'sensors-offset': { readonly first: string; readonly other: string; readonly offset: number };
  'empty-cells': { readonly empty: number; readonly rows: number; readonly line: number | undefined };
  'rows-repeated': { readonly repeated: number; readonly rows: number };
  'rows-sent-again': { readonly again: number; readonly rows: number; readonly line: number | undefined };
  /** `value`: a number of nines alone. */
  sentinel: { readonly columns: readonly string[]; readonly value: number; readonly line: number | undefined };
  'dropped-samples': { readonly dropped: number };
  'no-header': { readonly names: readonly string[] };
  'unit-conflict': {
    readonly path: string;
    readonly header: string;
    /** The unit of the option, where one was written. */
    readonly option?: string;
    readonly gravity: { readonly unit: string; readonly length: number } | undefined;
  };
  'unit-unsettled': UnsettledUnit;
  'unit-overruled': { readonly header: string; readonly option: string; readonly length: number };
  'unit-doubtful': {
    readonly stated: string;
    readonly by: 'header' | 'option';
    readonly length: number;
    readonly gravity: string;
  };
  calibrated: Calibration;
}

const perCount = ({ unit, x, y, z }: Calibration): string =>
  `a calibration of ${figure(x)}, ${figure(y)} and ${figure(z)} ${unit} a count`;

const anyUnit = 'unit g, or whatever it is, with scale if the numbers are counts';

const silent = (unknown: string | undefined): string =>
  unknown === undefined ? 'the header states no unit' : `the header's ${quote(unknown)} is no known unit`;

/** Why the unit is not settled, and what to write. */
function unsettled(facts: UnsettledUnit): readonly [string, string] {
  switch (facts.kind) {
    case 'some columns':
      return [`the header gives a unit for some columns but none for ${listedInFew(facts.without)}`, anyUnit];
    case 'raw':
      return [
        `the header says ${facts.raw}, which is no unit of acceleration`,
        'unit g with scale, the g of one such unit',
      ];
    case 'no axes':
      return [
        `${silent(facts.unknown)}, and only three axes x, y and z with gravity in them would show it`,
        `${anyUnit}, or say which columns are the axes with channels x="…", y="…", z="…"`,
      ];
    case 'counts': {
      const [orUnit, orWrite] = facts.unit ? [` or of one in ${facts.unit}`, ` or unit ${facts.unit}`] : ['', ''];
      return [
        `the mean vector is ${figure(facts.length)} long, as of a sensor with ${facts.counts} counts a g${orUnit}`,
        `unit g scale ${1 / facts.counts}${orWrite}`,
      ];
    }
    case 'no gravity': {
      const why = facts.isSmall ? 'gravity is not in it' : 'it is gravity in none of g, mg, m/s^2 and mm/s^2';
      return [`${silent(facts.unknown)} and the mean vector is ${figure(facts.length)} long (${why})`, anyUnit];
    }
    case 'calibration': {
      const { calibration, length } = facts;
      return [
        `the preamble states ${perCount(calibration)}, but with it the mean vector would be ${figure(length)} ${calibration.unit} long`,
        `unit ${calibration.unit} scale ${calibration.x} if the numbers are counts, else their unit`,
      ];
    }
  }
}

function unitConflict({ path, header, option, gravity }: ChannelFacts['unit-conflict']): string {
  if (option === undefined)
    return `${path}: the header says ${header}, but the mean vector is ${figure(gravity?.length ?? NaN)} long, which is gravity in ${gravity?.unit}: write unit ${gravity?.unit} or unit ${header} to settle it.`;
  const seen = gravity ? `, and the mean vector (${figure(gravity.length)} long) is ${gravity.unit}` : '';
  return `${path}: the header says ${header} and the option says unit ${option}${seen}: unit says what the numbers of the file are and converts nothing; to have them in ${option}, write "load … in ${option}" without it, or add scale 1 to overrule the header.`;
}

export const channelSentences: Sentences<ChannelFacts> = {
  scale: ({ path, lacksUnit }) =>
    lacksUnit
      ? `${path}: scale is the value of one count in a unit, so it needs unit beside it, such as unit g scale ${lacksUnit.scale}.`
      : `${path}: scale must be a number other than 0.`,
  'too-short': ({ path, rows }) =>
    rows === 'incomplete'
      ? `${path}: fewer than two rows hold a reading of every axis.`
      : `${path}: the file has ${rows === 0 ? 'no row' : 'one row'} of numbers; a recording needs two at least: see whether the file was cut short, or load a longer one.`,
  'no-channels': ({ path, unread }) =>
    unread.length === 0
      ? `${path}: besides the time there is no column of numbers: check the delimiter and the decimal mark.`
      : `${path}: besides the time there is no column of numbers; left out ${unread.length === 1 ? 'is' : 'are'} ${listed(unread.map(({ column, why }) => `${column}, because ${why.message}`))}: write each reading into a column of plain numbers.`,
  'no-such-channel': ({ path, name, header, columns }) =>
    `${path}: channels ${name}="${header}" names no column of numbers; the columns are ${listedInFew(columns)}.`,
  'axis-not-numbers': ({ path, column, isNamed, text }) =>
    `${path}: ${column} ${isNamed ? 'is an axis by its name' : 'would be numbers'}, but cells such as ${quote(text)} are no numbers: say how they are spelt with decimal and delimiter, or write the file with plain numbers.`,
  'no-sensor-column': ({ path, sensor }) =>
    `${path}: sensor "${sensor}" was asked for, but no column says which sensor a row is of: leave sensor out.`,
  'which-sensor': ({ path, column, sensors }) =>
    `${path}: ${column} holds ${sensors.length} sensors in turn (${listedInFew(inQuotes(sensors))}): pick one with sensor, such as sensor "${sensors[0]}", or several to stand side by side, such as sensor ${inQuotes(sensors.slice(0, 2)).join(', ')}.`,
  'no-such-sensor': ({ path, column, sensor, sensors }) =>
    `${path}: ${column} holds no sensor ${quote(sensor)}; it holds ${listedInFew(inQuotes(sensors))}.`,
  'mostly-empty': ({ path, line, empty, rows }) =>
    `${location(path, line)}: ${rowsOf(empty, rows)} hold no reading in one of the columns that are needed: name the columns with channels, or mend the file.`,
  'filled-apart': ({ path, one, other, both, rows }) =>
    `${path}: ${one} and ${other} stand in different rows (both in ${both} of ${rows}), as of sensors of their own: name the channels of one of them with channel or channels, such as channel "${one}".`,
  'other-rows': ({ others, rows, channels }) =>
    `${rowsOf(others, rows)} hold readings of other sensors: those with ${listedInFew(channels)} were taken.`,
  'sensors-apart': ({ path, first, other, met, rows }) =>
    `${path}: ${first} and ${other} are not read together: ${met} of ${rows} rows of ${first} have one of ${other} within half a step, so load each by itself, with sensor "${first}" and with sensor "${other}".`,
  'sensors-unequal': ({ path, first, other, rates }) =>
    `${path}: ${first} is read at ${figure(rates[0])} Hz and ${other} at ${figure(rates[1])} Hz, so that their readings don't belong together: load each by itself, with sensor "${first}" and with sensor "${other}".`,
  'sensors-offset': ({ first, other, offset }) =>
    `${other} is read ${figure(1000 * Math.abs(offset))} ms ${offset < 0 ? 'before' : 'after'} ${first}, and both were taken as one time: the phase between them is off by ${figure(360 * Math.abs(offset))}° at 1 Hz, and in proportion above.`,
  'empty-cells': ({ empty, rows, line }) => {
    const [lacks, counts] = empty === 1 ? ['lacks', 'counts as a lost sample'] : ['lack', 'count as lost samples'];
    return `${rowsOf(empty, rows)} ${lacks} a reading or its time${atLine('first at line', line)} and ${counts}.`;
  },
  'rows-repeated': ({ repeated, rows }) =>
    `${rowsOf(repeated, rows)} repeat the stamp and the readings of the row before and were left out.`,
  'rows-sent-again': ({ again, rows, line }) => {
    const [repeats, was] = again === 1 ? ['repeats', 'was'] : ['repeat', 'were'];
    return `${rowsOf(again, rows)} ${repeats} the stamp and the readings of an earlier row${atLine('first at line', line)}, as where a buffer is sent twice, and ${was} left out.`;
  },
  sentinel: ({ columns, value, line }) =>
    `${listedInFew(columns)} ${columns.length === 1 ? 'holds' : 'hold'} the number ${value}${atLine('first at line', line)}, far beyond every other reading: it was taken as no reading.`,
  'dropped-samples': ({ dropped }) =>
    `The logger says that it dropped ${counted(dropped, 'sample')}: where is not told, so no spectrum can step over them.`,
  'no-header': ({ names }) =>
    `The file has no header: its columns of numbers are called ${listedInFew(names)}; other names can be given with channels.`,
  'unit-conflict': unitConflict,
  'unit-unsettled': (facts) => {
    const [why, advice] = unsettled(facts);
    return `The unit of acceleration is not settled: ${why}; write ${advice}.`;
  },
  'unit-overruled': ({ header, option, length }) =>
    `The header says ${header}, but unit ${option} was written, and the mean vector (${figure(length)}) agrees with it.`,
  'unit-doubtful': ({ stated, by, length, gravity }) =>
    by === 'option'
      ? `The mean vector is ${figure(length)} long, as gravity in ${gravity} is, though unit ${stated} was written: check it.`
      : `The header says ${stated}, but the mean vector is ${figure(length)} long, as gravity in ${gravity} is: write unit ${stated} if the sensor takes gravity out, or unit ${gravity} if the header is wrong.`,
  calibrated: (calibration) =>
    `The numbers are counts: the preamble states ${perCount(calibration)}, which was applied.`,
};

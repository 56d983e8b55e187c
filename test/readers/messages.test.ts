import { strict as assert } from 'node:assert';
import { finding, findingOf, refuse, type ReaderCode, type ReaderFacts } from '../../src/readers/messages.ts';
import { leftOutFor } from '../../src/readers/messages/leftOut.ts';

const path = 'run.csv';

/** Holds the sentence of a code to a pattern, with the options that would settle it. */
function says<Code extends ReaderCode>(
  code: Code,
  facts: ReaderFacts[Code] & object,
  pattern: RegExp,
  settledBy?: string,
): void {
  const { message, settledBy: options } = finding(code, 'note', facts);
  assert.match(message, pattern);
  assert.match(message, /^\S.*[.?]$/);
  assert.ok(!/undefined|NaN|\[object| {2}/.test(message), message);
  if (settledBy !== undefined) assert.equal((options ?? []).join(' '), settledBy, code);
}

describe('what the readers say', () => {
  it('of a file and its format', () => {
    says('empty', { path }, /^run\.csv: the file is empty\.$/);
    says('empty', { path, skipped: { skip: 9, lines: 4 } }, /skip 9 passes over the whole file, which has 4 lines/);
    says('file-changed', { path }, /changed while it was read, so these are not the bytes/);
    says('file-changed', { path, short: { read: 3, size: 8 } }, /became shorter while it was read \(3 of 8 bytes\)/);
    says(
      'expands-too-far',
      { path, expanded: 3 * 2 ** 20, factor: 500 },
      /more than 3 MiB, 500 times its size; the limits are 4 GiB and, past 64 MiB, 200 times/,
    );
    says('damaged-wav', { path, lacks: 'samples' }, /ends before its samples/);
    says('damaged-wav', { path, lacks: 'format' }, /samples but no format/);
    says('damaged-wav', { path, lacks: 'end of the format' }, /format chunk of the WAV file is cut short/);
    says('wav-format', { path, format: 6, bits: 8 }, /format 6 with 8 bits/);
    says('wav-format', { path, channels: 0, rate: 8 }, /0 channels at 8 Hz/);
    says('too-many-columns', { path }, /more than 4096 columns/);
    says('too-many-columns', { path, columns: 5000 }, /has 5000 columns.*4096 at most/);
    says('too-many-samples', { path, what: 'values' }, /more than 400 million values/);
    says('cut-short', { line: 4, text: '1,' }, /^The last line \(4\) is cut short \("1,"\)/);
    says('cut-short', { samples: 4, stated: 9 }, /ends after 4 of 9 samples/);
    says(
      'samples-after',
      { chunks: 1, samples: 1 },
      /^1 more sample of each channel in 1 later chunk of the file was not read/,
    );
    says('cut-short', { samples: 4, stated: undefined }, /ends without stating its length/);
  });

  it('of a Universal File', () => {
    const line = 7;
    says('universal-binary', { path, line, format: 1 }, /^run\.csv:7: .*binary numbers of a VAX,/);
    says('universal-binary', { path, line, format: 3 }, /of an IBM 370,/);
    says('universal-binary', { path, line, format: 5 }, /in an unknown form,/);
    says('universal-format', { path, line, fault: { kind: 'header', lines: 5 } }, /has 5 lines, fewer/);
    says('universal-format', { path, line, fault: { kind: 'data type', type: 5 } }, /is complex, and/);
    says('universal-format', { path, line, fault: { kind: 'data type', type: 6 } }, /is complex, and/);
    says('universal-format', { path, line, fault: { kind: 'data type', type: 3 } }, /is of data type 3, and/);
    says('universal-format', { path, line, fault: { kind: 'spacing' } }, /neither even nor uneven/);
    says('universal-format', { path, line, fault: { kind: 'step', step: -1 } }, /step of -1 s/);
    says(
      'universal-format',
      { path, line, fault: { kind: 'abscissa', unit: 'Hz', exponents: [0, 0, 0] } },
      /is in "Hz"/,
    );
    says(
      'universal-format',
      { path, line, fault: { kind: 'abscissa', unit: 's', exponents: [0, 1, 0] } },
      /exponents 0, 1, 0/,
    );
    says('universal-format', { path, line, fault: { kind: 'count', count: 1 } }, /states 1 value:/);
    says(
      'universal-format',
      { path, line, fault: { kind: 'values', values: 3, count: 9 } },
      /has 3 values where its header states 9/,
    );
    const [own, first] = [
      { values: 3, rate: 10 },
      { values: 4, rate: 20 },
    ];
    says('universal-differ', { path, line, own, first }, /3 values at 10 Hz where the first has 4 at 20 Hz/);
    says('no-time-response', { path, held: [] }, /function type 1\): export/);
    says(
      'no-time-response',
      { path, held: ['58', '164'] },
      /only functions that are no time responses, dataset 164: export/,
    );
  });

  it('of a table in a text', () => {
    says('no-table', { path }, /holds no text/, '');
    says(
      'no-table',
      { path, found: { why: 'comments', line: 3, text: '#' } },
      /^run\.csv:3: nearly every line begins/,
      'skip',
    );
    says(
      'no-table',
      { path, found: { why: 'no row', line: 3, text: 'x' } },
      /^run\.csv:3: no rows of numbers/,
      'delimiter skip',
    );
    const readings = [
      { columns: 1, delimiter: ' ', decimal: ',' },
      { columns: 2, delimiter: '\t', decimal: '.' },
    ] as const;
    says(
      'ambiguous-delimiter',
      { path, line: 2, text: '1,2', readings },
      /as 1 column parted by a space with decimal commas and as 2 columns parted by a tab with decimal points: write delimiter "space" decimal "," or delimiter "tab" decimal "."/,
      'delimiter decimal',
    );
    says(
      'ambiguous-delimiter',
      {
        path,
        line: 2,
        text: '1',
        readings: [
          { columns: 2, delimiter: ';', decimal: ',' },
          { columns: 3, delimiter: '~', decimal: '.' },
        ],
      },
      /parted by a semicolon .* parted by "~" .*write delimiter ";" decimal "," or delimiter "~"/,
    );
    says(
      'ambiguous-decimal',
      { path, line: 2, text: '1.234', value: 1.234, whole: 1234, decimal: '.' },
      /reads as 1\.234 and as 1234.*decimal "\." if.*\(decimal ","\)/,
      'decimal',
    );
    says(
      'ambiguous-decimal',
      { path, line: 2, text: '1,234', value: 1.234, whole: 1234, decimal: ',' },
      /decimal "," if.*\(decimal "\."\)/,
    );
    says(
      'header-mismatch',
      { path, line: 1, text: 't,x', fields: 2, columns: 4, isSplit: true },
      /split at its decimal comma/,
      '',
    );
    says(
      'header-mismatch',
      { path, line: 1, text: 't,x', fields: 2, columns: 3, isSplit: false },
      /has 2 fields and the rows below it have 3: say how/,
      'delimiter skip',
    );
    says(
      'header-changes',
      { path, line: 9, text: 't,y', isEarly: true },
      /with skip 8 if the table begins here, or cut/,
      'skip',
    );
    says('header-changes', { path, line: 9, text: 't,y', isEarly: false }, /\("t,y"\): cut the file/, '');
    says(
      'ragged',
      { path, line: 9, text: '1', fields: 1, columns: 3, others: { count: 1, most: 1000 }, isEarly: true },
      /has 1 field where the others have 3 \("1"\): pass over the lines down to it with skip 9/,
      'skip delimiter',
    );
    says(
      'ragged',
      { path, line: 9, text: '1', fields: 2, columns: 3, others: { count: 4, most: 1000 }, isEarly: false },
      /has 2 fields .*, as do 3 others: mend or remove it/,
      'delimiter',
    );
    says(
      'ragged',
      { path, line: 9, text: '1', fields: 2, columns: 3, others: { count: 1000, most: 1000 }, isEarly: false },
      /, as do more than 1000 others:/,
    );
    const cell = { path, line: 9, column: 4, text: '1,5', others: { count: 2, most: 1000 } };
    says(
      'not-a-number',
      { ...cell, name: 'column "x"', isStamp: false, decimal: '.', isOtherMark: true },
      /^run\.csv:9:4: "1,5" in column "x" is not a number \(the decimal mark is "\."\), as does 1 other: write decimal "," if that is the file's mark, or mend/,
      'decimal',
    );
    says(
      'not-a-number',
      { ...cell, name: undefined, isStamp: true, decimal: ',', isOtherMark: false },
      /in the line is not a time of the form that the column has, as does 1 other: mend/,
      '',
    );
    says('line-too-long', { path }, /^run\.csv: the first line is longer than 256 KiB/);
    says('line-too-long', { path, line: 7 }, /^run\.csv:7: this line is longer than 1024 KiB/);
    says('two-tables', { path, from: 2, to: 40 }, /^run\.csv:40: .*line 2 on.*skip 39\.$/, 'skip');
  });

  it('of lines that were left out', () => {
    says(
      'remarks-below',
      { count: 1, line: 9, text: 'end' },
      /^The last line is no row .*\(line 9: "end"\) and was left out\.$/,
    );
    says('remarks-below', { count: 2, line: 9, text: 'end' }, /^The last 2 lines are no rows .* and were left out\.$/);
    says('damaged-lines', { count: 1, line: 9, text: 'end' }, /^1 line is no row .* and was left out\.$/);
    says('damaged-lines', { count: 3, line: 9, text: 'end' }, /^3 lines are no rows .* and were left out\.$/);
    says('zero-bytes', {}, /^The file ends in bytes/);
    says('zero-bytes', { line: 4 }, /^Line 4 holds bytes/);
    says('checksum', { count: 1, rows: 9, line: 4 }, /^1 row of 9 has a wrong checksum/);
    says('checksum', { count: 2, rows: 9, line: 4 }, /^2 rows of 9 have a wrong checksum/);
    says('commented-rows', { count: 1, line: 4 }, /^1 line begins /);
    says('commented-rows', { count: 2, line: 4 }, /^2 lines begin /);
    says('overload', { count: 1, line: 4, text: 'OL' }, /^1 reading is beyond .*\("OL", first at line 4\)/);
    says('overload', { count: 2, line: 4, text: 'OL' }, /^2 readings are beyond /);
    says('header-repeated', { count: 1, line: 4 }, /line 4 \(1 time in all\)/);
    says('header-repeated', { count: 2, line: 4 }, /line 4 \(2 times in all\)/);
  });

  it('of the time and the rate', () => {
    says(
      'time-stands-still',
      { path, column: '"t"', isChosen: true },
      /or leave time out and state the rate/,
      'time rate',
    );
    says('time-stands-still', { path, column: '"t"', isChosen: false }, /with time, or state the rate/);
    says('time-unit', { path, column: '"t"', step: 3, rate: undefined }, /\(step 3\) .* sampled at: name/, 'time rate');
    says('time-unit', { path, column: '"t"', step: 3, rate: 400 }, /sampled at or at the stated 400 Hz: name/);
    const readings = [
      { unit: 'ms', rate: 10 },
      { unit: 'us', rate: 10_000 },
    ];
    says('time-unit', { path, column: '"t"', readings }, /reads as ms \(10 Hz\) and as us \(10000 Hz\): state/, 'rate');
    const rates = { path, counter: undefined, leftOut: [], ofText: undefined, lacksUnit: false };
    says(
      'no-rate',
      rates,
      /^run\.csv: no column tells the time: state the rate with rate, such as rate 400 Hz, or name/,
      'rate time',
    );
    says(
      'no-rate',
      { ...rates, counter: '"n"', lacksUnit: true },
      /"n" counts rows and no column tells the time, and nothing settles the unit: state both, such as rate 400 Hz unit g, or/,
    );
    const leftOut = [{ column: '"t"', why: leftOutFor('column.backward', {}) }];
    says(
      'no-rate',
      { ...rates, leftOut, ofText: { column: '"u"', text: 'noon' } },
      /the time \("t": it is a time that does not run forward\) \("u" holds text such as "noon"\): state/,
    );
    says(
      'rows-disordered',
      { path, column: '"t"', why: 'behind', again: 1, behind: 1 },
      /1 row was sent twice, and without it 1 stamp still runs backwards/,
    );
    says(
      'rows-disordered',
      { path, column: '"t"', why: 'differ', again: 40 },
      /40 rows come late under stamps that have been before, with other readings/,
    );
    says('rows-disordered', { path, column: '"t"', why: 'late', late: 20 }, /20 rows belong into gaps before them/);
    says('stamps-astray', { rows: 1, line: 8 }, /^1 stamp is far off \(first at line 8\), .* that row was taken/);
    says(
      'rows-disordered',
      { path, column: '"t"', why: 'behind', again: 2, behind: 3 },
      /2 rows were sent twice, and without them 3 stamps still run backwards/,
    );
    const stamps = { quantum: 0.001, rate: 400, each: undefined };
    says('stamps-out-of-order', { ...stamps, repeated: 0, backward: 1 }, /^1 stamp runs backwards; the order/);
    says('stamps-out-of-order', { ...stamps, repeated: 1, backward: 0 }, /^1 stamp repeats the one before; the order/);
    says(
      'bursts',
      { ...stamps, repeated: 20, backward: 3 },
      /^20 stamps repeat the one before and 3 run backwards, as/,
    );
    says(
      'rate-differs',
      { measured: 101, off: 0.01, stated: 100, name: 'the header' },
      /give 101 Hz, 1 % above the 100 Hz of the header/,
    );
    says(
      'rate-differs',
      { measured: 99, off: -0.01, stated: 100, name: 'the header' },
      /give 99 Hz, 1 % below the 100 Hz/,
    );
    says(
      'rate-uncertain',
      { rate: 99, least: undefined, quantum: 0.01, lost: undefined },
      /the rate is 99 Hz as far as they tell, so state/,
    );
    says(
      'rate-uncertain',
      { rate: 99, least: 101, quantum: 0.01, lost: undefined },
      /tell, and 101 Hz at least where none is lost, so/,
    );
    const gaps = { missing: 5, share: 0.05, first: 1, line: undefined, longest: 0.5 };
    says('gap', { ...gaps, gaps: 1 }, /^A gap leaves out 5 samples \(5 %\), the gap at 1 s, the longest 0\.5 s/);
    says('gap', { ...gaps, gaps: 2, line: 3 }, /^2 gaps leave out .* the first at 1 s \(line 3\), the longest/);
    says('clock-reset', { resets: 1, line: undefined }, /jumps back once: what/);
    says('clock-reset', { resets: 3, line: 8 }, /jumps back 3 times \(first break at line 8\): what/);
    says('clock-stopped', { rows: 30, line: 8, rate: 100 }, /over 30 rows \(first from line 8\), so .* even at 100 Hz/);
    says('uneven', { jitter: 0.02, treatment: 'taken as even' }, /vary by 2 % of their mean: taken as even\.$/);
    says('uneven', { jitter: 0.1, treatment: 'resampled' }, /brings them to one and says so/);
    says('uneven', { jitter: 0.3, treatment: 'refused' }, /asks for resample first/);
  });

  it('of channels, sensors and rows', () => {
    says('scale', { path }, /must be a number other than 0/, '');
    says('scale', { path, lacksUnit: { scale: 0.5 } }, /such as unit g scale 0\.5/, 'unit');
    says('too-short', { path, rows: 0 }, /has no row of numbers/);
    says('too-short', { path, rows: 1 }, /has one row of numbers/);
    says('too-short', { path, rows: 'incomplete' }, /fewer than two rows hold a reading of every axis/);
    says(
      'axis-not-numbers',
      { path, column: '"x"', isNamed: true, text: '1*' },
      /"x" is an axis by its name, but cells such as "1\*"/,
    );
    says('axis-not-numbers', { path, column: '"x"', isNamed: false, text: '1*' }, /"x" would be numbers, but/);
    says(
      'which-sensor',
      { path, column: '"s"', sensors: ['a', 'b', 'c'] },
      /holds 3 sensors in turn \("a", "b" and "c"\).*such as sensor "a", or several to stand side by side, such as sensor "a", "b"\.$/,
    );
    says(
      'sensors-offset',
      { first: 'a', other: 'b', offset: 0.002 },
      /^b is read 2 ms after a, .* off by 0\.72° at 1 Hz/,
    );
    says('sensors-offset', { first: 'a', other: 'b', offset: -0.002 }, /^b is read 2 ms before a, .* off by 0\.72°/);
    says(
      'empty-cells',
      { empty: 1, rows: 9, line: undefined },
      /^1 row of 9 lacks a reading or its time and counts as a lost sample\.$/,
    );
    says(
      'empty-cells',
      { empty: 2, rows: 9, line: 4 },
      /^2 rows of 9 lack a reading or its time \(first at line 4\) and count as lost samples\.$/,
    );
    says('rows-sent-again', { again: 1, rows: 9, line: undefined }, /^1 row of 9 repeats .* and was left out\.$/);
    says(
      'rows-sent-again',
      { again: 2, rows: 9, line: 4 },
      /^2 rows of 9 repeat .* \(first at line 4\), .* and were left out\.$/,
    );
    says('sentinel', { columns: ['"x"'], value: -999, line: 4 }, /^"x" holds the number -999 \(first at line 4\)/);
    says(
      'sentinel',
      { columns: ['"x"', '"y"'], value: -999, line: undefined },
      /^"x" and "y" hold the number -999, far/,
    );
  });

  it('of the unit', () => {
    says(
      'unit-conflict',
      { path, header: 'g', gravity: { unit: 'm/s^2', length: 9.81 } },
      /header says g, but the mean vector is 9\.81 long, which is gravity in m\/s\^2: write unit m\/s\^2 or unit g/,
      'unit',
    );
    says(
      'unit-conflict',
      { path, header: 'g', option: 'mg', gravity: { unit: 'g', length: 1 } },
      /option says unit mg, and the mean vector \(1 long\) is g: unit says/,
      'scale',
    );
    says('unit-conflict', { path, header: 'g', option: 'mg', gravity: undefined }, /option says unit mg: unit says/);
    says(
      'unit-unsettled',
      { kind: 'some columns', without: ['x', 'y'] },
      /none for x and y; write unit g, or whatever/,
      'unit scale',
    );
    says('unit-unsettled', { kind: 'raw', raw: 'counts' }, /the header says counts, .*write unit g with scale/);
    says('unit-unsettled', { kind: 'no axes', unknown: undefined }, /the header states no unit, and only three axes/);
    says('unit-unsettled', { kind: 'no axes', unknown: 'foo' }, /the header's "foo" is no known unit, and only/);
    says(
      'unit-unsettled',
      { kind: 'counts', length: 4096, counts: 4096, unit: undefined },
      /4096 counts a g; write unit g scale 0\.000244140625\.$/,
    );
    says(
      'unit-unsettled',
      { kind: 'counts', length: 1000, counts: 1000, unit: 'mg' },
      /1000 counts a g or of one in mg; write unit g scale 0\.001 or unit mg\.$/,
    );
    says(
      'unit-unsettled',
      { kind: 'no gravity', unknown: undefined, length: 0.01, isSmall: true },
      /0\.01 long \(gravity is not in it\)/,
    );
    says(
      'unit-unsettled',
      { kind: 'no gravity', unknown: undefined, length: 4, isSmall: false },
      /4 long \(it is gravity in none of/,
    );
    const calibration = { unit: 'g', x: 0.1, y: 0.2, z: 0.3 };
    says(
      'unit-unsettled',
      { kind: 'calibration', calibration, length: 7 },
      /calibration of 0\.1, 0\.2 and 0\.3 g a count, but with it the mean vector would be 7 g long; write unit g scale 0\.1/,
    );
    says(
      'unit-doubtful',
      { stated: 'g', by: 'option', length: 9.81, gravity: 'm/s^2' },
      /9\.81 long, as gravity in m\/s\^2 is, though unit g was written/,
      '',
    );
    says(
      'unit-doubtful',
      { stated: 'g', by: 'header', length: 9.81, gravity: 'm/s^2' },
      /^The header says g, but .* or unit m\/s\^2 if the header is wrong/,
      'unit',
    );
  });

  it('of what was checked', () => {
    const channel = 'x';
    says(
      'resolution',
      { channel, unit: 'g', rms: 0.1, step: 0.05, density: 1e-6 },
      /moves by 0\.1 g r\.m\.s\., only 2 steps of the converter \(0\.05 g\), .* 0\.000001 g²\/Hz/,
    );
    says(
      'resolution',
      { channel, unit: undefined, rms: 0.1, step: 0.05, density: 1e-6 },
      /moves by 0\.1 r\.m\.s\., only 2 steps of the converter \(0\.05\), .* 0\.000001\/Hz/,
    );
    says(
      'stuck',
      { channel, spans: 1, samples: 9, seconds: 0.9 },
      /stands still once, longest for 9 samples \(0\.9 s\)/,
    );
    says('stuck', { channel, spans: 2, samples: 9, seconds: 0.9 }, /stands still 2 times,/);
    says(
      'readings-repeat',
      { share: 0.5, rate: 100, sensorRate: 50 },
      /^50 % of the rows .* about 50 Hz, below the logger's 100 Hz, so trust nothing above 25 Hz/,
    );
    const short = { segments: 3, seconds: 2, fewest: 16 };
    says('short', { ...short, stretches: 1 }, /gives 3 segments of 2 s, fewer than 16/);
    says('short', { ...short, stretches: 2 }, /segments of 2 s in its 2 stretches between gaps, fewer/);
    says(
      'segment-short',
      { seconds: 2, low: 0.5, fewest: 4 },
      /^Segments of 2 s hold 1 periods of 0\.5 Hz, fewer than 4: take segments of 8 s/,
    );
    const spikes = { channel, unit: 'g', deviations: 12, limit: 1, largest: 3 };
    says('spikes', { ...spikes, count: 1 }, /has 1 lone sample more/);
    says('spikes', { ...spikes, count: 2 }, /has 2 lone samples more/);
    says('not-stationary', { seconds: 5, ratio: undefined }, /loudest 5 s is without measure above that/);
    says('not-stationary', { seconds: 5, ratio: 7 }, /loudest 5 s is 7 times that/);
    says('trend', { change: 0.3 }, /^The r\.m\.s\. rises by 30 %/);
    says('trend', { change: -0.3 }, /^The r\.m\.s\. falls by 30 %/);
    says(
      'set-gravity',
      { run: 'b', first: 'a', angle: 30 },
      /points 30° away from where it does in a: b was .* up to 50 % of one axis/,
    );
    says('set-gravity', { run: 'b', first: 'a', angle: 150 }, /points 150° .* up to 50 % of one axis/);
    const over = { run: 'b', first: 'a' };
    says('set-gravity', { ...over, angle: 180 }, /b was mounted upside down, and two axes read with the other sign; /);
    says('set-gravity', { ...over, angle: 177 }, /the other sign, and up to 5\.23 % of one axis shows in another; /);
    const still = { run: 'b', seconds: 1, unit: 'g' };
    says('set-still', { ...still, level: 3, usual: 1 }, /at 3 g r\.m\.s\., 3 times above the set's usual/);
    says('set-still', { ...still, level: 1, usual: 4 }, /at 1 g r\.m\.s\., 4 times below the set's usual/);
  });

  it('of columns that are left out', () => {
    const why = (texts: readonly string[], count: number): string =>
      leftOutFor('column.text', { texts, count }).message;
    assert.equal(why([], 3), 'it holds text');
    assert.equal(why(['a', 'b'], 2), 'it holds text ("a" and "b")');
    assert.equal(why(['a', 'b'], 3), 'it holds text ("a" and "b", …)');
    assert.equal(leftOutFor('column.type', { type: 'INT96' }).message, 'it holds int96');
    assert.equal(leftOutFor('column.type', { type: undefined }).message, 'it holds nothing that can be read');
  });

  it('goes with its severity and what it was judged by, or is a refusal', () => {
    const found = finding('rush', 'warning', { rows: 3 }, { value: 3, threshold: 1, channel: 'x' });
    assert.deepEqual([found.severity, found.value, found.threshold, found.channel], ['warning', 3, 1, 'x']);
    const refused = refuse('memory', { path });
    assert.ok(!refused.ok && refused.failure.code === 'memory');
    const told = findingOf('run 2', found);
    assert.match(told.message, /^run 2: 3 rows right after gaps/);
    assert.deepEqual(told.facts, { rows: 3, of: 'run 2' });
    assert.ok(!('severity' in told));
  });

  it('of one as of one, and of several as of several', () => {
    says(
      'rush',
      { rows: 1 },
      /^1 row right after gaps has a stamp in a rush, .* when it was sampled; it was left out\.$/,
    );
    says('rush', { rows: 2 }, /^2 rows .* have stamps in a rush, .* when they were sampled; they were left out\.$/);
    says('stamps-astray', { rows: 1, line: 7 }, /^1 stamp is far off \(?.*line 7\)?.*: that row was taken/);
    says('stamps-astray', { rows: 3, line: undefined }, /^3 stamps are far off, .*: those rows were taken/);
  });
});

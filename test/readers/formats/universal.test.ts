import { strict as assert } from 'node:assert';
import { isUniversal } from '../../../src/readers/formats/universal.ts';
import { findingOf, recordingOf, refusalOf, samplesOf } from '../memory.ts';

const real = (value: number): string => {
  const [mantissa, power] = value.toExponential(5).split('e');
  return `${mantissa}E${Number(power) < 0 ? '-' : '+'}${String(Math.abs(Number(power))).padStart(2, '0')}`.padStart(13);
};
const whole = (value: number, width: number): string => String(value).padStart(width);

interface Dataset {
  /** The 20 characters of columns 48 to 67 of record 9. */
  readonly unit?: string;
  readonly count?: number;
  readonly spacing?: number;
  readonly numbers?: readonly number[];
}

const wave = Array.from({ length: 300 }, (_, i) => -Math.sin(i) * 3 - 1);

/** A dataset 58 with all of its records, each in the columns that its format gives it. */
function dataset({ unit = 'm/s^2', count = 300, spacing = 1, numbers = wave }: Dataset = {}): string {
  const axis = (type: number, label: string, field: string): string =>
    `${whole(type, 10)}${whole(0, 5).repeat(3)} ${label.padEnd(20)} ${field}`;
  const lines = [
    '    -1',
    '    58',
    ...['Hub', 'NONE', '14-May-24 09:30:12', 'NONE', 'NONE'],
    `${whole(1, 5)}${whole(7, 10)}${whole(1, 5)}${whole(0, 10)} ${'HUB'.padEnd(10)}${whole(1234567890, 10)}${whole(3, 4)} ${'NONE'.padEnd(10)}${whole(0, 10)}${whole(0, 4)}`,
    `${whole(2, 10)}${whole(count, 10)}${whole(spacing, 10)}${real(0)}${real(0.0025)}${real(0)}`,
    axis(17, 'Time', 's'.padEnd(20)),
    axis(12, 'Acceleration of hub', unit),
    axis(0, 'NONE', 'NONE'.padEnd(20)),
    axis(0, 'NONE', 'NONE'.padEnd(20)),
  ];
  for (let at = 0; at < numbers.length; at += 6)
    lines.push(
      numbers
        .slice(at, at + 6)
        .map(real)
        .join(''),
    );
  return [...lines, '    -1', ''].join('\n');
}

describe('Universal File dataset 58', () => {
  it('has its unit in columns 48 to 67, at their left or at their right', async () => {
    for (const unit of ['m/s2', 'mg', 'g', 'm/s^2']) {
      const [left, right] = [unit.padEnd(20), unit.padStart(20)];
      for (const field of [left, right, unit]) {
        const recording = await recordingOf(dataset({ unit: field }));
        assert.equal(recording.channels[0].unit, unit === 'm/s2' ? 'm/s^2' : unit, JSON.stringify(field));
      }
    }
  });

  it('names one axis by its direction and takes numbers that touch', async () => {
    const recording = await recordingOf(dataset());
    assert.equal(recording.channels[0].name, 'z');
    assert.equal(recording.clock.rate, 400);
    assert.deepEqual(
      samplesOf(recording, 'z'),
      wave.map((value) => Number(value.toExponential(5))),
    );
  });

  it('takes a count of ten digits for what it states', async () => {
    const { message } = await refusalOf(dataset({ count: 1234567890 }));
    assert.match(message, /states 1234567890 values/);
    const { message: short } = await refusalOf(dataset({ count: 301 }));
    assert.match(short, /has 300 values where its header states 301/);
  });

  it('takes the time of each value from beside it where the spacing is uneven', async () => {
    const pairs = wave.flatMap((value, i) => [i * 0.004, value]);
    const recording = await recordingOf(dataset({ spacing: 0, numbers: pairs }));
    assert.equal(recording.clock.rateFrom, 'stamps');
    assert.ok(Math.abs(recording.clock.rate / 250 - 1) < 1e-3, `${recording.clock.rate}`);
    assert.equal(recording.channels.length, 1);
    assert.deepEqual(
      samplesOf(recording, 'z').slice(0, 3),
      wave.slice(0, 3).map((value) => Number(value.toExponential(5))),
    );
    const { message } = await refusalOf(dataset({ spacing: 0, numbers: wave }));
    assert.match(message, /has 150 values where its header states 300/);
  });
});

interface Response {
  readonly kind?: number;
  readonly abscissa?: number;
  readonly type?: number;
  /** Values that the header states. */
  readonly count?: number;
  readonly spacing?: number;
  readonly first?: number;
  readonly step?: number | string;
  readonly entity?: string;
  readonly node?: number;
  readonly direction?: number;
  readonly unit?: string;
  readonly values?: readonly number[];
}

const closed = (lines: readonly string[]): string => ['    -1', ...lines, '    -1', ''].join('\n');

/** A function at a node, by the columns that the published description has for its records. */
function response(of: Response = {}): string {
  const { kind = 1, abscissa = 17, type = 2, spacing = 1, first = 0, step = 0.0025 } = of;
  const { entity = 'NONE', node = 4, direction = 3, unit = 'm/s^2', values = [1, 3, 2, 5] } = of;
  const { count = values.length } = of;
  const rest = `${whole(0, 10)}${whole(0, 5).repeat(3)} ${'NONE'.padEnd(20)} ${'NONE'.padEnd(20)}`;
  return closed([
    '    58',
    'Seat pad',
    'NONE',
    '14-May-24 09:30:12',
    'NONE',
    'NONE',
    `${whole(kind, 5)}${whole(1, 10)}${whole(1, 5)}${whole(0, 10)} ${entity.padEnd(10)}${whole(node, 10)}${whole(direction, 4)} ${'NONE'.padEnd(10)}${whole(0, 10)}${whole(0, 4)}`,
    `${whole(type, 10)}${whole(count, 10)}${whole(spacing, 10)} ${first} ${step} 0`,
    `${whole(abscissa, 10)}${whole(0, 5).repeat(3)} ${'Time'.padEnd(20)} ${'s'.padEnd(20)}`,
    `${whole(12, 10)}${whole(0, 5).repeat(3)} ${'Acceleration'.padEnd(20)} ${unit.padEnd(20)}`,
    rest,
    rest,
    values.join(' '),
  ]);
}

async function refused(...sets: readonly string[]): Promise<readonly [code: string, message: string]> {
  const { code, message } = await refusalOf(sets.join(''));
  return [code, message];
}

describe('a function of dataset 58', () => {
  it('gives its values, its rate, its start and its unit', async () => {
    const recording = await recordingOf(response({ first: 2.5, step: '2.5D-03' }));
    const [{ name, unit, samples }] = recording.channels;
    assert.deepEqual([name, unit, [...samples]], ['z', 'm/s^2', [1, 3, 2, 5]]);
    assert.ok(Math.abs(recording.clock.rate - 400) < 1e-9);
    assert.equal(recording.clock.epoch, 2.5);
  });

  it('of unknown kind is a time response where it stands over the time', async () => {
    assert.equal((await recordingOf(response({ kind: 0 }))).channels.length, 1);
    assert.equal((await refused(response({ kind: 0, abscissa: 18 })))[0], 'no-time-response');
    assert.equal((await refused(response({ kind: 4 })))[0], 'no-time-response');
  });

  it('of two values is read, and of fewer, or of a part of one, is not', async () => {
    assert.deepEqual([...(await recordingOf(response({ values: [2, 1] }))).channels[0].samples], [2, 1]);
    for (const [count, stated] of [
      [1, '1'],
      [0, '0'],
    ] as const)
      assert.match((await refused(response({ count })))[1], new RegExp(`run\\.csv:9: .*\\b${stated}\\b`));
  });

  it('is refused with fewer values than it states, a step that is not above 0, or another type of data', async () => {
    assert.match((await refused(response({ count: 9 })))[1], /\b4\b.*\b9\b/);
    assert.equal((await refused(response({ step: 0 })))[0], 'universal-format');
    assert.equal((await refused(response({ step: -1 })))[0], 'universal-format');
    for (const type of [5, 6]) assert.match((await refused(response({ type })))[1], /complex/);
    assert.match((await refused(response({ type: 3 })))[1], /data type 3/);
    assert.equal((await recordingOf(response({ type: 4 }))).channels.length, 1);
  });

  it('turns a response against its axis round, and says so', async () => {
    const recording = await recordingOf(response({ direction: -1 }));
    assert.deepEqual(
      recording.channels.map(({ name, samples }) => [name, [...samples]]),
      [['x', [-1, -3, -2, -5]]],
    );
    assert.ok(findingOf(recording, 'direction-reversed'));
    assert.equal(findingOf(await recordingOf(response()), 'direction-reversed'), undefined);
  });

  it('is named by its direction at one node, and by its node among several', async () => {
    const names = async (...all: readonly Response[]): Promise<string[]> =>
      (await recordingOf(all.map(response).join(''))).channels.map(({ name }) => name);
    assert.deepEqual(await names({ direction: 1 }, { direction: 2 }), ['x', 'y']);
    assert.deepEqual(await names({ node: 4, direction: 5 }), ['ry']);
    assert.deepEqual(await names({ node: 4 }, { node: 17 }), ['node 4 z', 'node 17 z']);
    assert.deepEqual(await names({ entity: 'FRAME' }, { entity: 'PAD' }), ['FRAME 4 z', 'PAD 4 z']);
    assert.deepEqual(await names({ direction: 0 }, { node: 17, direction: 0 }), ['node 4', 'node 17']);
  });

  it('has the length and the step of the first, and both are told where it has not', async () => {
    const [code, message] = await refused(response(), response({ direction: 1, values: [1, 2, 1], step: 0.005 }));
    assert.equal(code, 'universal-differ');
    assert.match(message, /3 values at 200 Hz where the first has 4 at 400 Hz/);
    assert.equal((await refused(response(), response({ step: 0.0025001 })))[0], 'universal-differ');
    assert.equal((await recordingOf(response() + response({ direction: 1, step: 0.0025000001 }))).channels.length, 2);
  });

  it('is read beside other datasets, and these are told where there is none', async () => {
    const other = closed(['   151', 'a header']);
    assert.equal((await recordingOf(other + response())).channels.length, 1);
    assert.match((await refused(other, response({ kind: 4 })))[1], /only dataset 151, functions that are no time/);
  });
});

describe('isUniversal', () => {
  const is = (text: string): boolean => isUniversal(new TextEncoder().encode(text));

  it('tells a delimiter and the number of a dataset from columns of numbers', () => {
    assert.ok(is('    -1\n    58\n'));
    assert.ok(is('\n    -1   \r\n    58b     1     2\r\n'));
    assert.ok(!is('-1\n0.25\n'));
    assert.ok(!is('    -1,2\n    58\n'));
    assert.ok(!is('    -1\n'));
    assert.ok(!is(''));
  });
});

interface Binary {
  readonly little?: boolean;
  readonly double?: boolean;
  /** Values alone, or each behind its place on the abscissa. */
  readonly even?: boolean;
  /** Whether the abscissa is as fine as the values. */
  readonly fine?: boolean;
  readonly format?: number;
  readonly stated?: number;
  readonly abscissaUnit?: string;
}

/** A dataset 58b as the description has it: I6, A1, 2I6, 2I12, 4I6; eleven lines; the numbers as bytes. */
function binary(of: Binary = {}): Uint8Array {
  const { little = true, double = false, even = true, fine = false, format = 2, abscissaUnit = 's' } = of;
  const size = double ? 8 : 4;
  const before = even ? 0 : fine ? 8 : 4;
  const bytes = new Uint8Array((size + before) * wave.length);
  const view = new DataView(bytes.buffer);
  const put = (at: number, value: number, width: number): void =>
    width === 8 ? view.setFloat64(at, value, little) : view.setFloat32(at, value, little);
  wave.forEach((value, i) => {
    const at = i * (size + before);
    if (before > 0) put(at, i * 4, before);
    put(at + before, value, size);
  });
  const records = dataset({ spacing: even ? 1 : 0 })
    .split('\n')
    .slice(2, 13);
  records[6] = `${whole(double ? 4 : 2, 10)}${whole(wave.length, 10)}${whole(even ? 1 : 0, 10)}${real(0)}${real(0.0025)}${real(0)}`;
  records[7] = `${whole(17, 10)}${whole(0, 5).repeat(3)} ${'Time'.padEnd(20)} ${abscissaUnit.padEnd(20)}`;
  const first = `${whole(58, 6)}b${whole(little ? 1 : 2, 6)}${whole(format, 6)}${whole(11, 12)}${whole(of.stated ?? bytes.length, 12)}${whole(0, 6).repeat(4)}`;
  const text = new TextEncoder().encode(['    -1', first, ...records, ''].join('\n'));
  return Uint8Array.from([...text, ...bytes, ...new TextEncoder().encode('\n    -1\n')]);
}

describe('dataset 58b', () => {
  it('is read in either order of bytes, single and double', async () => {
    for (const little of [true, false])
      for (const double of [true, false]) {
        const recording = await recordingOf(binary({ little, double }));
        assert.equal(recording.clock.rate, 400);
        const expected = double ? wave : wave.map(Math.fround);
        assert.deepEqual(samplesOf(recording, 'z'), expected, `${little} ${double}`);
        assert.equal(recording.channels[0].unit, 'm/s^2');
      }
  });

  it('takes uneven places on the abscissa in the unit of its record, as fine as they are written', async () => {
    for (const double of [true, false])
      for (const fine of [true, false]) {
        if (fine && !double) continue;
        const recording = await recordingOf(binary({ even: false, double, fine, abscissaUnit: 'ms' }));
        assert.ok(Math.abs(recording.clock.rate - 250) < 1e-6, `${recording.clock.rate}`);
        assert.deepEqual(samplesOf(recording, 'z'), double ? wave : wave.map(Math.fround));
      }
  });

  it('may leave its bytes uncounted, and be followed by another', async () => {
    const [one, other] = [binary({ stated: 0 }), binary()];
    const turned = new TextEncoder().encode(dataset());
    const recording = await recordingOf(Uint8Array.from([...one, ...other, ...turned]));
    assert.equal(recording.channels.length, 3);
    assert.deepEqual([...recording.channels[0].samples], wave.map(Math.fround));
  });

  it('is refused where its numbers are of another kind, too few, or not closed', async () => {
    assert.match((await refusalOf(binary({ format: 3 }))).message, /of an IBM 370, and only those of IEEE 754/);
    assert.match((await refusalOf(binary({ stated: 1196 }))).message, /has 299 values where its header states 300/);
    assert.equal((await refusalOf(binary().subarray(0, -8))).code, 'damaged-universal');
  });
});

describe('the axes of a function', () => {
  const axis = (record: number, text: string, set = dataset()): string => {
    const lines = set.split('\n');
    lines[record + 1] = text;
    return lines.join('\n');
  };
  const record = (type: number, exponents: readonly number[], label: string, unit: string): string =>
    `${whole(type, 10)}${exponents.map((one) => whole(one, 5)).join('')} ${label.padEnd(20)} ${unit}`;

  it('scale the step by the unit of the abscissa, at the left or the right of its columns', async () => {
    for (const unit of ['ms'.padEnd(20), 'ms'.padStart(20), 'ms']) {
      const { clock } = await recordingOf(axis(8, record(17, [0, 0, 0], 'Time', unit)));
      assert.ok(Math.abs(clock.rate - 400_000) < 1e-6, JSON.stringify(unit));
    }
  });

  it('are refused where the abscissa is no time by its unit or its exponents', async () => {
    assert.match((await refusalOf(axis(8, record(17, [0, 0, 0], 'Time', 'rpm')))).message, /abscissa is in "rpm"/);
    assert.match(
      (await refusalOf(axis(8, record(17, [1, 0, 0], 'Way', 'NONE')))).message,
      /exponents 1, 0, 0 of length/,
    );
  });

  it('divide the unit by that of the denominator', async () => {
    const { channels } = await recordingOf(axis(10, record(0, [0, 0, 0], 'Drive', 'V')), { unit: 'g' });
    assert.equal(channels[0].unitFrom, 'option');
    assert.equal((await recordingOf(axis(10, record(0, [0, 0, 0], 'NONE', 'NONE')))).channels[0].unit, 'm/s^2');
  });

  it('take the unit of an acceleration without one from dataset 164', async () => {
    const units = (code: number): string =>
      `    -1\n   164\n${whole(code, 10)}${'units'.padEnd(20)}${whole(2, 10)}\n    -1\n`;
    const bare = axis(9, record(12, [1, 0, 0], 'Acceleration', 'NONE'));
    for (const [code, unit] of [
      [1, 'm/s^2'],
      [5, 'mm/s^2'],
      [7, 'in/s^2'],
    ] as const)
      assert.equal((await recordingOf(units(code) + bare)).channels[0].unit, unit);
    assert.equal((await recordingOf(bare)).channels[0].unit, undefined);
  });

  it('may hold exponents of three digits, with which Fortran leaves out the E', async () => {
    const small = [1.5e-101, 2, -3e-100, 4].map((value) =>
      (Math.abs(value) < 1e-99 ? value.toExponential(5).replace('e', '') : real(value)).padStart(13),
    );
    const text = dataset({ count: 4, numbers: [] }).replace('\n    -1\n', `\n${small.join('')}\n    -1\n`);
    assert.deepEqual(samplesOf(await recordingOf(text), 'z'), [1.5e-101, 2, -3e-100, 4]);
  });
});

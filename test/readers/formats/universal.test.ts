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

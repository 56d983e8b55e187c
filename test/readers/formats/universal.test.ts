import { strict as assert } from 'node:assert';
import { recordingOf, refusalOf, samplesOf } from '../memory.ts';

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

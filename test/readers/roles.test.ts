import { strict as assert } from 'node:assert';
import type { ReadOptions } from '../../src/readers/recording.ts';
import { findRoles, type Roles } from '../../src/readers/roles.ts';
import type { Table, TableColumn } from '../../src/readers/table.ts';
import { each, noise, numbers, stamps, tableOf } from './tables.ts';

const rolesOf = (
  columns: readonly TableColumn[],
  options: ReadOptions = {},
  stated?: number,
  more: Partial<Table> = {},
): Roles | string => {
  const result = findRoles('run.csv', tableOf(columns, more), options, stated);
  return result.ok ? result.value : `${result.failure.code}: ${result.failure.message}`;
};
const brief = (...asked: Parameters<typeof rolesOf>): string => {
  const found = rolesOf(...asked);
  if (typeof found === 'string') return found;
  const leftOut = found.leftOut.map(({ index, why }) => `${index} ${why.code}`).join(', ');
  return `time ${found.time?.index ?? 'none'}, counter ${found.counter ?? 'none'}${leftOut === '' ? '' : `, ${leftOut}`}`;
};

const time = numbers(
  't (s)',
  each(60, (i) => i / 100),
  { decimals: 6 },
);
const z = numbers('z (g)', noise(60));
const count = (skips: number, header = 'sample'): TableColumn =>
  numbers(
    header === '' ? undefined : header,
    each(60, (i) => i + Math.min(i, skips)),
  );

describe('which column is what', () => {
  it('is told by names: a time and a counter', () => {
    assert.equal(brief([time, z]), 'time 0, counter none');
    assert.equal(brief([z, count(0), time]), 'time 2, counter 1');
    assert.equal(brief([z]), 'time none, counter none');
  });

  it('takes for a counter what goes up by one, by name with half of the rows at least', () => {
    assert.equal(brief([count(0, ''), time]), 'time 1, counter 0');
    assert.equal(brief([count(1, ''), time]), 'time 1, counter none');
    assert.equal(brief([count(29), time]), 'time 1, counter 0');
    assert.equal(brief([count(31), time]), 'time 1, counter none');
    const back = (rows: number): TableColumn =>
      numbers(
        'sample',
        each(60, (i) => (i < rows ? -2 * i : i)),
      );
    assert.equal(brief([back(3), time]), 'time 1, counter 0');
    assert.equal(brief([back(4), time]), 'time 1, counter none');
    assert.equal(brief([count(0, 'x'), time]), 'time 1, counter none');
    assert.equal(brief([count(0, 'load'), time]), 'time 1, counter none');
    assert.equal(
      brief([
        numbers(
          'sample',
          each(60, (i) => i),
          { decimals: 1 },
        ),
        time,
      ]),
      'time 1, counter none',
    );
    assert.equal(brief([numbers('sample', [5]), numbers('z', [1])]), 'time none, counter none');
    // A column that the option names as the time counts nothing.
    assert.equal(brief([count(0), z], { time: 'sample', rate: 1000 }), 'time 0, counter none');
  });

  it('leaves out times that do not run forward, and others beside the finest', () => {
    const back = numbers(
      'time (ms)',
      each(60, (i) => -i),
    );
    assert.equal(brief([back, time, z]), 'time 1, counter none, 0 column.backward');
    const coarse = numbers(
      'time (ms)',
      each(60, (i) => 20 * Math.floor(i / 2)),
    );
    assert.equal(brief([coarse, time, z]), 'time 1, counter none, 0 column.other-time');
    assert.equal(brief([time, coarse, z]), 'time 0, counter none, 1 column.other-time');
    const rounded = numbers(
      'time (s)',
      each(60, (i) => Math.round(i) / 100),
      { decimals: 1 },
    );
    assert.equal(brief([rounded, time, z]), 'time 1, counter none, 0 column.other-time');
  });

  it('refuses times that differ by more than 5 %', () => {
    const at = (rate: number): TableColumn =>
      numbers(
        'time (ms)',
        each(60, (i) => (1000 * i) / rate),
        { decimals: 6 },
      );
    assert.equal(brief([time, at(104)]), 'time 1, counter none, 0 column.other-time');
    assert.match(brief([time, at(106)]), /^times-differ: .*"t \(s\)" and "time \(ms\)" .*\(100 Hz and 106 Hz\)/);
    assert.match(brief([time, at(94)]), /^times-differ/);
    // Two steps of a coarse clock may hide a difference.
    const seconds = stamps(
      'clock',
      each(60, (i) => 36_000 + Math.floor(i / 100 + 0.7)),
      { quantum: 1 },
    );
    assert.equal(brief([time, seconds]), 'time 0, counter none, 1 column.other-time');
    assert.equal(brief([time, seconds], { time: 'clock' }), 'time 1, counter none');
  });

  it('follows the option, and refuses what it can’t be', () => {
    const other = numbers(
      'elapsed (ms)',
      each(60, (i) => 10 * i),
    );
    assert.equal(brief([time, other, z], { time: 'elapsed' }), 'time 1, counter none');
    assert.match(brief([time, z], { time: 'nothing' }), /^no-time-column/);
    assert.match(brief([time, z], { time: 'z' }), /^time-stands-still: .*"z \(g\)".*leave time out/);
  });

  it('joins a second and its part', () => {
    const whole = numbers(
      'sec',
      each(300, (i) => 1_741_357_351 + Math.floor(i / 100)),
    );
    const part = numbers(
      'nsec',
      each(300, (i) => (i % 100) * 1e7),
    );
    assert.equal(brief([whole, part]), 'time 0, counter none, 1 column.fraction');
  });

  it('leaves out a time at another rate than the stated, where nothing names it', () => {
    const rising = numbers(
      undefined,
      each(60, (i) => 1e13 * i),
    );
    assert.equal(
      brief([rising, numbers(undefined, noise(60))], { rate: 100 }, undefined, { named: false }),
      'time none, counter none, 0 column.off-rate',
    );
  });

  it('is not asked where every column is a signal', () => {
    const signals = { isOfSignals: true };
    assert.equal(brief([time, count(0)], {}, undefined, signals), 'time none, counter none');
    assert.equal(brief([time, z], { time: 't' }, undefined, signals), 'time 0, counter none');
  });

  it('takes no stand on a second time that does not run forward, as where a stamp is no number', () => {
    const broken = numbers('epoch (ms)', [1_715_679_012_355, 1.03e23], { decimals: 0 });
    const elapsed = numbers('elapsed (s)', [0.01, 0.26], { decimals: 3 });
    assert.equal(brief([broken, elapsed, numbers('z (g)', [1.2, 1.1])]), 'time 1, counter none, 0 column.other-time');
  });
});

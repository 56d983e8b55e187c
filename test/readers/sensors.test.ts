import { strict as assert } from 'node:assert';
import { pickSensors } from '../../src/readers/sensors.ts';
import type { TableColumn } from '../../src/readers/table.ts';
import { each, labels, noise, numbers, tableOf } from './tables.ts';

const z = (count: number): TableColumn => numbers('z', noise(count));
const picked = (columns: readonly TableColumn[], sensors: readonly string[] = []): string => {
  const found = pickSensors('run.csv', tableOf(columns), { sensors });
  if (!found.ok) return `${found.failure.code}: ${found.failure.message}`;
  const { table, sensor, sensors: all } = found.value;
  return `${sensor ?? 'none'} of ${all?.join(' ') ?? 'none'}: ${table.rows} rows`;
};
const cycle = (names: readonly string[], count: number, header: string): TableColumn =>
  labels(
    header,
    each(count, (i) => i).map((i) => names[i % names.length]),
  );

describe('sensors in one file', () => {
  it('are told by a column of that name, in words or in numbers', () => {
    assert.match(
      picked([labels('sensor', ['a', 'a', 'a', 'b']), z(4)]),
      /^which-sensor: .*"sensor" holds 2 sensors in turn \("a" and "b"\)/,
    );
    assert.match(picked([numbers('node', [2, 2, 11, 1]), z(4)]), /holds 3 sensors in turn \("1", "2" and "11"\)/);
    assert.equal(picked([labels('sensor', ['a', 'a', 'a', 'a']), z(4)]), 'none of none: 4 rows');
    assert.equal(picked([labels('activity', ['a', 'a', 'a', 'b']), z(4)]), 'none of none: 4 rows');
    assert.equal(picked([numbers('node', [2, 2, 2, 2]), z(4)]), 'none of none: 4 rows');
    assert.equal(picked([numbers('node', [2, NaN, 1, 2], { decimals: 0 }), z(4)]), 'none of none: 4 rows');
    assert.equal(picked([numbers('node', [2, 1.5, 1, 2]), z(4)]), 'none of none: 4 rows');
  });

  it('in numbers are sixty-four at most', () => {
    assert.match(
      picked([
        numbers(
          'node',
          each(64, (i) => i),
        ),
        z(64),
      ]),
      /^which-sensor: .*holds 64 sensors/,
    );
    assert.equal(
      picked([
        numbers(
          'node',
          each(65, (i) => i),
        ),
        z(65),
      ]),
      'none of none: 65 rows',
    );
  });

  it('are told by words that follow each other round and round, three times at least', () => {
    assert.match(picked([cycle(['a', 'b', 'c'], 9, 'tag'), z(9)]), /^which-sensor/);
    assert.equal(picked([cycle(['a', 'b', 'c'], 8, 'tag'), z(8)]), 'none of none: 8 rows');
    // They change from row to row, and in no turn.
    assert.equal(picked([cycle([...'abcacb'], 60, 'tag'), z(60)]), 'none of none: 60 rows');
    const words = each(40, (i) => i).map((i) => 'ab'[i % 2]);
    for (const [off, isTurn] of [
      [1, true],
      [2, false],
    ] as const) {
      const broken = words.map((word, i) => (off > 0 && i % 10 === 5 && i < 10 * off ? 'ba'[i % 2] : word));
      assert.equal(/^which-sensor/.test(picked([labels('tag', broken), z(40)])), isTurn, String(off));
    }
    const twice = each(40, (i) => i).map((i) => 'ab'[Math.floor(i / 2) % 2]);
    assert.equal(picked([labels('tag', twice), z(40)]), 'none of none: 40 rows');
    const many = cycle(
      each(65, (i) => i).map((i) => `s${i}`),
      200,
      'tag',
    );
    assert.equal(picked([many, z(200)]), 'none of none: 200 rows');
    assert.match(
      picked([
        cycle(
          each(64, (i) => i).map((i) => `s${i}`),
          200,
          'tag',
        ),
        z(200),
      ]),
      /^which-sensor/,
    );
  });

  it('are picked by name, whatever the case, and a wrong one is refused', () => {
    const columns = [labels('sensor', [' Seat ', 'Hub', ' Seat ', ' Seat ']), z(4)];
    assert.equal(picked(columns, ['seat']), '0 of  Seat  Hub: 3 rows');
    assert.equal(picked(columns, ['HUB', 'hub']), '0 of  Seat  Hub: 1 rows');
    assert.match(picked(columns, ['post']), /^no-such-sensor: .*no sensor "post"; it holds/);
    assert.equal(picked([numbers('node', [2, 2, 11, 1]), z(4)], ['2']), '0 of 1 2 11: 2 rows');
    assert.match(picked([z(4)], ['seat']), /^no-sensor-column: .*sensor "seat"/);
    // Any column of words will do where one is asked for.
    assert.equal(picked([z(4), labels('activity', ['a', 'a', 'a', 'b'])], ['a']), '1 of a b: 3 rows');
  });

  it('beside each other have names that are words of the language', () => {
    const names = (header: string, sensors: readonly string[]): string[] => {
      const rows = each(40, (i) => i);
      const table = tableOf([
        numbers(
          't (s)',
          rows.map((i) => Math.floor(i / 2) / 100),
        ),
        labels(
          header,
          rows.map((i) => sensors[i % 2]),
        ),
        z(40),
      ]);
      const found = pickSensors('run.csv', table, { sensors }, undefined);
      assert.ok(found.ok, found.ok ? '' : found.failure.message);
      return found.value.table.columns.flatMap(({ sensor }) => sensor ?? []);
    };
    assert.deepEqual(names('sensor', ['seat post', '--hub--']), ['seat_post', 'hub']);
    assert.deepEqual(names('imu', ['2', '1a']), ['imu2', 'imu1a']);
    assert.deepEqual(names('1. node id', ['2', '3']), ['node_id2', 'node_id3']);
    assert.deepEqual(names('sensor', ['?', '!!']), ['sensor', 'sensor']);
    assert.deepEqual(names('sensor', ['Größe', 'b']), ['Größe', 'b']);
  });
});

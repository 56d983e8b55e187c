import { strict as assert } from 'node:assert';
import { soundRows } from '../../src/readers/soundRows.ts';
import { pick } from '../../src/readers/rows.ts';
import type { RecordedChannel } from '../../src/readers/recording.ts';
import { each, numbers, tableOf } from './tables.ts';

const channel = (name: string, samples: readonly number[], axis = true): RecordedChannel => ({
  name,
  header: name,
  unit: 'g',
  unitFrom: 'header',
  axis,
  samples: Float64Array.from(samples),
});

interface Sound {
  readonly rows: readonly number[];
  readonly told: readonly string[];
  readonly messages: readonly string[];
  readonly sentAgain: number;
}

function sound(stamps: readonly number[] | undefined, channels: readonly RecordedChannel[]): Sound | string {
  const { length } = channels[0].samples;
  const table = tableOf([
    numbers('t', stamps ?? each(length, (i) => i)),
    ...channels.map(({ name, samples }) => numbers(name, samples)),
  ]);
  const found = soundRows('run.csv', table, stamps && Float64Array.from(stamps), channels, []);
  if (!found.ok) return `${found.failure.code}: ${found.failure.message}`;
  const { rows, sentAgain, findings } = found.value;
  return {
    rows: [
      ...pick(
        Float64Array.from({ length }, (_, i) => i),
        rows,
      ),
    ],
    told: findings.map(({ code, value }) => `${code} ${value}`),
    messages: findings.map(({ message }) => message),
    sentAgain,
  };
}
const of = (...asked: Parameters<typeof sound>): Sound => {
  const found = sound(...asked);
  assert.ok(typeof found === 'object', String(found));
  return found;
};

describe('rows that are kept', () => {
  it('are all where nothing is wrong', () => {
    const all = of([0, 1, 2, 3], [channel('x', [1, 2, 3, 4])]);
    assert.deepEqual([all.rows, all.told, all.sentAgain], [[0, 1, 2, 3], [], 0]);
    assert.deepEqual(of(undefined, [channel('x', [1, 1, 1, 1])]).rows, [0, 1, 2, 3]);
  });

  it('hold a reading of every axis and a stamp', () => {
    const some = of([0, 1, NaN, 3, 4], [channel('x', [1, 2, 3, NaN, 5]), channel('heat', [NaN, 1, 1, 1, 1], false)]);
    assert.deepEqual(some.rows, [0, 1, 4]);
    assert.deepEqual(some.told, ['empty-cells 2']);
    assert.match(some.messages[0], /^2 rows of 5 .*line 4/);
    assert.match(String(sound([0, 1, 2], [channel('x', [1, NaN, NaN])])), /^mostly-empty/);
    assert.match(String(sound([0, NaN], [channel('x', [1, 2])])), /^too-short|^mostly-empty/);
  });

  it('are not those that repeat the stamp and every reading of the row before', () => {
    const twice = (readings: readonly number[], stamps = [0, 0, 1, 1, 2, 2]): Sound =>
      of(stamps, [channel('x', readings), channel('y', [1, 1, 2, 2, 3, 3])]);
    const repeated = twice([5, 5, 6, 6, 7, 7]);
    assert.deepEqual([repeated.rows, repeated.told], [[0, 2, 4], ['rows-repeated 3']]);
    assert.match(repeated.messages[0], /^3 rows of 6 repeat/);
    // Stamps that are shared by readings of their own are no repeats: then none is left out.
    assert.deepEqual(twice([5, 5.5, 6, 6, 7, 7]).rows, [0, 1, 2, 3, 4, 5]);
    assert.deepEqual(twice([5, 5, 6, 6, 7, 7], [0, 0, 1, 1.5, 2, 2.5]).rows, [0, 2, 3, 4, 5]);
    assert.deepEqual(twice([5, 5, 6, 6, 7, 7], [0, 0.5, 1, 1.5, 2, 2.5]).told, []);
  });

  it('may repeat in nine of ten', () => {
    const stamps = each(40, (i) => Math.floor(i / 2));
    const odd = (count: number): Sound =>
      of(stamps, [
        channel(
          'x',
          each(40, (i) => Math.floor(i / 2) + (i % 2 === 1 && i < 2 * count ? 0.5 : 0)),
        ),
      ]);
    assert.deepEqual(odd(2).told, ['rows-repeated 18']);
    assert.equal(odd(2).rows.length, 22);
    assert.deepEqual(odd(3).told, []);
  });

  it('are not those that come again later on', () => {
    const again = of([0, 1, 2, 3, 1, 2, 4], [channel('x', [5, 6, 7, 8, 6, 7, 9])]);
    assert.deepEqual([again.rows, again.told, again.sentAgain], [[0, 1, 2, 3, 6], ['rows-sent-again 2'], 2]);
    assert.match(again.messages[0], /^2 rows of 7 .*first at line 6/);
    const other = of([0, 1, 2, 3, 1, 2, 4], [channel('x', [5, 6, 7, 8, 9, 9, 9])]);
    assert.deepEqual([other.rows.length, other.sentAgain], [7, 0]);
  });

  it('are two at least', () => {
    assert.match(String(sound([0, 0], [channel('x', [1, 1])])), /^too-short: .*fewer than two rows/);
    assert.deepEqual(of([0, 1], [channel('x', [1, 1])]).rows, [0, 1]);
  });
});

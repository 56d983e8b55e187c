import { strict as assert } from 'node:assert';
import type { TableColumn } from '../../src/readers/table.ts';
import { runsForward, timeByOption, timeCandidates, withoutSentAgain } from '../../src/readers/timeCandidates.ts';
import { recordingOf, refusalOf, rows } from './memory.ts';
import { each, labels, noise, numbers, stamps, tableOf } from './tables.ts';

const rising = (header: string, time: boolean): string =>
  `${time ? 'time (s),' : ''}${header},z (g)\n` +
  rows(300, (i) => [...(time ? [(i / 200).toFixed(3)] : []), (20 + i / 100).toFixed(2), 1 + (i % 7) / 100]);

describe('a quantity that is no time', () => {
  it('is none by a unit of time behind its name, however steadily it rises', async () => {
    for (const header of ['temp s', 'temp ms', 'Temp (ms)', 'delay (ms)']) {
      assert.equal((await recordingOf(rising(header, true))).clock.rate, 200, header);
      if (header !== 'delay (ms)') assert.equal((await refusalOf(rising(header, false))).code, 'no-rate', header);
    }
  });

  it('leaves `temps s`, a time in French, one', async () => {
    assert.equal((await recordingOf(rising('temps s', false))).clock.rate, 100);
  });
});

const brief = (columns: readonly TableColumn[], counter?: number, rated = false): string[] =>
  timeCandidates(tableOf(columns), counter, rated).map(
    ({ index, scale, byName }) => `${index} ${scale ?? '?'}${byName ? '' : ' by its numbers'}`,
  );

describe('columns that may be the time', () => {
  const even = (header: string | undefined, step = 0.01): TableColumn =>
    numbers(
      header,
      each(50, (i) => i * step),
    );
  const wave = numbers('z', noise(50));

  it('are named so, with the unit of the header, of the name or of the row below', () => {
    assert.deepEqual(brief([even('t (ms)'), wave]), ['0 0.001']);
    assert.deepEqual(brief([even('time_us'), wave]), ['0 0.000001']);
    assert.deepEqual(brief([even('time'), wave]), ['0 ?']);
    assert.deepEqual(
      brief([
        numbers(
          'time',
          each(50, (i) => i),
          { unitBelow: 'ms' },
        ),
        wave,
      ]),
      ['0 0.001'],
    );
    assert.deepEqual(brief([even('reading (ms)'), wave]), ['0 0.001']);
    assert.deepEqual(brief([wave, even('t (s)'), even('t (ms)', 10)]), ['1 1', '2 0.001']);
  });

  it('may be stamps of a clock, and no dates', () => {
    assert.deepEqual(
      brief([
        stamps(
          'when',
          each(50, (i) => i),
        ),
        wave,
      ]),
      ['0 1'],
    );
    assert.deepEqual(
      brief([
        stamps(
          'day',
          each(50, (i) => i),
          { clock: false },
        ),
        wave,
      ]),
      [],
    );
  });

  it('are neither the counter, nor an axis, nor of another unit or quantity', () => {
    assert.deepEqual(brief([even('time'), even('t (ms)')], 0), ['1 0.001']);
    assert.deepEqual(brief([even('t (N)')]), ['0 ? by its numbers']);
    assert.deepEqual(brief([even('t (N)')], undefined, true), []);
    assert.deepEqual(brief([even('time (UTC)')]), ['0 ?']);
    assert.deepEqual(brief([even('time (hh:mm)')]), ['0 ?']);
    assert.deepEqual(brief([even('x (s)')]), []);
    assert.deepEqual(brief([even('speed (s)')]), []);
  });

  it('may rise evenly without a telling name, unless a rate is stated and they have another', () => {
    assert.deepEqual(brief([even('reading'), wave]), ['0 ? by its numbers']);
    assert.deepEqual(brief([even('reading'), wave], undefined, true), []);
    assert.deepEqual(brief([even(undefined), wave], undefined, true), ['0 ? by its numbers']);
    assert.deepEqual(brief([even(undefined), even(undefined), wave]), ['0 ? by its numbers']);
    assert.deepEqual(
      brief([
        numbers(
          undefined,
          each(50, (i) => i),
          { unitBelow: '(ms)' },
        ),
      ]),
      ['0 0.001 by its numbers'],
    );
    for (const name of ['distance', 'Load', 'odometer', 'temp', 'angle', 'count', 'lat', 'Position', 'rev'])
      assert.deepEqual(brief([even(name), wave]), [], name);
  });

  it('of which one is named and runs forward leave no others', () => {
    assert.deepEqual(brief([even('time'), even('reading')]), ['0 ?']);
    const still = numbers(
      'time',
      each(50, () => 7),
    );
    assert.deepEqual(brief([still, even('reading')]), ['0 ?', '1 ? by its numbers']);
    assert.deepEqual(brief([still, even('dt (ms)', 0), even('reading')]), ['0 ?', '1 0.001']);
  });

  it('may be the time since the row before, which is summed up', () => {
    const steps = numbers('dt (ms)', [5, 10, 0, 20]);
    const [{ column, byName, scale }] = timeCandidates(tableOf([steps]), undefined, false);
    assert.deepEqual([...column.values], [0, 10, 10, 30]);
    assert.deepEqual([byName, scale], [true, 0.001]);
    assert.deepEqual(
      [...timeCandidates(tableOf([numbers('dt (ms)', [5, 10, -1, 20])]), undefined, false)[0].column.values],
      [5, 10, -1, 20],
    );
    assert.deepEqual(brief([numbers('dt (N)', [5, 10, 1, 20])]), []);
  });

  it('named by a lone T must look like a time', () => {
    assert.deepEqual(brief([even('T'), wave]), ['0 ? by its numbers']);
    assert.deepEqual(brief([numbers('T', noise(50)), wave]), []);
    assert.deepEqual(brief([numbers('t', noise(50)), wave]), ['0 ?']);
    assert.deepEqual(brief([even('T (s)'), wave]), ['0 1']);
  });

  it('rise by steps nearly alike, of three rows and more', () => {
    const rising = (...values: number[]): string[] => brief([numbers(undefined, values)]);
    assert.deepEqual(rising(1, 2, 3), ['0 ? by its numbers']);
    assert.deepEqual(rising(1, 2), []);
    assert.deepEqual(rising(3, 2, 1), []);
    assert.deepEqual(rising(1, 1, 1), []);
    const usual = each(40, (i) => i);
    const steps = (odd: number, step: number): string[] => {
      let at = 0;
      return brief([
        numbers(
          undefined,
          usual.map((i) => (at += i < odd ? step : 1)),
        ),
      ]);
    };
    assert.deepEqual(steps(16, 4.9), ['0 ? by its numbers']);
    assert.deepEqual(steps(16, 5), ['0 ? by its numbers']);
    assert.deepEqual(steps(18, 5), []);
    assert.deepEqual(steps(18, 0.19), []);
    assert.deepEqual(steps(18, 0.21), ['0 ? by its numbers']);
    const back = (count: number): string[] => {
      let at = 0;
      return brief([
        numbers(
          undefined,
          each(101, (i) => (at += i < count ? -0.5 : 1)),
        ),
      ]);
    };
    assert.deepEqual(back(5), ['0 ? by its numbers']);
    // 5 of 100 steps back are as many as may be.
    assert.deepEqual(back(6), ['0 ? by its numbers']);
    assert.deepEqual(back(7), []);
  });

  it('are nearly alike in six steps of ten, from a fifth to five times the usual one', () => {
    const bySteps = (usual: number, others: number, [step, other]: readonly [number, number]): string[] => {
      let at = 0;
      const steps = each(usual + others, (i) => (i < usual ? step : other));
      return brief([numbers(undefined, [0, ...steps.map((one) => (at += one))])]);
    };
    assert.deepEqual(bySteps(6, 4, [1, 6]), ['0 ? by its numbers']);
    assert.deepEqual(bySteps(11, 8, [1, 6]), []);
    assert.deepEqual(bySteps(6, 5, [5, 1]), []);
    assert.deepEqual(bySteps(20, 0, [5, 5]), ['0 ? by its numbers']);
  });

  it('get on by half of what such steps come to', () => {
    const andBack = (by: number, first = 0): string[] =>
      brief([
        numbers(
          undefined,
          each(21, (i) => first + (i < 20 ? i : 19 - by)),
        ),
      ]);
    assert.deepEqual(andBack(9), ['0 ? by its numbers']);
    assert.deepEqual(andBack(9.5), []);
    assert.deepEqual(andBack(12, 100), []);
  });
});

describe('a column that runs forward', () => {
  const forward = (values: readonly number[]): boolean => runsForward(numbers('t', values));
  it('steps forward more often than back, and farther', () => {
    assert.ok(forward([0, 1, 2, 3]));
    assert.ok(!forward([3, 2, 1, 0]));
    assert.ok(!forward([1, 1, 1]));
    assert.ok(!forward([0, 2, 1, 3, 2.5]));
    assert.ok(forward([0, 1, 0.5, 1.5, 2.5]));
    assert.ok(!forward([0, 1, 0, 1, 0]));
    // Two steps forward for each back, which is nearly as long as both.
    assert.ok(forward([0, 1, 2, 0.5, 1.5, 2.5, 1]));
    assert.ok(!forward([0, 1, 2, 0.3, 1.3, 2.3, 0.6]));
  });

  it('may begin anew, which steps back much farther', () => {
    const jump = (back: number, step = 1): boolean =>
      forward([...each(10, (i) => step * i), ...each(5, (i) => step * (9 - back + i))]);
    assert.ok(!jump(19.9));
    assert.ok(jump(20));
    assert.ok(!jump(11, 10));
    // As far back as four fifths of the way forward.
    assert.ok(!forward([0, 3, 6, 9, 10, 2]));
    assert.ok(jump(20.1));
    assert.ok(jump(1000));
    // A step back that is short beside all that went forward is none.
    assert.ok(jump(10));
    assert.ok(!jump(11));
  });
});

describe('the time by the option', () => {
  const table = tableOf([
    numbers(
      't (ms)',
      each(9, (i) => i),
    ),
    labels('state', ['a', 'b', 'a', 'b', 'a', 'b', 'a', 'b', 'a']),
    stamps(
      'clock',
      each(9, (i) => i),
    ),
    numbers(
      undefined,
      each(9, (i) => i),
    ),
    numbers(
      undefined,
      each(9, (i) => i),
      { unitBelow: '[us]' },
    ),
  ]);
  const named = (name: string): string => {
    const found = timeByOption('run.csv', table, name);
    return found.ok ? `${found.value.index} ${found.value.scale ?? '?'} ${found.value.byName}` : found.failure.message;
  };

  it('is named by its header, with or without the unit, or by its number where it has none', () => {
    assert.equal(named(' T (MS) '), '0 0.001 true');
    assert.equal(named('t'), '0 0.001 true');
    assert.equal(named('clock'), '2 1 true');
    assert.equal(named('column 4'), '3 ? true');
    assert.equal(named('Column5'), '4 0.000001 true');
    assert.match(named('column 1'), /no column "column 1".*"t \(ms\)", "state", "clock", "column4" and "column5"/);
    assert.match(named('column 9'), /no column/);
    assert.match(named('state'), /holds neither numbers nor clock stamps/);
  });
});

describe('stamps less those that come again', () => {
  it('are those that are new, where three are and a twentieth of the rows', () => {
    const again = (stamps: number, rows: number): Float64Array =>
      Float64Array.from({ length: rows }, (_, i) => i % stamps);
    // The latest one may stand still.
    assert.deepEqual(withoutSentAgain(again(3, 6)), Float64Array.of(0, 1, 2, 2));
    assert.deepEqual(withoutSentAgain(Float64Array.of(0, 1, 1, 2, 1, 3)), Float64Array.of(0, 1, 1, 2, 3));
    assert.equal(withoutSentAgain(again(2, 4)).length, 4);
    assert.deepEqual([withoutSentAgain(again(3, 60)).length, withoutSentAgain(again(3, 61)).length], [22, 61]);
    const forward = Float64Array.of(0, 1, 1, 2);
    assert.equal(withoutSentAgain(forward), forward);
  });
});

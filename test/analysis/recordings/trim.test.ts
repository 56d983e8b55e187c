import { strict as assert } from 'node:assert';
import { signalsOf } from '../../../src/values/run.ts';
import { trimmed, type Span } from '../../../src/analysis/recordings/trim.ts';
import { unit } from '../../../src/units/parse.ts';
import type { RunsValue } from '../../../src/values/runs.ts';

/** One run of 10 s at 100 Hz, whose samples count up. */
const runs: RunsValue = {
  kind: 'runs',
  set: undefined,
  runs: [
    {
      label: 'cost $& of A',
      file: { path: 'a.csv', bytes: 0, sha256: '' },
      rate: 100,
      channels: [
        {
          name: 'z',
          unit: unit('g'),
          unitFrom: 'the header',
          samples: Float64Array.from({ length: 1000 }, (_, i) => i),
          includesStatic: true,
        },
      ],
      stretches: [{ from: 0, to: 1000, start: 0 }],
      start: 0,
      history: [],
      findings: [
        { code: 'gap', facts: {}, message: 'A gap.', severity: 'warning', spans: [{ from: 1, to: 2 }] },
        { code: 'drift', facts: {}, message: 'A drift.', severity: 'note' },
      ],
      layout: { format: 'delimited text', rows: 1000 },
    },
  ],
};

const of = (span: Span): ReturnType<typeof trimmed> => trimmed(runs, span, 'stretch');

describe('a stretch of runs', () => {
  it('is settled by any two of start, end and length, or by one with the run’s own end', () => {
    const firstAndCount = (span: Span): number[] => {
      const found = of(span);
      assert.ok(found.ok);
      const [{ samples }] = signalsOf(found.value.runs[0]);
      return [samples[0], samples.length];
    };
    assert.deepEqual(firstAndCount({ from: 2, to: 5 }), [200, 300]);
    assert.deepEqual(firstAndCount({ from: 2, length: 3 }), [200, 300]);
    assert.deepEqual(firstAndCount({ to: 5, length: 3 }), [200, 300]);
    assert.deepEqual(firstAndCount({ from: 2 }), [200, 800]);
    assert.deepEqual(firstAndCount({ to: 5 }), [0, 500]);
    assert.deepEqual(firstAndCount({ length: 5 }), [0, 500]);
  });

  it('shares the samples, keeps the findings that touch it, and remembers the whole', () => {
    const found = of({ from: 2.5, to: 5 });
    assert.ok(found.ok);
    const [run] = found.value.runs;
    assert.equal(signalsOf(run)[0].samples.buffer, signalsOf(runs.runs[0])[0].samples.buffer);
    assert.deepEqual(
      run.findings.map(({ code }) => code),
      ['drift'],
    );
    assert.equal(run.untrimmed, runs.runs[0]);
    assert.equal(run.start, 2.5);
  });

  it('is refused in facts and a sentence with the run’s label as it is', () => {
    const found = of({ from: 2, to: 12 });
    assert.ok(!found.ok);
    assert.equal(found.failure.code, 'trim.outside');
    assert.deepEqual(found.failure.facts, { run: 'cost $& of A', length: 10, from: 2, to: 12 });
    assert.equal(found.failure.message, 'cost $& of A runs from 0 to 10 s, and 2 s to 12 s reaches outside it.');
    assert.equal(found.failure.at, 'stretch');
    const empty = of({ from: 2.001, to: 2.002 });
    assert.equal(!empty.ok && empty.failure.code, 'trim.empty');
  });
});

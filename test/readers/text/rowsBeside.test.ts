import { strict as assert } from 'node:assert';
import { sharedPlan } from '../../../src/readers/text/rowsBeside.ts';
import { ColumnSink, type SinkKind } from '../../../src/readers/text/sink.ts';
import { StampReader } from '../../../src/readers/text/stamp.ts';
import { stampForm } from '../../../src/readers/text/stampForm.ts';

const form = stampForm(['2024-05-01 12:00:00.125'])!;
const steady = { isDated: true, base: 19_844, suffix: '', offset: 0 };

/** What another thread would be told of columns of these kinds; of stamps once one was read, or before. */
function planOf(kinds: readonly SinkKind[], isRead = true): ReturnType<typeof sharedPlan> {
  const sinks = kinds.map((kind) => {
    const stamps = kind === 'stamp' ? new StampReader(form) : undefined;
    if (stamps !== undefined && isRead) stamps.steady = steady;
    return new ColumnSink(kind, 4, stamps);
  });
  return sharedPlan({ delimiter: 59, blanks: false, decimal: 46, tail: 0, sinks });
}

describe('the plan by which another thread reads rows', () => {
  it('has the marks, the kinds of the columns and how the stamps are spelt', () => {
    const marks = { delimiter: 59, blanks: false, decimal: 46, tail: 0 };
    assert.deepEqual(planOf(['number', 'skip']), { ...marks, kinds: ['number', 'skip'], stamps: undefined });
    assert.deepEqual(planOf(['stamp', 'number']), { ...marks, kinds: ['stamp', 'number'], stamps: { form, steady } });
  });

  it('is none where a row means what the rows before tell: labels, several stamps, and stamps of which none was read', () => {
    assert.equal(planOf(['number', 'label']), undefined);
    assert.equal(planOf(['stamp', 'number', 'stamp']), undefined);
    assert.equal(planOf(['stamp', 'number'], false), undefined);
  });
});

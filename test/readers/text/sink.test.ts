import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { limits } from '../../../src/readers/limits.ts';
import { ColumnSink } from '../../../src/readers/text/sink.ts';
import { StampReader } from '../../../src/readers/text/stamp.ts';
import { stampForm } from '../../../src/readers/text/stampForm.ts';

/** Gives a sink a text as a field within a longer line. */
function take(sink: ColumnSink, text: string, row: number): boolean {
  const line = new TextEncoder().encode(`9,${text},9`);
  return sink.take(line, 2, line.length - 2, row);
}

describe('a column of labels', () => {
  it('has a number for each label, in the order in which they come, whatever stands before', () => {
    const label = fc.constantFrom('a', 'ab', 'abc', 'b', 'ba', '', 'A');
    const law = fc.property(fc.array(label, { minLength: 1, maxLength: 40 }), (texts) => {
      const sink = new ColumnSink('label', texts.length);
      texts.forEach((text, row) => assert.ok(take(sink, text, row)));
      assert.deepEqual(sink.labels, [...new Set(texts)]);
      assert.deepEqual(
        texts.map((_, row) => sink.labels[sink.values[row]]),
        texts,
      );
    });
    fc.assert(law);
  });

  it('is passed over once it has more labels than are kept', () => {
    const sink = new ColumnSink('label', 1);
    for (let k = 0; k < limits.labels; k++) sink.takeLabel(String(k), 0);
    assert.equal(sink.kind, 'label');
    sink.takeLabel('0', 0);
    assert.equal(sink.kind, 'label');
    sink.takeLabel('one more', 0);
    assert.equal(sink.kind, 'skip');
    assert.equal(sink.labels.length, limits.labels);
  });

  it('keeps its values where room is made for more', () => {
    const sink = new ColumnSink('label', 1);
    take(sink, 'a', 0);
    sink.grow(3);
    take(sink, 'b', 1);
    take(sink, 'a', 2);
    assert.deepEqual([...sink.values], [0, 1, 0]);
  });
});

describe('a column of stamps, and one that is passed over', () => {
  it('takes stamps alone, in seconds', () => {
    const sink = new ColumnSink('stamp', 2, new StampReader(stampForm(['09:30:12'])!));
    assert.ok(take(sink, '09:30:12', 0));
    assert.equal(sink.values[0], 34_212);
    assert.equal(take(sink, 'no stamp', 1), false);
    assert.ok(Number.isNaN(sink.values[1]));
  });

  it('takes anything and keeps nothing', () => {
    const sink = new ColumnSink('skip', 5);
    assert.ok(take(sink, 'anything', 3));
    sink.grow(9);
    assert.deepEqual([sink.values.length, sink.labels], [0, []]);
  });
});

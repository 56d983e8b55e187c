import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { along } from '../../src/charts/along.ts';
import { logDomain, logTicks, placeLabels, textWidth, withHeadroom } from '../../src/charts/axes.ts';

const positive = fc.double({ min: 1e-9, max: 1e9, noNaN: true });

describe('a log axis', () => {
  it('holds the positive values, between 1, 2 or 5 times a power of ten', () => {
    assert.deepEqual(logDomain([0.0031, 0.0172, 0, -1, NaN]), { from: 0.002, to: 0.02 });
    fc.assert(
      fc.property(fc.array(positive, { minLength: 1 }), (values) => {
        const domain = logDomain(values);
        assert.ok(domain !== undefined && domain.from < domain.to);
        assert.ok(Math.max(...values) <= domain.to * (1 + 1e-5));
      }),
    );
  });

  it('is not stretched by the noise of arithmetic', () => {
    const domain = logDomain([1, 1e-30]);
    assert.ok(domain !== undefined && domain.from >= 0.9e-7);
  });

  it('does not exist without a positive value', () => assert.equal(logDomain([0, -1, NaN]), undefined));

  it('has a width even for a single value', () => assert.deepEqual(logDomain([1]), { from: 0.5, to: 2 }));

  it('carries ticks at 1, 2 and 5 over few powers of ten, at the powers alone over many', () => {
    assert.deepEqual(logTicks({ from: 1, to: 100 }), [1, 2, 5, 10, 20, 50, 100]);
    assert.deepEqual(logTicks({ from: 1e-6, to: 1 }), [1e-6, 1e-5, 1e-4, 1e-3, 1e-2, 0.1, 1]);
  });

  it('keeps the wanted height free above its values', () => {
    const { from, to } = withHeadroom({ from: 1, to: 100 }, 30, 300);
    assert.ok(Math.abs(along({ from, to }, 'log', 100) - 0.9) < 1e-4);
  });
});

describe('placeLabels', () => {
  const labels = fc.array(
    fc.record({
      at: fc.double({ min: 0, max: 1, noNaN: true }),
      text: fc.string({ minLength: 1, maxLength: 20 }),
      align: fc.constantFrom('left' as const, 'center' as const),
    }),
    { maxLength: 25 },
  );

  it('never lets two labels of a row touch, nor one leave the plot', () => {
    fc.assert(
      fc.property(labels, (list) => {
        const width = 600;
        const spans = placeLabels(list, width, 3).map(({ at, text, row, align }) => {
          const size = textWidth(text);
          const start = align === 'left' ? at * width : align === 'right' ? at * width - size : at * width - size / 2;
          return { row, start, end: start + size };
        });
        for (const [index, one] of spans.entries()) {
          assert.ok(one.start >= -0.001 && one.end <= width + 0.001);
          for (const other of spans.slice(0, index)) {
            assert.ok(one.row !== other.row || one.end <= other.start || one.start >= other.end);
          }
        }
      }),
    );
  });

  it('uses the next row when the first is taken, and leaves out what finds no row', () => {
    const many = [1, 2, 3].map(() => ({ at: 0.5, text: 'the same place', align: 'center' as const }));
    assert.deepEqual(
      placeLabels(many, 600, 2).map(({ row }) => row),
      [0, 1],
    );
  });
});

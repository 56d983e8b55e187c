import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { flattened, unflattened } from '../../../src/engine/kept/graph.ts';

const again = (value: unknown): unknown => {
  const flat = flattened(value);
  assert.ok(flat);
  const buffers = flat.buffers.map((buffer) => buffer.slice(0));
  return unflattened(Buffer.concat(flat.text).toString(), (index) => buffers[index]);
};

describe('a value as text and bytes', () => {
  it('comes back as it was, whatever data it is', () => {
    const leaf = fc.oneof(
      fc.string(),
      fc.double(),
      fc.boolean(),
      fc.constantFrom(undefined, null, -0, NaN, Infinity, -Infinity),
      fc.float64Array({ maxLength: 5 }),
    );
    const { tree } = fc.letrec((tie) => ({
      tree: fc.oneof(
        leaf,
        fc.array(tie('tree'), { maxLength: 4 }),
        fc.dictionary(fc.oneof(fc.string(), fc.constantFrom('$', '__proto__', 'constructor')), tie('tree'), {
          maxKeys: 4,
          noNullPrototype: true,
        }),
      ),
    }));
    fc.assert(fc.property(tree, (value) => assert.deepStrictEqual(again(value), value)));
    const other = { map: new Map([['a', { b: 1 }]]), set: new Set([1, 'x']), bytes: Uint8Array.of(1, 2) };
    assert.deepStrictEqual(again(other), other);
  });

  it('shares what it shared: objects, and buffers of which several arrays are parts', () => {
    const samples = Float64Array.from({ length: 10 }, (_, i) => i);
    const run = { samples: samples.subarray(2, 8) };
    const value = { runs: [run, run], whole: samples };
    const found = again(value) as typeof value;
    assert.deepStrictEqual(found, value);
    assert.equal(found.runs[0], found.runs[1]);
    assert.equal(found.whole.buffer, found.runs[0].samples.buffer);
  });

  it('shares again what stands in maps, sets and objects with odd names, or behind them', () => {
    const [one, list, odd] = [{ a: 1 }, [1, 2], { $: [-0, undefined] }];
    const map = new Map<unknown, unknown>([[one, list]]);
    const value = { map, set: new Set([odd, map]), odd, list, one, many: [one, list, odd, map] };
    const found = again(value) as typeof value;
    assert.deepStrictEqual(found, value);
    assert.deepEqual(
      [[...found.map][0][0], [...found.map][0][1], found.odd, found.map].map((part, k) => part === found.many[k]),
      [true, true, true, true],
    );
    assert.ok([...found.set][0] === found.odd && found.list === found.many[1], 'a list or an odd object came twice');
  });

  it('is written as JSON writes it where that tells all of it', () => {
    const value = { rows: [{ name: 'a "b"', rms: 0.1, count: 3 }, []], unit: null, planned: true, none: {} };
    assert.equal(Buffer.concat(flattened(value)?.text ?? []).toString(), JSON.stringify(value));
  });

  it('comes back however long its text is, in whichever signs', () => {
    const rows = Array.from({ length: 3000 }, (_, i) => ({
      name: `m/s² ${i} – 🜁`,
      at: i / 7,
      long: 'é'.repeat(i % 40),
    }));
    assert.deepStrictEqual(again({ rows, whole: '🜁'.repeat(40_000) }), { rows, whole: '🜁'.repeat(40_000) });
    assert.equal(flattened({})?.text.length, 1);
    assert.ok((flattened(rows)?.text.length ?? 0) > 5, 'pieces');
  });

  it('is none where a part of it is more than data', () => {
    for (const part of [() => 1, Symbol('a'), 1n, new Date(), new (class A {})()])
      assert.equal(flattened({ a: [part] }), undefined);
  });
});

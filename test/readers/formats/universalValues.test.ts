import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import type { FunctionHeader } from '../../../src/readers/formats/universalFunction.ts';
import { binaryForm, sizesOf, valuesInBytes, valuesInText } from '../../../src/readers/formats/universalValues.ts';
import { counted } from '../../../src/result/words.ts';

const header = (of: Partial<FunctionHeader> = {}): FunctionHeader => ({
  line: 3,
  title: '',
  entity: '',
  node: 1,
  direction: 3,
  isDouble: false,
  count: 4,
  isEven: true,
  first: 0,
  step: 0.01,
  scale: 1,
  unit: undefined,
  isAcceleration: true,
  ...of,
});

/** Numbers one after the other, each of so many bytes. */
function bytesOf(numbers: readonly (readonly [value: number, size: number])[], isLittle: boolean): Uint8Array {
  const view = new DataView(new ArrayBuffer(numbers.reduce((sum, [, size]) => sum + size, 0)));
  let at = 0;
  for (const [value, size] of numbers) {
    if (size === 8) view.setFloat64(at, value, isLittle);
    else view.setFloat32(at, value, isLittle);
    at += size;
  }
  return new Uint8Array(view.buffer);
}

describe('the values of a function of dataset 58b', () => {
  it('are read back from any form, with the time of each where it is uneven', () => {
    const law = fc.property(
      fc.array(fc.tuple(fc.float({ noNaN: true, noDefaultInfinity: true }), fc.nat(1e6)), {
        minLength: 2,
        maxLength: 20,
      }),
      fc.boolean(),
      fc.boolean(),
      fc.boolean(),
      fc.boolean(),
      (pairs, isLittle, isDouble, isEven, isFine) => {
        const own = isDouble ? 8 : 4;
        const before = isDouble && isFine ? 8 : 4;
        const frame = own + (isEven ? 0 : before);
        const of = header({ isDouble, isEven, count: pairs.length, scale: 1e-3 });
        const numbers = pairs.flatMap(([value, time]): [number, number][] =>
          isEven
            ? [[value, own]]
            : [
                [time, before],
                [value, own],
              ],
        );
        const bytes = bytesOf(numbers, isLittle);
        // What stands before and behind belongs to others.
        const file = Uint8Array.from([1, 2, 3, ...bytes, 9]);
        const form = { isLittle, bytes: frame * pairs.length };
        assert.deepEqual(sizesOf(of, form), [own, isEven ? 0 : before]);
        const found = valuesInBytes('run.uff', of, file.subarray(3, 3 + bytes.length), form);
        assert.ok(found.ok);
        assert.deepEqual(
          [...found.value.values],
          pairs.map(([value]) => value),
        );
        assert.deepEqual(
          found.value.times && [...found.value.times],
          isEven ? undefined : pairs.map(([, t]) => t * 1e-3),
        );
        // So many digits does a number of its size hold.
        if (!isEven) assert.equal(found.value.digits, before === 8 ? 15 : 7);
        const short = valuesInBytes('run.uff', of, bytes.subarray(0, -1), form);
        assert.ok(
          !short.ok && short.failure.message.includes(`has ${counted(pairs.length - 1, 'value')} where`),
          frame.toString(),
        );
      },
    );
    fc.assert(law, { numRuns: 200 });
  });

  it('that are no numbers are none', () => {
    const bytes = bytesOf(
      [1, NaN, Infinity, -2].map((value) => [value, 4] as const),
      true,
    );
    const found = valuesInBytes('run.uff', header(), bytes, { isLittle: true, bytes: 0 });
    assert.deepEqual(found.ok && [...found.value.values], [1, NaN, NaN, -2]);
  });

  it('have their order and their bytes from the first line, and are refused where they are none of IEEE 754', () => {
    const form = (text: string): unknown => {
      const found = binaryForm('run.uff', text, 7);
      return found.ok ? found.value : found.failure.message;
    };
    assert.deepEqual(form('   58b     1     2          11        1600     0     0'), { isLittle: true, bytes: 1600 });
    assert.deepEqual(form('   58B     2     2          11           1'), { isLittle: false, bytes: 1 });
    for (const stated of ['0', '-8', '1.5', 'x', '']) {
      assert.deepEqual(form(`   58b     2     2          11  ${stated}`), { isLittle: false, bytes: 0 });
    }
    for (const other of ['1     1', '1     3', '0     2', '3     2']) {
      assert.match(String(form(`   58b     ${other}          11        1600`)), /^run\.uff:7:/);
    }
  });

  it('in text are the numbers as they come, in pairs where they are uneven', () => {
    const even = valuesInText('run.uff', header({ count: 3 }), ['1 2', '3.5 4']);
    assert.deepEqual(even.ok && [[...even.value.values], even.value.times], [[1, 2, 3.5], undefined]);
    const uneven = valuesInText('run.uff', header({ count: 2, isEven: false, scale: 0.5 }), ['0 7', '3 8 9']);
    assert.deepEqual(uneven.ok && [[...uneven.value.values], [...uneven.value.times!]], [
      [7, 8],
      [0, 1.5],
    ]);
    // Times in text are written as E13.5, to 6 digits.
    assert.equal(uneven.ok && uneven.value.digits, 6);
    const few = valuesInText('run.uff', header({ count: 2, isEven: false }), ['0 7 3']);
    assert.match(few.ok ? '' : few.failure.message, /^run\.uff:15: .* has 1 value.* states 2/);
    // The last line may be filled up; a line more is no filling.
    const many = valuesInText('run.uff', header({ count: 2 }), ['1 2 0 0 0 0', '3']);
    assert.ok(valuesInText('run.uff', header({ count: 2 }), ['1 2 0 0 0 0']).ok, 'a last line that is filled up');
    assert.match(many.ok ? '' : many.failure.message, /^run\.uff:15: .* has 7 values where .* states 2/);
  });
});

import { strict as assert } from 'node:assert';
import { Kept } from '../../src/signal/kept.ts';

describe('Kept', () => {
  const counted = (most: number): { kept: Kept<number>; made: number[] } => {
    const made: number[] = [];
    const make = (length: number): number => {
      made.push(length);
      return length;
    };
    return { kept: new Kept(make, (size) => size, most), made };
  };

  it('makes what is asked for once, and once more where the others that were used later left it no room', () => {
    const { kept, made } = counted(10);
    for (const length of [4, 5, 4, 3, 4, 5]) assert.equal(kept.of(length), length);
    // The 3 drives out the 5, which was used before the 4.
    assert.deepEqual(made, [4, 5, 3, 5]);
  });

  it('keeps all that fill its size to the last', () => {
    const { kept, made } = counted(10);
    for (const length of [4, 6, 4, 6, 10, 10]) kept.of(length);
    assert.deepEqual(made, [4, 6, 10]);
  });

  it('does not keep what is too large by itself, nor lets it drive others out', () => {
    const { kept, made } = counted(10);
    for (const length of [4, 11, 4, 11]) kept.of(length);
    assert.deepEqual(made, [4, 11, 11]);
  });

  it('keeps that something can not be had', () => {
    let asked = 0;
    const kept = new Kept<undefined>(
      () => void asked++,
      () => 0,
      1,
    );
    assert.deepEqual([kept.of(7), kept.of(7), asked], [undefined, undefined, 1]);
  });
});

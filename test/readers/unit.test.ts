import { strict as assert } from 'node:assert';
import { settleUnit, unitOfGravity, type StatedUnit, type UnitReading } from '../../src/readers/unit.ts';
import type { ReadOptions } from '../../src/readers/recording.ts';

const nothing: StatedUnit = { header: undefined, raw: undefined, unknown: undefined };
const g = 9.80665;

function settled(
  stated: Partial<StatedUnit>,
  length: number | undefined,
  options: ReadOptions = {},
  isInteger = false,
): UnitReading {
  const found = settleUnit('run.csv', { ...nothing, ...stated }, length, isInteger, options);
  return found.ok ? found.value : assert.fail(found.failure.message);
}

function refusal(stated: Partial<StatedUnit>, length: number | undefined, options: ReadOptions = {}): string {
  const found = settleUnit('run.csv', { ...nothing, ...stated }, length, false, options);
  return found.ok ? assert.fail('settled') : found.failure.code;
}

describe('the unit of a mean vector', () => {
  it('is that in which its length is gravity, to 15 %', () => {
    assert.deepEqual(
      [1, 1000, g, 1000 * g].map((length) => unitOfGravity(length)),
      ['g', 'mg', 'm/s^2', 'mm/s^2'],
    );
    assert.deepEqual(
      [0.84, 0.86, 1.14, 1.16].map((length) => unitOfGravity(length)),
      [undefined, 'g', 'g', undefined],
    );
    assert.equal(unitOfGravity(0), undefined);
  });
});

describe('the unit of a recording', () => {
  it('is told by the option before the header, and by the header before the mean vector', () => {
    assert.deepEqual(settled({}, 1, { unit: 'g' }), { unit: 'g', from: 'option' });
    assert.deepEqual(settled({ header: 'g' }, 1), { unit: 'g', from: 'header' });
    assert.deepEqual(settled({}, 1), { unit: 'g', from: 'mean vector' });
  });

  it('is taken from an option however it is spelt, and as it stands where the language has none', () => {
    assert.equal(settled({}, undefined, { unit: 'm/s²' }).unit, 'm/s^2');
    assert.equal(settled({}, undefined, { unit: 'stones' }).unit, 'stones');
  });

  it('is overruled by an option only where the mean vector agrees, which is told', () => {
    const { unit, remark } = settled({ header: 'm/s^2' }, 1, { unit: 'g' });
    assert.deepEqual([unit, remark?.code], ['g', 'unit-overruled']);
    assert.equal(refusal({ header: 'm/s^2' }, g, { unit: 'g' }), 'unit-conflict');
    assert.equal(refusal({ header: 'm/s^2' }, undefined, { unit: 'g' }), 'unit-conflict');
    assert.equal(settled({ header: 'g' }, 1, { unit: 'g' }).remark, undefined);
  });

  it('is overruled without a word where numbers are scaled', () => {
    assert.deepEqual(settled({ header: 'm/s^2' }, 16384, { unit: 'g', scale: 1 / 16384 }), {
      unit: 'g',
      from: 'option',
    });
  });

  it('is doubted where the mean vector is gravity in another one, and not where it is in none or in it', () => {
    assert.equal(settled({}, 1, { unit: 'm/s^2' }).remark?.code, 'unit-doubtful');
    assert.equal(settled({}, 1, { unit: 'g' }).remark, undefined);
    assert.equal(settled({}, 0.3, { unit: 'm/s^2' }).remark, undefined);
    // 980 cm/s² is gravity, as is 980 mg.
    assert.equal(settled({}, 980, { unit: 'cm/s^2' }).remark, undefined);
    assert.equal(settled({}, 1, { unit: 'V' }).remark, undefined);
  });

  it('is refused where header and mean vector contradict each other, and doubted where so little may be what is left of gravity', () => {
    assert.equal(refusal({ header: 'm/s^2' }, 1), 'unit-conflict');
    const { unit, remark } = settled({ header: 'g' }, 0.00981);
    assert.equal(unit, 'g');
    assert.equal(remark, undefined);
    const little = settled({ header: 'mg' }, 1);
    assert.deepEqual([little.unit, little.remark?.code], ['mg', 'unit-doubtful']);
  });
});

describe('a unit that nothing settles', () => {
  const why = (...given: Parameters<typeof settled>): unknown => {
    const { unit, from, remark } = settled(...given);
    assert.deepEqual([unit, from, remark?.code], [undefined, 'none', 'unit-unsettled']);
    return remark?.facts;
  };

  it('is of raw counts by name, or of no axes', () => {
    assert.deepEqual(why({ raw: 'counts' }, 1), { kind: 'raw', raw: 'counts' });
    assert.deepEqual(why({ unknown: 'stones' }, undefined), { kind: 'no axes', unknown: 'stones' });
    assert.deepEqual(why({ raw: 'counts' }, undefined), { kind: 'raw', raw: 'counts' });
  });

  it('is of counts of a sensor, where whole numbers are a power of two from 256 to 16384 long, to 5 %', () => {
    for (const counts of [256, 512, 4096, 16384])
      for (const length of [counts * 0.96, counts, counts * 1.04])
        assert.deepEqual(why({}, length, {}, true), { kind: 'counts', length, counts, unit: unitOfGravity(length) });
    for (const length of [128, 32768, 256 * 0.94, 256 * 1.06])
      assert.deepEqual(why({}, length, {}, true), { kind: 'no gravity', unknown: undefined, length, isSmall: false });
    // 1000 is 1024 as whole numbers, and 1000 mg as others.
    assert.deepEqual(why({}, 1000, {}, true), { kind: 'counts', length: 1000, counts: 1024, unit: 'mg' });
    assert.equal(settled({}, 1000).unit, 'mg');
    assert.deepEqual(why({ raw: 'counts' }, 4096, {}, true), {
      kind: 'counts',
      length: 4096,
      counts: 4096,
      unit: undefined,
    });
  });

  it('is of a vector that is gravity in no unit, with whether it is too small for any', () => {
    assert.deepEqual(why({}, 0.05), { kind: 'no gravity', unknown: undefined, length: 0.05, isSmall: true });
    assert.deepEqual(why({ unknown: 'stones' }, 0.5), {
      kind: 'no gravity',
      unknown: 'stones',
      length: 0.5,
      isSmall: false,
    });
  });
});

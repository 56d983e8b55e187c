import { strict as assert } from 'node:assert';
import { octaveBands } from '../../src/signal/octave.ts';

// IEC 61260-1:2014, 5.2 to 5.6: exact mid-band frequencies and band edges by the base-ten ratio, read in its national
// adoption, ANSI/ASA S1.11-2014 part 1; nominal frequencies: ISO 266:1997.
const rounded = (values: readonly number[], digits: number): number[] =>
  values.map((value) => Number(value.toFixed(digits)));

describe('IEC 61260-1:2014 fractional octaves', () => {
  it('thirds from 10 to 100 Hz: mid-bands and edges', () => {
    const bands = octaveBands(3, 10, 100);
    assert.deepEqual(
      rounded(
        bands.map(({ middle }) => middle),
        4,
      ),
      [10, 12.5893, 15.8489, 19.9526, 25.1189, 31.6228, 39.8107, 50.1187, 63.0957, 79.4328, 100],
    );
    assert.deepEqual(
      rounded([bands[0].low, ...bands.map(({ high }) => high)], 4),
      [8.9125, 11.2202, 14.1254, 17.7828, 22.3872, 28.1838, 35.4813, 44.6684, 56.2341, 70.7946, 89.1251, 112.2018],
    );
  });

  it('whole octaves from 16 to 125 Hz', () => {
    assert.deepEqual(
      rounded(
        octaveBands(1, 16, 125).map(({ middle }) => middle),
        3,
      ),
      [15.849, 31.623, 63.096, 125.893],
    );
    assert.deepEqual(
      octaveBands(1, 16, 8000).map(({ nominal }) => nominal),
      [16, 31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000],
    );
  });

  it('sixths and twelfths, whose mid-bands lie either side of 1000 Hz', () => {
    assert.deepEqual(
      rounded(
        octaveBands(6, 33, 47).map(({ middle }) => middle),
        4,
      ),
      [33.4965, 37.5837, 42.1697, 47.3151],
    );
    assert.deepEqual(
      rounded(
        octaveBands(12, 32, 39).map(({ middle }) => middle),
        4,
      ),
      [32.5462, 34.4747, 36.5174, 38.6812],
    );
    const [below, above] = octaveBands(6, 999, 1001);
    assert.equal(below.high, 1000);
    assert.equal(above.low, 1000);
  });

  it('nominal thirds over five decades are the preferred numbers of ISO 266', () => {
    const names = octaveBands(3, 0.1, 8000).map(({ nominal }) => nominal);
    const decade = [1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8];
    assert.deepEqual(
      names,
      [-1, 0, 1, 2, 3].flatMap((power) => decade.map((value) => Number(`${value}e${power}`))),
    );
  });

  it('nominal sixths and finer are rounded to three digits, two from a leading 5 on (annex E)', () => {
    assert.deepEqual(
      octaveBands(6, 33, 60).map(({ nominal }) => nominal),
      [33.5, 37.6, 42.2, 47.3, 53, 60],
    );
  });
});

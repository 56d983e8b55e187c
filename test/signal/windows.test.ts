import { strict as assert } from 'node:assert';
import {
  sharedWindow,
  sumOf,
  windowCorrelation,
  windowNames,
  windowResponse,
  windowShape,
} from '../../src/signal/windows.ts';
import { close, noiseBandwidthBins } from '../published/vectors.ts';

describe('windowShape', () => {
  it('is periodic: symmetric about L/2, its first sample not repeated at the end', () => {
    for (const name of windowNames) {
      for (const length of [8, 9, 350]) {
        const shape = windowShape(name, length);
        for (let n = 1; n < length; n++) close(1 + shape[n], 1 + shape[length - n], 1e-15, `${name} ${length}`);
      }
    }
  });

  it('of one sample is 1', () => {
    for (const name of windowNames) assert.deepEqual([...windowShape(name, 1)], [1]);
  });

  it('refuses a length that is no whole number from 1', () => {
    for (const length of [0, 1.5, NaN]) assert.throws(() => windowShape('hann', length), RangeError);
  });
});

describe('sharedWindow', () => {
  it('is the window of its name and length, one array for all who ask', () => {
    for (const name of windowNames) {
      for (const length of [9, 350]) assert.deepEqual(sharedWindow(name, length), windowShape(name, length));
      assert.equal(sharedWindow(name, 350), sharedWindow(name, 350), name);
    }
  });

  it('refuses a length that is no whole number from 1', () => {
    for (const length of [0, 1.5, NaN]) assert.throws(() => sharedWindow('hann', length), RangeError);
  });
});

describe('the figures of a window', () => {
  it('of Hann are a mean of 1/2, a noise bandwidth of 3/2 bins and a correlation of 1/6 at half a segment, for any length that has its cosine', () => {
    for (const length of [4, 9, 100, 706]) {
      const shape = windowShape('hann', length);
      close(sumOf(shape) / length, 0.5, 1e-14);
      close(noiseBandwidthBins(shape), 1.5, 1e-14);
    }
    close(windowCorrelation(windowShape('hann', 100), 50), 1 / 6, 1e-14);
  });

  it('the response is 1 at the line itself', () => {
    close(windowResponse(windowShape('flattop', 64), 0), 1, 1e-15);
  });
});

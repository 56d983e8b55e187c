import { strict as assert } from 'node:assert';
import { transfer } from '../../src/signal/transfer.ts';
import { windowShape } from '../../src/signal/windows.ts';
import { close, near, noise, record } from '../published/vectors.ts';

const shape = windowShape('hann', 100);

describe('transfer', () => {
  it('of a signal to its multiple is the factor, with no phase, full coherence and no error', () => {
    const input = record(1, 2000);
    const found = transfer([{ input, output: input.map((value) => -2 * value) }], { shape, rate: 350 });
    near(found.h1, new Float64Array(51).fill(2), 1e-12);
    near(found.h2, new Float64Array(51).fill(2), 1e-12);
    near(found.coherence, new Float64Array(51).fill(1), 1e-12);
    near(found.phase.map(Math.abs), new Float64Array(51).fill(Math.PI), 1e-9);
    assert.ok(found.error.every((value) => value < 1e-6));
    assert.equal(found.step, 3.5);
  });

  it('of silence is nothing, and of an output that no input explains is infinite by H2 alone', () => {
    const [sound, silence] = [record(1, 2000), new Float64Array(2000)];
    const none = new Float64Array(51);
    // A mean that is taken out leaves its last bits.
    for (const dead of [silence, silence.map(() => 0.3)]) {
      const silent = transfer([{ input: sound, output: dead }], { shape, rate: 350 });
      for (const found of [silent.h1, silent.h2, silent.phase, silent.coherence]) assert.deepEqual(found, none);
    }
    const unexplained = transfer([{ input: silence, output: sound }], { shape, rate: 350 });
    for (const found of [unexplained.h1, unexplained.phase, unexplained.coherence]) assert.deepEqual(found, none);
    assert.ok(
      unexplained.h2.every((value) => value === Infinity),
      'H2 is infinite',
    );
  });

  it('reads the delay of an output as a falling phase', () => {
    const input = noise(2, 40_000);
    const output = input.map((_, n) => (n >= 2 ? input[n - 2] : 0));
    const found = transfer([{ input, output }], { shape, rate: 100 });
    close(found.phase[10], (-2 * Math.PI * 10 * 2) / 100, 0.01);
  });

  it('of unrelated signals has no coherence beyond chance', () => {
    const found = transfer([{ input: noise(3, 40_000), output: noise(77, 40_000) }], { shape, rate: 350 });
    // Bendat and Piersol, Random Data, 9.2: below 1 - 0.05^(1 / (n - 1)) with 95 %.
    const limit = 1 - 0.05 ** (1 / (found.averages - 1));
    const above = found.coherence.slice(1, 50).filter((value) => value > limit).length;
    assert.ok(above <= 7, `${above} of 49 bins above`);
  });

  it('states the random error sqrt(1 - g2) / (g sqrt(2 n)): 3.7 % at a coherence of 0.9 and 40 averages', () => {
    const input = noise(3, 20_000);
    const output = input.map((value, n) => value + 0.4 * noise5[n]);
    const { averages, coherence, error } = transfer([{ input, output }], { shape, rate: 350 });
    close(Math.sqrt(0.1 / 0.9 / 80), 0.0373, 0.002);
    coherence.forEach((g2, k) => close(error[k], Math.sqrt((1 - g2) / (g2 * 2 * averages)), 1e-12));
  });

  it('lets H1 and H2 enclose the truth when both sides are noisy', () => {
    const motion = noise(5, 60_000);
    const input = motion.map((value, n) => value + 0.5 * noise5[n]);
    const output = motion.map((value, n) => value + 0.5 * noise6[n]);
    const found = transfer([{ input, output }], { shape, rate: 350 });
    for (let k = 2; k < 49; k++) assert.ok(found.h1[k] < 1 && found.h2[k] > 1);
  });

  it('refuses one segment, of which any two signals would seem coherent, and unequal lengths', () => {
    const input = record(1, 120);
    assert.throws(
      () => transfer([{ input, output: input }], { shape, rate: 350 }),
      /at least two segments of 100 samples, not 1/,
    );
    assert.throws(() => transfer([{ input, output: input.subarray(1) }], { shape, rate: 350 }), /120 and 119 samples/);
  });
});

const noise5 = noise(1005, 60_000);
const noise6 = noise(2006, 60_000);

import { strict as assert } from 'node:assert';
import { additionalMethods, comfortAt, directiveValues, vibrationTotal } from '../../src/signal/exposure.ts';
import { moments, vibrationDose } from '../../src/signal/levels.ts';
import { runningRms } from '../../src/signal/running.ts';
import { close } from './vectors.ts';

describe('ISO 2631-1:1997, doses and totals', () => {
  const sine = (seconds: number, rate: number, amplitude: number): Float64Array =>
    Float64Array.from({ length: seconds * rate }, (_, n) => amplitude * Math.sin((2 * Math.PI * 5 * n) / rate));

  it('6.3.2: VDV of a sine of amplitude A over T is A (3 T / 8)^(1/4), 1.3916 m/s^1.75 for 1 m/s^2 and 10 s', () => {
    close(vibrationDose(moments(sine(10, 200, 1)), 200, 1), 1.3916, 3e-5);
    close(vibrationDose(moments(sine(80, 200, 2)), 200, 1), 2 * 30 ** 0.25, 1e-12);
  });

  it('6.3.1: MTVV is the greatest r.m.s. over one second', () => {
    const samples = sine(10, 200, 1);
    for (let n = 1000; n < 1200; n++) samples[n] *= 3;
    const { maximum, maximumAt } = runningRms(samples, 200);
    close(maximum, 3 / Math.SQRT2, 1e-12);
    assert.equal(maximumAt, 1199);
  });

  it('6.2.1 and 6.3.3: crest above 9, MTVV/a_w above 1.5 and VDV/(a_w T^(1/4)) above 1.75 call for the additional methods', () => {
    const calm = additionalMethods({ rms: 1, peak: 9, greatestRunning: 1.5, dose: 1.75 * 2, seconds: 16 });
    assert.deepEqual([calm.crest.calledFor, calm.transient.calledFor, calm.dose.calledFor], [false, false, false]);
    const rough = additionalMethods({ rms: 1, peak: 9.1, greatestRunning: 1.6, dose: 1.8 * 2, seconds: 16 });
    assert.deepEqual([rough.crest.calledFor, rough.transient.calledFor, rough.dose.calledFor], [true, true, true]);
    close(rough.dose.value, 1.8, 1e-12);
  });

  it('6.5: the total is the root of the sum of squares with the factors, 1.4 for horizontal axes when health is judged', () => {
    const axes = [
      { rms: 0.3, factor: 1.4 },
      { rms: 0.2, factor: 1.4 },
      { rms: 0.5, factor: 1 },
    ];
    close(vibrationTotal(axes), Math.sqrt(0.42 ** 2 + 0.28 ** 2 + 0.5 ** 2), 1e-12);
  });

  it('C.2.3: the comfort ranges overlap as printed, and both of an overlap are given', () => {
    assert.deepEqual(comfortAt(0.2), ['not']);
    assert.deepEqual(comfortAt(0.4), ['a-little']);
    assert.deepEqual(comfortAt(0.55), ['a-little', 'fairly']);
    assert.deepEqual(comfortAt(0.9), ['fairly', 'uncomfortable']);
    assert.deepEqual(comfortAt(1.4), ['uncomfortable', 'very']);
    assert.deepEqual(comfortAt(2.3), ['very', 'extremely']);
    assert.deepEqual(comfortAt(9), ['extremely']);
    for (let total = 0; total < 4; total += 0.001) assert.ok(comfortAt(total).length >= 1, `${total} has a range`);
  });
});

describe('Directive 2002/44/EC', () => {
  it('article 3: action and limit values, and the limit of 1.15 m/s^2, not 1.3, for the whole body', () => {
    assert.deepEqual(directiveValues, {
      handArm: { action: 2.5, limit: 5 },
      wholeBody: { action: 0.5, limit: 1.15 },
      wholeBodyDose: { action: 9.1, limit: 21 },
    });
  });
});

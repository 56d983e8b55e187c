import { strict as assert } from 'node:assert';
import { naturalFrequency, transmissibility } from '../../src/signal/mechanics.ts';
import { close } from './vectors.ts';

// Closed forms: Den Hartog, Mechanical Vibrations, chapter 2.
describe('a mass on a damped spring', () => {
  it('of 70 kg on 100 N/mm has its natural frequency at 6.0155 Hz', () =>
    close(naturalFrequency(1e5, 70), 6.0155, 1e-5));

  it('transmissibility: 2.6926 at resonance and 0.41246 at twice it for zeta 0.2, 0.14537 at thrice it for 0.1', () => {
    close(transmissibility(1, 0.2), 2.6926, 1e-5);
    close(transmissibility(2, 0.2), 0.41246, 1e-5);
    close(transmissibility(3, 0.1), 0.14537, 4e-5);
  });

  it('transmissibility is 1 at sqrt 2 times the natural frequency for any damping, and at 0 Hz', () => {
    for (const zeta of [0, 0.01, 0.1, 0.5, 1, 3]) {
      close(transmissibility(Math.SQRT2, zeta), 1, 1e-12);
      close(transmissibility(0, zeta), 1, 1e-15);
    }
  });

  it('without damping is isolated as 1 / (r^2 - 1) above resonance, and has no bound at it', () => {
    close(transmissibility(3, 0), 1 / 8, 1e-15);
    close(transmissibility(0.5, 0), 4 / 3, 1e-15);
    assert.equal(transmissibility(1, 0), Infinity);
  });
});

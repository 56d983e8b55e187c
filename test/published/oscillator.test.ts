import { bracketFactor, dampingOfDecay, dampingOfWidth, milesRms, transmissibility } from '../../src/signal/mechanics.ts';
import { close } from './vectors.ts';

describe('Miles 1954', () => {
  // Miles 1954, On structural fatigue under random loading, J. Aeronaut. Sci. 21; formula from memory.
  it('20 Hz, Q 5, .01 g^2/Hz gives 1.2533 g r.m.s.', () => close(milesRms(20, 5, 0.01), 1.2533, 3e-5));

  it('agrees with the integral of the response over a flat density, for light damping', () => {
    const [natural, q] = [20, 25];
    let sum = 0;
    for (let f = 0.005; f < 2000; f += 0.01) {
      const r = f / natural;
      sum += 0.01 / ((1 - r * r) ** 2 + (r / q) ** 2);
    }
    close(Math.sqrt(sum * 0.04), milesRms(natural, q, 0.04), 1e-3);
  });
});

describe('base-driven oscillator', () => {
  // Closed forms: Den Hartog, Mechanical Vibrations, 2.12; Harris' Shock and Vibration Handbook, 2 (from memory).
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

  it('damping: halving in a cycle is 0.10965; half-power points 18 and 22 Hz about 20 Hz are 0.10', () => {
    close(dampingOfDecay(2, 1, 1), 0.10965, 5e-5);
    close(dampingOfDecay(16, 1, 4), dampingOfDecay(2, 1, 1), 1e-12);
    close(dampingOfWidth(18, 20, 22), 0.1, 1e-12);
  });

  it('a bracket reads 12.5 % too much at a third of its resonance, 4.2 % at a fifth, 1.0 % at a tenth', () => {
    close(bracketFactor(1, 3), 1.125, 1e-12);
    close(bracketFactor(1, 5), 1.042, 1e-3);
    close(bracketFactor(1, 10), 1.0101, 1e-4);
  });
});

import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { naturalFrequency, transmissibility } from '../../src/signal/mechanics.ts';
import { close } from '../published/vectors.ts';

const ratio = fc.double({ min: 0.01, max: 30, noNaN: true });
const damping = fc.double({ min: 0, max: 3, noNaN: true });

describe('naturalFrequency', () => {
  it('doubles with four times the stiffness and halves with four times the mass', () => {
    fc.assert(
      fc.property(ratio, ratio, (k, m) => {
        close(naturalFrequency(4 * k, m), 2 * naturalFrequency(k, m), 1e-14);
        close(naturalFrequency(k, 4 * m), naturalFrequency(k, m) / 2, 1e-14);
      }),
    );
    close(naturalFrequency((2 * Math.PI) ** 2, 1), 1, 1e-15);
  });
});

describe('transmissibility', () => {
  it('is above 1 below sqrt 2 times the natural frequency and below 1 above it, whatever the damping', () => {
    fc.assert(
      fc.property(ratio, damping, (r, zeta) => {
        if (Math.abs(r - Math.SQRT2) > 1e-9) assert.equal(transmissibility(r, zeta) >= 1, r < Math.SQRT2);
      }),
    );
  });

  it('is lowered by damping below sqrt 2 and raised above it', () => {
    fc.assert(
      fc.property(ratio, damping, (r, zeta) => {
        const change = transmissibility(r, zeta + 0.1) - transmissibility(r, zeta);
        assert.ok(r < Math.SQRT2 ? change <= 1e-12 : change >= -1e-12);
      }),
    );
  });
});

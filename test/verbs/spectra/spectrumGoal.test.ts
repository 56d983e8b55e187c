import { strict as assert } from 'node:assert';
import { errorOf, near, noise, recordingOf, sine, valueOf } from '../notebook.ts';

const load = 'r = load "a.csv" unit g\n';
const gauss = noise(12);
const files = {
  'a.csv': recordingOf({ z: (t) => sine(20, 0.3 * Math.SQRT2, 1)(t) + 0.01 * gauss() }, { rate: 400, seconds: 40 }),
};

describe('a spectrum of velocity or displacement', () => {
  it('of a line of 0.3 g r.m.s. at 20 Hz has heights of 33.1 mm/s and 0.2635 mm', async () => {
    const velocity = await valueOf('spectrum', `${load}spectrum r as velocity amplitude`, files);
    near(velocity.entries[0].level[40], 0.0331, 2e-3);
    assert.equal(velocity.entries[0].unit.symbol, 'm/s');
    const displacement = await valueOf('spectrum', `${load}spectrum r as amplitude displacement`, files);
    near(displacement.entries[0].level[40], 0.2635, 2e-3);
    assert.equal(displacement.entries[0].unit.symbol, 'mm');
  });

  it('is the density of acceleration over (2 pi f)^2, and has the level of what was integrated', async () => {
    const [own] = (await valueOf('spectrum', `${load}spectrum r`, files)).entries;
    const [found] = (await valueOf('spectrum', `${load}spectrum r as velocity above 2 Hz`, files)).entries;
    assert.equal(found.unit.symbol, '(m/s)^2/Hz');
    for (const bin of [4, 17, 200]) near(found.density[bin], own.density[bin] * (9.80665 / (Math.PI * bin)) ** 2, 1e-9);
    assert.deepEqual([...found.density.subarray(0, 4)], [0, 0, 0, 0]);
    const inFrequency = await valueOf('bands', `${load}band (spectrum r as velocity) 5..100 Hz`, files);
    const inTime = await valueOf('bands', `${load}band (spectrum (integrate r to velocity)) 5..100 Hz`, files);
    near(inFrequency.rows[0].rms, inTime.rows[0].rms, 5e-3);
  });

  it('refuses what it can’t come from, a cut past half the rate, and bands below the cut', async () => {
    assert.equal(
      (await errorOf(`${load}integrate r to displacement | spectrum as velocity`, files)).code,
      'integrate.unit',
    );
    assert.equal((await errorOf(`${load}spectrum r as velocity above 200 Hz`, files)).code, 'integrate.low-cut');
    assert.equal(
      (await errorOf(`${load}band (spectrum r as velocity above 3 Hz) 2..9 Hz`, files)).code,
      'band.below-cut',
    );
  });
});

import { strict as assert } from 'node:assert';
import { quantity } from '../../src/units/arithmetic.ts';
import { unit } from '../../src/units/parse.ts';
import { decibelsOf, iso1683, levelIn, type LevelReference } from '../../src/values/decibels.ts';

const levelOf = (value: number, symbol: string, reference: LevelReference = iso1683): number =>
  levelIn(decibelsOf(unit(symbol), reference)!, value);
const near = (found: number, wanted: number): void => assert.ok(Math.abs(found - wanted) < 1e-9, `${found}`);

/**
 * ISO 1683, preferred reference values. Of acceleration and velocity as the Acoustical Society of America quotes them in its Standards
 * Terms, 3.23 (particle velocity level) and 3.24 (vibratory acceleration level), from ISO 1683:2008 beside ANSI S1.8-1969:
 * https://asastandards.org/Terms/particle-velocity-level/ and https://asastandards.org/Terms/vibratory-acceleration-level/.
 * All four as python-acoustics has them from ISO 1683:2015, table of vibration: `acoustics/standards/iso_1683_2015.py` of
 * https://github.com/python-acoustics/python-acoustics, whose table of liquids has a slip (10 µPa). The standard itself was not at hand.
 */
describe('reference values of ISO 1683', () => {
  it('are 1 µm/s² and 1 nm/s', () => {
    near(levelOf(1e-6, 'm/s^2'), 0);
    near(levelOf(1e-9, 'm/s'), 0);
  });

  it('give 20 dB more than the 10 µm/s² and 10 nm/s of ANSI S1.8-1969, as 3.24 says of the acceleration', () => {
    const ansi = { quantities: [quantity(1e-5, 'm/s^2'), quantity(1e-8, 'm/s')] };
    for (const symbol of ['m/s^2', 'mm/s', 'g']) near(levelOf(0.7, symbol) - levelOf(0.7, symbol, ansi), 20);
  });

  it('make one millionth of standard gravity 19.83 dB, within 2 % of 10 µm/s² as 3.24 says', () => {
    near(levelOf(1e-6, 'g'), 20 * Math.log10(9.80665));
    assert.ok(Math.abs(10 ** (levelOf(1e-6, 'g') / 20) / 10 - 1) < 0.02);
  });

  it('are 1 pm, 1 nm/s, 1 µm/s² and 1 µN as python-acoustics quotes ISO 1683:2015', () => {
    const vibration = { m: 1e-12, 'm/s': 1e-9, 'm/s^2': 1e-6, N: 1e-6 };
    for (const [symbol, value] of Object.entries(vibration)) near(levelOf(value, symbol), 0);
    assert.equal(iso1683.quantities.length, Object.keys(vibration).length);
  });
});

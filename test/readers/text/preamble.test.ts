import { strict as assert } from 'node:assert';
import { readPreamble } from '../../../src/readers/text/preamble.ts';

const rateOf = (line: string): number | undefined => readPreamble([line], '.').rate;

describe('readPreamble', () => {
  it('reads a rate in Hz or kHz, in many spellings', () => {
    for (const line of [
      'Sampling rate: 400 Hz',
      'Sampling rate 400 Hz',
      '400 Hz sampling rate',
      '# fs = 400',
      '"Sample Rate","400"',
      'Abtastrate;400 Hz',
      'Fréquence d’échantillonnage : 0,4 kHz',
      'ODR: 0.4 ksps',
      'sampling_rate_hz: 400',
      'Sampling frequency (Hz): 400',
    ])
      assert.equal(rateOf(line), 400, line);
  });

  it('turns a period with its unit into the rate', () => {
    assert.equal(rateOf('Sample period: 2.5 ms'), 400);
    assert.equal(rateOf('dt = 0.0025 s'), 400);
    assert.equal(rateOf('Sample interval (us): 2500'), 400);
    assert.equal(rateOf('Sample period: 2.5'), undefined);
  });

  it('takes no rate from other keys, other units, or what is not above 0', () => {
    for (const line of ['Heart rate: 400', 'Sampling rate: 400 g', 'Sampling rate: 0 Hz', 'Sampling rate: -4 Hz'])
      assert.equal(rateOf(line), undefined, line);
  });

  it('leaves a rate that could be written with a mark for thousands to the user', () => {
    assert.equal(readPreamble(['Sampling rate: 25,600 Hz'], '.').rate, undefined);
    assert.equal(readPreamble(['Sampling rate: 25.600 Hz'], ',').rate, undefined);
    assert.equal(readPreamble(['Sampling rate: 25.600 Hz'], '.').rate, 25.6);
  });

  it('settles on no rate where two keys state different ones', () => {
    const two = (other: string): number | undefined => readPreamble(['Sensor data rate: 800 Hz', other], '.').rate;
    assert.equal(two('Sampling rate: 400 Hz'), undefined);
    assert.equal(two('Sample period: 1.25 ms'), 800);
  });

  it('keeps its lines without the blank ones, and the first value of a key', () => {
    const { lines, keys } = readPreamble(['# a: 1', '', 'a: 2', 'b = "x y", c = 3'], '.');
    assert.equal(lines.length, 3);
    assert.deepEqual(keys, { a: '1', b: 'x y', c: '3' });
  });

  it('searches no line of more than 400 characters for keys', () => {
    const line = (length: number): string => 'fs: 400'.padEnd(length);
    assert.equal(rateOf(line(400)), 400);
    assert.equal(rateOf(line(401)), undefined);
  });

  it('reads a unit of acceleration, and none that it does not know', () => {
    const unitOf = (line: string): string | undefined => readPreamble([line], '.').unit;
    assert.equal(unitOf('Units: m/s^2'), 'm/s^2');
    assert.equal(unitOf('Acc unit: g'), 'g');
    assert.equal(unitOf('Units: furlong'), undefined);
    assert.equal(unitOf('Range: g'), undefined);
  });

  it('reads a whole number of dropped samples', () => {
    const droppedOf = (line: string): number | undefined => readPreamble([line], '.').dropped;
    assert.equal(droppedOf('dropped samples: 25'), 25);
    assert.equal(droppedOf('samples_lost = 3'), 3);
    assert.equal(droppedOf('dropped samples: 2.5 %'), undefined);
    assert.equal(droppedOf('dropped samples: none'), undefined);
    assert.equal(droppedOf('samples: 25'), undefined);
  });
});

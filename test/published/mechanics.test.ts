import { strict as assert } from 'node:assert';
import { Engine } from '../../src/engine/engine.ts';
import { MemoryHost, quietWatch } from '../engine/memoryFiles.ts';

/** The value of one expression of the language. */
async function value(expression: string): Promise<{ value: number; unit: string }> {
  const report = await new Engine(new MemoryHost()).run({ cells: [expression], wanted: 'all' }, quietWatch);
  const [result] = report.results;
  if (result.value?.kind !== 'quantity') return assert.fail(`${expression}: ${result.error?.message ?? result.kind}`);
  const { value: number, unit } = result.value.quantity;
  return { value: number, unit: unit.symbol };
}

async function near(expression: string, wanted: number, unit: string, digits = 1e-4): Promise<void> {
  const found = await value(expression);
  assert.equal(found.unit, unit, expression);
  assert.ok(
    Math.abs(found.value - wanted) <= digits * Math.abs(wanted),
    `${expression} = ${found.value}, not ${wanted}`,
  );
}

describe('mechanics of springs, against textbook values', () => {
  // Closed forms of the single-degree-of-freedom system: Den Hartog, Mechanical Vibrations, chapter 2.
  it('adds springs in series and side by side', async () => {
    await near('series(10 N/mm, 10 N/mm)', 5, 'N/mm', 1e-12);
    await near('parallel(10 N/mm, 10 N/mm)', 20, 'N/mm', 1e-12);
    await near('series(400 N/mm, 100 N/mm)', 80, 'N/mm', 1e-12);
    await near('series(200 N/mm, 100 N/mm)', 66.6667, 'N/mm', 1e-6);
    await near('series(10 N/mm, 57.1015 lbf/in)', 5, 'N/mm', 1e-5);
  });

  it('gives the natural frequency of a mass on a spring', async () => {
    await near('natural_frequency(100 N/mm, 70 kg)', 6.0155, 'Hz');
    await near('1 / (2 * pi) * sqrt(100 N/mm / 70 kg) in Hz', 6.0155, 'Hz');
  });

  it('knows that the sag under the weight gives the same frequency: 15.761 / sqrt(sag in mm) Hz', async () => {
    await near('70 kg * 1 g / (100 N/mm) in mm', 6.865, 'mm');
    const { value: sag } = await value('70 kg * 1 g / (100 N/mm) in mm');
    await near('natural_frequency(100 N/mm, 70 kg)', 15.761 / Math.sqrt(sag), 'Hz', 2e-5);
  });

  it('gives the transmissibility of a damped mass over a moving base', async () => {
    await near('transmissibility(6 Hz, 6 Hz, 0.2)', 2.6926, '');
    await near('transmissibility(12 Hz, 6 Hz, 20 %)', 0.41246, '');
    await near('transmissibility(18 Hz, 6 Hz, 10 %)', 0.14537, '');
    await near('transmissibility(sqrt(2) * 6 Hz, 6 Hz, 0.37)', 1, '', 1e-9);
  });

  it('gives turns a second of a rolling wheel', async () => {
    await near('rotation_rate(7 m/s, 2.1 m)', 3.33333, 'Hz', 1e-5);
    await near('rotation_rate(25.2 km/h, 2100 mm)', 3.33333, 'Hz', 1e-5);
  });
});

describe('units, against their definitions', () => {
  // NIST Special Publication 811 (2008), appendix B.8, to the digits of the exact definitions. Standard gravity: ISO 80000-3.
  const definitions: [string, number, string][] = [
    ['1 g in m/s^2', 9.80665, 'm/s^2'],
    ['1 kgf in N', 9.80665, 'N'],
    ['1 lbf in N', 4.4482216152605, 'N'],
    ['1 lbf/in in N/mm', 0.175126835, 'N/mm'],
    ['1 psi in Pa', 6894.757293168, 'Pa'],
    ['1 bar in psi', 14.503774, 'psi'],
    ['1 mph in m/s', 0.44704, 'm/s'],
    ['1 in in mm', 25.4, 'mm'],
    ['1 mi in km', 1.609344, 'km'],
    ['1 lb in kg', 0.45359237, 'kg'],
    ['36 km/h in m/s', 10, 'm/s'],
    ['decibels(0.85)', -1.4116215, 'dB'],
  ];
  for (const [expression, wanted, unit] of definitions) it(expression, () => near(expression, wanted, unit, 5e-7));
});

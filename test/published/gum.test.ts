import { strict as assert } from 'node:assert';
import { effectiveDf, standardUncertainty, summedParts } from '../../src/units/uncertainty.ts';
import { meanAndVariance } from '../../src/statistics/summary.ts';
import { valueOf } from '../verbs/notebook.ts';
import type { QuantityValue } from '../../src/values/quantity.ts';

// JCGM 100:2008, Evaluation of measurement data: Guide to the expression of uncertainty in measurement.

const of = (text: string): Promise<QuantityValue> => valueOf('quantity', text, {});

const near = (actual: number, expected: number, within: number): void =>
  assert.ok(Math.abs(actual - expected) <= within, `${actual} is not ${expected} within ${within}`);

interface Mean {
  readonly mean: number;
  /** Standard uncertainty of the mean. */
  readonly of: number;
  readonly deviations: readonly number[];
}

function meanOf(readings: readonly number[]): Mean {
  const mean = readings.reduce((sum, one) => sum + one, 0) / readings.length;
  const deviations = readings.map((one) => one - mean);
  return { mean, of: Math.hypot(...deviations) / Math.sqrt(readings.length * (readings.length - 1)), deviations };
}

/** Coefficient of correlation of two means of readings made together (5.2.3). */
function r(a: Mean, b: Mean): number {
  const product = a.deviations.reduce((sum, one, k) => sum + one * b.deviations[k], 0);
  return product / (Math.hypot(...a.deviations) * Math.hypot(...b.deviations));
}

const uncertaintyOf = ({ parts = [] }: QuantityValue): number => standardUncertainty(parts);

describe('the examples of the guide to uncertainty', () => {
  it('4.4.5 and 4.4.6, limits of ± 4 °C: 2.3 °C where all between is alike, 1.6 °C where the middle is the likelier', async () => {
    // As plain numbers, and in a unit: the half-widths over the roots of 3 and of 6 (4.3.7, 4.3.9 b).
    for (const [text, u] of [
      ['100 ± 4 rectangular', 2.309401],
      ['100 ± 4 triangular', 1.632993],
      ['100 mm ± 4 rectangular', 2.309401],
      ['100 ± 4 mm triangular', 1.632993],
      ['100 mm ± 4 % rectangular', 2.309401],
      ['100 ± 4 dof 3', 4],
    ] as const)
      near(uncertaintyOf(await of(text)), u, 1e-6);
    // 4.3.7, the thermal expansion of copper: 16.52 with limits of ± 0.40, u = 0.23.
    near(uncertaintyOf(await of('16.52e-6 ± 0.40e-6 rectangular')), 0.23e-6, 0.005e-6);
    const both = await of('t = 100 ± 4 rectangular dof 12\n2 * t');
    near(effectiveDf(both.parts!), 12, 1e-9);
    near(uncertaintyOf(both), 4.618802, 1e-6);
  });

  it('H.1, end gauges: u_c 32 nm, 16 degrees of freedom, U at 99 % 93 nm', async () => {
    const inputs = [
      [25, 18],
      [9.7, 25.6],
      [2.9, 50],
      [16.6, 2],
    ].map(([size, df], k) => ({ input: `${k}`, size, df }));
    near(standardUncertainty(inputs), 31.671122, 1e-6);
    near(effectiveDf(inputs), 16.764554, 1e-6);
    // Length at 20 °C: l_s + d - l_s (δα θ + α_s δθ), table H.1.
    const length = [
      'ls = 50.000623 mm ± 0.025 µm dof 18',
      'd = 0.215 ± 0.0097 µm dof 25.6',
      'da = 0 ± 0.58e-6 dof 50',
      'dt = 0 ± 0.029 dof 2',
      'l = ls + d - ls * (da * (-0.1) + 11.5e-6 * dt)',
    ].join('\n');
    const value = await of(`${length}\nl coverage 99 %`);
    near(value.quantity.value, 50.000838, 5e-7);
    near(1e6 * uncertaintyOf(value), 32, 0.5);
    near(effectiveDf(value.parts!), 16.7, 0.1);
    near(value.coverage!.factor, 2.9207816, 1e-6);
    near(1e6 * value.coverage!.factor * uncertaintyOf(value), 93, 0.5);
  });

  it('H.2, resistance and reactance: correlated inputs, table H.4 with its correlations', async () => {
    // Table H.2: five sets of simultaneous readings of V in V, I in A and φ in rad.
    const v = meanOf([5.007, 4.994, 5.005, 4.99, 4.999]);
    const i = meanOf([0.019663, 0.019639, 0.01964, 0.019685, 0.019678]);
    const phi = meanOf([1.0456, 1.0438, 1.0468, 1.0428, 1.0433]);
    const bench = [
      `v = ${v.mean} ± ${v.of}`,
      `i = correlated(${i.mean} ± ${i.of}, ${r(i, v)}, v)`,
      `phi = correlated(${phi.mean} ± ${phi.of}, ${r(phi, v)}, v, ${r(phi, i)}, i)`,
      'r = v / i * cos(phi)',
      'x = v / i * sin(phi)',
      'z = v / i',
    ].join('\n');
    for (const [name, figure, uncertainty] of [
      ['r', 127.73217, 0.071071],
      ['x', 219.846512, 0.295582],
      ['z', 254.259702, 0.236336],
    ] as const) {
      const value = await of(`${bench}\n${name}`);
      near(value.quantity.value, figure, 1e-5);
      near(uncertaintyOf(value), uncertainty, 1e-5);
    }
    for (const [pair, expected] of [
      ['r, x', -0.58843],
      ['r, z', -0.485259],
      ['x, z', 0.992512],
    ] as const)
      near((await of(`${bench}\ncorrelation(${pair})`)).quantity.value, expected, 1e-4);
    for (const [pair, expected] of [
      ['v, i', -0.36],
      ['v, phi', 0.86],
      ['i, phi', -0.65],
    ] as const)
      near((await of(`${bench}\ncorrelation(${pair})`)).quantity.value, expected, 0.005);
  });

  it('5.2.2, ten resistors of one standard: 1 Ω and not 0.32 Ω', async () => {
    const value = await of(`s = 1000 ± 0.1\n${Array.from({ length: 10 }, () => 's').join(' + ')}`);
    near(value.quantity.value, 10_000, 1e-9);
    near(uncertaintyOf(value), 1, 1e-12);
    const apart = summedParts(Array.from({ length: 10 }, (_, k) => [1, [{ input: `${k}`, size: 0.1, df: Infinity }]]));
    near(standardUncertainty(apart), Math.sqrt(10) * 0.1, 1e-12);
  });

  it('4.4.3, twenty temperatures: mean 100.145 °C, s 1.488844 °C, and .332916 °C of the mean', async () => {
    const readings = [
      ...[96.9, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07],
      ...[100.33, 100.42, 100.68, 100.95, 101.11, 101.2, 101.57, 101.84, 102.36, 102.72],
    ];
    const { mean, variance, n } = meanAndVariance(readings);
    near(mean, 100.145, 1e-9);
    near(Math.sqrt(variance), 1.488844, 1e-6);
    near(meanOf(readings).of, 0.332916, 1e-6);
    // Taken into the language as so many readings of one scatter: their mean has that uncertainty.
    const value = await of(`t = ${mean} ± ${Math.sqrt(variance)} dof ${n - 1}\nt / sqrt(${n})`);
    near(uncertaintyOf(value), 0.332916, 1e-6);
    near(effectiveDf(value.parts!), 19, 1e-9);
  });

  it('G.4.1, degrees of freedom that are whole but for rounding are not cut below themselves', async () => {
    // t of 19 and not of 18 degrees of freedom at 95 %.
    const value = await of('q = 5 ± 0.1 dof 18.9987\nq coverage 95 %');
    near(value.coverage!.factor, 2.0930241, 1e-6);
  });
});

import { strict as assert } from 'node:assert';
import { shockResponse } from '../../src/signal/shock.ts';

const rate = 20_000;
const length = 0.01;

/** A half sine of peak 1 and 10 ms. */
const halfSine = Float64Array.from({ length: rate * length + 1 }, (_, n) => Math.sin((Math.PI * n) / (rate * length)));

/** Of an undamped oscillator of `f` Hz under it (Harris and Piersol, Harris' Shock and Vibration Handbook, 8): while it lasts, and after. */
function closedForm(f: number): { during: number; after: number } {
  const ratio = 2 * f * length;
  const after = Math.abs(((2 / ratio) * Math.cos((Math.PI * ratio) / 2)) / (1 - 1 / ratio ** 2));
  // Extremes lie where cos(pt) = cos(wt).
  const times = [1, -1].flatMap((sign) =>
    Array.from({ length: 60 }, (_, k) => (2 * Math.PI * (k + 1)) / (Math.PI / length) / (ratio + sign)),
  );
  const at = (t: number): number =>
    (Math.sin((Math.PI * t) / length) - Math.sin(2 * Math.PI * f * t) / ratio) / (1 - 1 / ratio ** 2);
  const inside = [...times.filter((t) => t > 0 && t < length), length];
  return { during: Math.max(...inside.map(at)), after };
}

/** By Runge and Kutta's rule of fourth order in steps of a microsecond, on the damped oscillator itself. */
function integrated(f: number, damping: number): { high: number; low: number; after: number } {
  const w = 2 * Math.PI * f;
  const h = 1e-6;
  const base = (t: number): number => (t < length ? Math.sin((Math.PI * t) / length) : 0);
  // z is the motion against the base; the absolute acceleration is -(2 d w z' + w^2 z).
  const slope = (t: number, z: number, v: number): [number, number] => [v, -base(t) - 2 * damping * w * v - w * w * z];
  let [z, v, high, low, after] = [0, 0, 0, 0, 0];
  for (let n = 0; n * h < length + 2 / f; n++) {
    const t = n * h;
    const [a1, b1] = slope(t, z, v);
    const [a2, b2] = slope(t + h / 2, z + (h / 2) * a1, v + (h / 2) * b1);
    const [a3, b3] = slope(t + h / 2, z + (h / 2) * a2, v + (h / 2) * b2);
    const [a4, b4] = slope(t + h, z + h * a3, v + h * b3);
    z += (h / 6) * (a1 + 2 * a2 + 2 * a3 + a4);
    v += (h / 6) * (b1 + 2 * b2 + 2 * b3 + b4);
    const y = -(2 * damping * w * v + w * w * z);
    high = Math.max(high, y);
    low = Math.min(low, y);
    if (t + h >= length) after = Math.max(after, Math.abs(y));
  }
  return { high, low, after };
}

const near = (found: number, wanted: number, tolerance: number, what: string): void =>
  assert.ok(
    Math.abs(found - wanted) <= tolerance * Math.max(0.05, Math.abs(wanted)),
    `${what}: ${found}, not ${wanted}`,
  );

describe('the shock response spectrum', () => {
  const frequencies = [5, 20, 40, 80, 81, 120, 170, 230, 410, 900];

  it('is that of the closed form for a half sine without damping, to 0.1 %', () => {
    const found = shockResponse(halfSine, rate, frequencies, 0);
    frequencies.forEach((f, k) => {
      const { during, after } = closedForm(f);
      near(found.residual[k], after, 1e-3, `residual at ${f} Hz`);
      near(found.maximax[k], Math.max(during, after), 1e-3, `maximax at ${f} Hz`);
    });
  });

  it('is largest, 1.77 times the pulse, at 0.8 cycles within it', () => {
    const fine = Array.from({ length: 400 }, (_, k) => 40 + 0.2 * k);
    const { maximax } = shockResponse(halfSine, rate, fine, 0);
    const top = maximax.indexOf(Math.max(...maximax));
    near(maximax[top], 1.768, 1e-3, 'the largest');
    near(fine[top] * length, 0.81, 0.02, 'where');
  });

  it('is that of the damped oscillator, integrated step by step, to 0.1 %', () => {
    const some = [30, 80, 230];
    const found = shockResponse(halfSine, rate, some, 0.05);
    some.forEach((f, k) => {
      const { high, low, after } = integrated(f, 0.05);
      near(found.positive[k], high, 1e-3, `positive at ${f} Hz`);
      near(found.negative[k], -low, 1e-3, `negative at ${f} Hz`);
      near(found.residual[k], after, 2e-3, `residual at ${f} Hz`);
    });
  });

  it('turns with the sign of the pulse, and grows with it', () => {
    const turned = shockResponse(
      halfSine.map((x) => -3 * x),
      rate,
      [80],
      0.05,
    );
    const plain = shockResponse(halfSine, rate, [80], 0.05);
    near(turned.negative[0], 3 * plain.positive[0], 1e-12, 'negative');
    near(turned.positive[0], 3 * plain.negative[0], 1e-12, 'positive');
  });

  it('comes near the pulse itself far above it, and at a tenth of the rate loses what straight lines between samples do', () => {
    const sine = Float64Array.from({ length: 4000 }, (_, n) => Math.sin(2 * Math.PI * 0.1 * n + 0.31));
    const { positive } = shockResponse(sine, 1, [0.1], 0.05);
    const straight = (Math.sin(0.1 * Math.PI) / (0.1 * Math.PI)) ** 2;
    near(positive[0], (straight * Math.sqrt(1 + 0.1 ** 2)) / 0.1, 4e-3, 'resonance');
    near(shockResponse(halfSine, rate, [2000], 0.05).positive[0], 1, 0.01, 'stiff');
  });
});

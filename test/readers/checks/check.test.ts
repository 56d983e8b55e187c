import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { seen, type SeenRun } from '../../../src/readers/checks/seen.ts';
import { checkRecording, checkSet, sampleFaults } from '../../../src/readers/checks/check.ts';
import type { CheckedChannel, CheckedRun, Question } from '../../../src/readers/checks/checked.ts';
import type { Finding, Stretch } from '../../../src/readers/recording.ts';
import { settings } from '../../../src/readers/settings.ts';

const rate = 400;

/** Gaussian noise of standard deviation 1 from a seed (Box and Muller 1958 over Park and Miller 1988). */
function noise(seed: number): () => number {
  let state = seed;
  const even = (): number => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
  return () => Math.sqrt(-2 * Math.log(even())) * Math.cos(2 * Math.PI * even());
}

type Shape = (i: number, value: number) => number;

/** Sixty seconds of a machine: 0.2 g of noise below 60 Hz on each axis, gravity on z, in steps of 1 mg. */
function machine(change: Partial<Record<'x' | 'y' | 'z', Shape>> = {}, seed = 1, count = 60 * rate): CheckedRun {
  const channels = (['x', 'y', 'z'] as const).map((name, k): CheckedChannel => {
    const random = noise(seed * 10 + k + 1);
    const recent = [0, 0, 0, 0, 0, 0];
    const samples = Float64Array.from({ length: count }, (_, i) => {
      recent[i % 6] = random();
      const value = (0.2 / Math.sqrt(6)) * recent.reduce((sum, one) => sum + one, 0) + (name === 'z' ? 1 : 0);
      return Math.round((change[name]?.(i, value) ?? value) * 1000) / 1000;
    });
    return { name, unit: 'g', axis: true, samples };
  });
  return { rate, stretches: [{ from: 0, to: count, start: 0 }], channels };
}

const codes = (run: CheckedRun, question?: Question): string[] => checkRecording(run, question).map(({ code }) => code);
const found = (run: CheckedRun, code: string, question?: Question): Finding => {
  const finding = checkRecording(run, question).find((one) => one.code === code);
  assert.ok(finding, `no ${code} among ${codes(run, question).join(' ')}`);
  assert.match(finding.message, /^[A-Z0-9a-z][^\n]*[.?]$/);
  return finding;
};

describe('checks of a recording', () => {
  it('find nothing wrong with a sound one', () => {
    for (const seed of [1, 2, 3, 4]) assert.deepEqual(codes(machine({}, seed), { low: 2, high: 100 }), []);
  });

  it('clipping: samples piled up at an extreme, by share; a fault beyond 0.1 %', () => {
    const mild = found(machine({ x: (_, value) => Math.min(value, 0.66) }), 'clipped');
    assert.equal(mild.severity, 'warning');
    assert.equal(mild.channel, 'x');
    const clipped = machine({ z: (_, value) => Math.max(0.7, Math.min(value, 1.3)) });
    const hard = found(clipped, 'clipped');
    assert.equal(hard.severity, 'fault');
    const share =
      clipped.channels[2].samples.filter((value) => value === 0.7 || value === 1.3).length /
      clipped.channels[2].samples.length;
    assert.equal(hard.value, share);
    assert.ok((hard.spans ?? []).length > 10);
  });

  it('clipping: a heap near the extreme, where noise was added after the sensor stopped', () => {
    const random = noise(99);
    const finding = found(
      machine({
        z: (_, value) => (Math.abs(value - 1) > 0.3 ? 1 + Math.sign(value - 1) * (0.3 + 0.001 * random()) : value),
      }),
      'clipped',
    );
    assert.equal(finding.severity, 'fault');
    const tone = machine({ x: (i) => 0.5 * Math.sin((2 * Math.PI * 23.7 * i) / rate) });
    assert.ok(!codes(tone).includes('clipped'));
  });

  it('clipping: a slow sine that dwells at its top in steps of the converter is none', () => {
    const sine = machine({ x: (i) => 0.5 * Math.sin((2 * Math.PI * 3 * i) / rate) });
    assert.ok(!codes(sine).includes('clipped'));
  });

  it('flat: one value throughout is a fault, a stuck part a warning with its place', () => {
    assert.equal(found(machine({ y: () => 0.25 }), 'flat').severity, 'fault');
    let last = 0;
    const stuck = found(machine({ y: (i, value) => (last = i >= 4000 && i < 4100 ? last : value) }), 'stuck');
    assert.deepEqual(
      stuck.spans?.map(({ from, to }) => [from, to].map((t) => Math.round(t * rate))),
      [[3999, 4100]],
    );
  });

  it('repeated readings: a sensor slower than its logger', () => {
    const held: Record<string, number> = {};
    const hold =
      (name: string): Shape =>
      (i, value) =>
        (held[name] = i % 3 === 0 ? held[name] : value);
    const finding = found(machine({ x: hold('x'), y: hold('y'), z: hold('z') }), 'readings-repeat');
    assert.ok(Math.abs(finding.value! - 1 / 3) < 0.01);
    assert.match(finding.message, /about 26[67](\.\d+)? Hz/);
  });

  it('gravity: 1 g within 5 % passes, within 15 % warns, beyond is a fault; none at all is a note', () => {
    const along = (length: number): CheckedRun => machine({ z: (_, value) => value - 1 + length });
    assert.ok(!codes(along(1.04)).includes('gravity'));
    assert.equal(found(along(1.1), 'gravity').severity, 'warning');
    assert.equal(found(along(0.8), 'gravity').severity, 'fault');
    assert.equal(found(along(0), 'no-gravity').severity, 'note');
    const detrended = along(0);
    assert.ok(
      !codes({ ...detrended, channels: detrended.channels.map((one) => ({ ...one, includesStatic: false })) }).includes(
        'no-gravity',
      ),
    );
  });

  it('resolution: rms below ten steps of the converter warns, below three is a fault', () => {
    const coarse =
      (step: number): Shape =>
      (_, value) =>
        Math.round(value / step) * step;
    assert.equal(found(machine({ x: coarse(0.04) }), 'resolution').severity, 'warning');
    const worst = found(machine({ x: coarse(0.1) }), 'resolution');
    assert.equal(worst.severity, 'fault');
    assert.ok(worst.value! > 1.9 && worst.value! < 2.3);
    assert.match(
      worst.message,
      /^x moves by [\d.]{4,5} g r\.m\.s\., only [\d.]{3,4} steps of the converter \(0\.1 g\)/,
    );
  });

  it('spikes: a lone sample far off counts, a bump of several samples does not', () => {
    const lone = found(machine({ y: (i, value) => (i === 9000 ? value + 4 : value) }), 'spikes');
    assert.deepEqual(
      lone.spans?.map(({ from }) => from),
      [9000 / rate],
    );
    assert.ok(!codes(machine({ y: (i, value) => value + 4 * Math.exp(-(((i - 9000) / 4) ** 2)) })).includes('spikes'));
  });

  it('stationarity: a change of level, one event, and a trend', () => {
    const louder = (factor: (i: number) => number): CheckedRun =>
      machine({ x: (i, v) => v * factor(i), y: (i, v) => v * factor(i), z: (i, v) => 1 + (v - 1) * factor(i) });
    const start = found(
      louder((i) => (i < 6 * rate ? 0.2 : 1)),
      'not-stationary',
    );
    assert.ok(start.value! > 15 && start.value! < 40, String(start.value));
    const event = found(
      louder((i) => (i > 22 * rate && i < 23 * rate ? 8 : 1)),
      'one-event',
    );
    assert.deepEqual(event.spans, [{ from: 20, to: 25 }]);
    const trend = found(
      louder((i) => 1 + (0.5 * i) / (60 * rate)),
      'trend',
    );
    assert.ok(Math.abs(trend.value! - 0.45) < 0.1, String(trend.value));
  });

  it('drift: a line of more than 0.05 g', () => {
    const drifting = (total: number): CheckedRun => machine({ x: (i, value) => value + (total * i) / (60 * rate) });
    assert.ok(Math.abs(found(drifting(0.1), 'drift').value! - 0.1) < 0.02);
    assert.ok(!codes(drifting(0.02)).includes('drift'));
  });

  it('aliasing: much of the mean square just below half the rate', () => {
    const tone: Shape = (i, value) => value + 0.15 * Math.sin(2 * Math.PI * 0.45 * i);
    const finding = found(machine({ x: tone, y: tone, z: tone }), 'aliasing');
    // 0.15²/2 of a tone beside 0.04 of noise, of which the running mean leaves a little up there.
    assert.ok(finding.value! > 0.2 && finding.value! < 0.3, String(finding.value));
  });

  it('band: too high for the rate, and segments too short for the lowest frequency', () => {
    assert.equal(found(machine(), 'band-high', { high: 180 }).severity, 'warning');
    assert.equal(found(machine(), 'band-high', { high: 250 }).severity, 'fault');
    assert.deepEqual(
      [180, 250].map((high) => found(machine(), 'band-high', { high }).threshold),
      [0.4, 0.5],
    );
    assert.match(found(machine(), 'band-high', { high: 180 }).message, /0\.4 of the rate \(160 Hz\).* at 450 Hz/);
    assert.match(found(machine(), 'band-high', { high: 250 }).message, /end it below 160 Hz/);
    assert.ok(!codes(machine(), { high: 160 }).includes('band-high'));
    assert.equal(found(machine(), 'segment-short', { low: 1 }).value, 2);
    assert.ok(!codes(machine(), { low: 1, segment: 4 }).includes('segment-short'));
  });

  it('length: fewer than sixteen segments, none of which crosses a gap', () => {
    assert.equal(found(machine({}, 1, 10 * rate), 'short').value, 9);
    const stretches: Stretch[] = Array.from({ length: 10 }, (_, s) => ({
      from: s * rate,
      to: (s + 1) * rate,
      start: 2 * s,
    }));
    assert.equal(found({ ...machine({}, 1, 10 * rate), stretches }, 'short').value, 0);
  });

  it('come the most serious first, each with the figure and the threshold it was judged by', () => {
    const bad = checkRecording(
      machine({ x: (_, v) => Math.min(v, 0.1), y: (i, v) => (i === 900 ? v + 5 : v), z: (_, v) => v - 0.1 }),
      { high: 300 },
    );
    const rank = { fault: 0, warning: 1, note: 2 };
    const ranks = bad.map(({ severity }) => rank[severity]);
    assert.deepEqual(ranks, [...ranks].sort());
    assert.ok(
      bad.length >= 4 &&
        bad.every(({ value, threshold }) => typeof value === 'number' && typeof threshold === 'number'),
    );
  });

  it('take any recording: empty, of two samples, constant, without units, without axes', () => {
    const channel = (samples: number[], unit?: string): CheckedChannel => ({
      name: 'x',
      unit,
      axis: false,
      samples: Float64Array.from(samples),
    });
    for (const samples of [[], [1], [1, 2], [3, 3, 3], [0, 0], Array.from({ length: 100 }, (_, i) => i % 2)]) {
      for (const unit of [undefined, 'g', 'N']) {
        const run = {
          rate: 10,
          stretches: [{ from: 0, to: samples.length, start: 0 }],
          channels: [channel(samples, unit)],
        };
        for (const { message, value } of checkRecording(run, { low: 0, high: 3 })) {
          assert.ok(!/NaN|undefined|Infinity/.test(message), message);
          assert.ok(!Number.isNaN(value));
        }
      }
    }
  });
});

describe('checks between the runs of a set', () => {
  const named = (run: CheckedRun, label: string): SeenRun => seen({ ...run, label });
  const set = (...runs: CheckedRun[]): string[] =>
    checkSet(runs.map((run, i) => named(run, `run ${i + 1}`))).map(
      ({ run, finding }) => `${run + 1} ${finding.code} ${finding.severity}`,
    );

  it('find nothing wrong with runs that match, nor with one run alone', () => {
    assert.deepEqual(set(machine({}, 1), machine({}, 2), machine({}, 3)), []);
    assert.deepEqual(set(machine()), []);
  });

  it('rate, length and channels that differ', () => {
    assert.deepEqual(set(machine({}, 1), machine({}, 2), { ...machine({}, 3), rate: 404 }), ['3 set-rate warning']);
    assert.deepEqual(set(machine({}, 1), machine({}, 2), machine({}, 3, 50 * rate)), ['3 set-length warning']);
    const two = machine({}, 3);
    assert.deepEqual(set(machine({}, 1), machine({}, 2), { ...two, channels: two.channels.slice(1) }), [
      '3 set-channels warning',
    ]);
  });

  it('gravity that points elsewhere: more than 5 degrees warns, more than 15 is a fault', () => {
    const tilted = (angle: number, seed: number): CheckedRun => {
      const [c, s] = [Math.cos((angle * Math.PI) / 180), Math.sin((angle * Math.PI) / 180)];
      return machine({ x: (_, value) => value + s, z: (_, value) => value - 1 + c }, seed);
    };
    assert.deepEqual(set(tilted(0, 1), tilted(4, 2)), []);
    assert.deepEqual(set(tilted(0, 1), tilted(8, 2), tilted(20, 3)), ['3 set-gravity fault', '2 set-gravity warning']);
    const [{ finding }] = checkSet([named(tilted(0, 1), 'A'), named(tilted(10, 2), 'B')]);
    assert.ok(Math.abs(finding.value! - 10) < 0.5);
    assert.equal(finding.threshold, settings.between.angle.warning);
  });

  it('still parts at different levels', () => {
    const quiet = (level: number, seed: number): CheckedRun =>
      machine(
        {
          x: (i, v) => (i < 5 * rate ? v * level : v),
          y: (i, v) => (i < 5 * rate ? v * level : v),
          z: (i, v) => (i < 5 * rate ? 1 + (v - 1) * level : v),
        },
        seed,
      );
    assert.deepEqual(set(quiet(0.1, 1), quiet(0.1, 2), quiet(0.3, 3)), ['3 set-still note']);
  });

  it('a copy of another run is no repeat', () => {
    assert.deepEqual(set(machine({}, 1), machine({}, 2), machine({}, 1)), ['3 set-copy fault']);
  });
});

describe('the faults that are looked for in every recording', () => {
  const quick = ['clipped', 'wrapped', 'flat', 'gravity', 'resolution'];
  const asIs: Shape = (_, value) => value;

  /** Ways in which a channel goes wrong, by how far. */
  const ways: readonly ((far: number) => Shape)[] = [
    () => asIs,
    (far) => (_, value) => Math.min(value, 0.2 + far),
    (far) => (_, value) => Math.max(-far, Math.min(value, far)),
    (far) => (i, value) =>
      Math.abs(value) > 0.2 + far / 2 ? Math.sign(value) * (0.2 + far / 2) + (i % 5) / 1000 : value,
    (far) => (_, value) => Math.round(value / far) * far,
    (far) => (i, value) => (i % 1000 < 990 * far ? 0.1 : value),
    (far) => () => far,
    (far) => (i) => far * Math.sin(i * far),
    (far) => (_, value) => far * value,
    (far) => (i, value) => (i % Math.ceil(2000 * far) === 0 ? 3 : value),
  ];
  const change = fc
    .tuple(fc.nat(ways.length - 1), fc.double({ min: 0.001, max: 1, noNaN: true }))
    .map(([way, far]) => ways[way](far));

  it('are the faults among what their checks say, though most channels are cleared by bounds', () => {
    let faults = 0;
    const made = fc.tuple(change, change, change, fc.nat(1000), fc.constantFrom(30, 900, 5000));
    const law = fc.property(made, ([x, y, z, seed, count]) => {
      const run = machine({ x, y, z: (i, value) => 1 + z(i, value - 1) }, seed, count);
      const all = checkRecording(run).filter(({ code, severity }) => quick.includes(code) && severity === 'fault');
      const text = (found: readonly Finding[]): string[] => found.map((one) => JSON.stringify(one)).sort();
      assert.deepEqual(text(sampleFaults(run)), text(all));
      faults += all.length;
    });
    fc.assert(law, { numRuns: 150 });
    assert.ok(faults > 50, `${faults} faults`);
  });
});

import { strict as assert } from 'node:assert';
import fc from 'fast-check';
import { clockOf, rateOver, toDigits, unsureBy } from '../../../src/readers/clock/clock.ts';
import { stampQuantum, stepShape } from '../../../src/readers/clock/steps.ts';
import { findingOf, recordingOf, refusalOf, rows, samplesOf } from '../memory.ts';

const z = (i: number): string => (1 + 0.1 * Math.sin(i)).toFixed(4);

/** A small generator of even numbers in [0, 1) (Park and Miller 1988). */
function dice(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 48271) % 2147483647) / 2147483647;
}

describe('the clock of a recording', () => {
  it('takes the rate from the first and last stamp, not from the median step', async () => {
    const recording = await recordingOf('t_ms,az (g)\n' + rows(4000, (i) => [Math.floor(i * 2.5), z(i)]));
    assert.equal(recording.clock.rate, 3999 / 9.997);
    assert.equal(recording.clock.rateFrom, 'stamps');
    assert.equal(recording.clock.jitter, 0);
    assert.ok(findingOf(recording, 'rounded-stamps'));
  });

  it('is in doubt where stamps look rounded to no decimal place, as even losses leave them', async () => {
    const kept = Array.from({ length: 6000 }, (_, i) => i).filter((i) => i % 20 !== 7);
    const text = 't (s),az (g)\n' + rows(kept.length, (i) => [(kept[i] / 400).toFixed(4), z(i)]);
    const found = findingOf(await recordingOf(text), 'rounded-or-lost');
    assert.equal(found?.severity, 'warning');
    assert.match(found.message, /even at 380 Hz; but if the logger takes them at 400 Hz, 5 % of them are lost/);
    assert.equal(findingOf(await recordingOf(text, { rate: 400 }), 'rounded-or-lost'), undefined);
    // To whole ms loggers do round.
    const ms = 't (s),az (g)\n' + rows(6000, (i) => [(Math.round(i / 0.8) / 1000).toFixed(3), z(i)]);
    const rounded = await recordingOf(ms);
    assert.deepEqual(
      rounded.findings.filter(({ code }) => code.startsWith('rounded')).map(({ code }) => code),
      ['rounded-stamps'],
    );
  });

  it('is no finer than the ms that its stamps count, whatever their digits', async () => {
    for (const rate of [960, 990, 995, 1010])
      for (const lost of [0, 0.03]) {
        if (lost > 0 && rate === 995) continue;
        const random = dice(rate);
        const kept = Array.from({ length: 4000 }, (_, i) => i).filter(() => random() >= lost);
        const stamp = (i: number): string => (Math.round((1000 * kept[i]) / rate) / 1000).toFixed(6);
        const recording = await recordingOf('t (s),az (g)\n' + rows(kept.length, (i) => [stamp(i), z(i)]));
        const isNear = Math.abs(recording.clock.rate / rate - 1) < 1e-3;
        assert.ok(
          isNear || (lost > 0 && findingOf(recording, 'uneven')?.severity === 'warning'),
          `${recording.clock.rate} Hz for ${rate} Hz, ${100 * lost} % lost`,
        );
      }
  });

  it('gives the rate of the unbroken stretches, and the stretches, where there are gaps', async () => {
    const lost = (i: number): number => i + (i >= 300 ? 100 : 0) + (i >= 700 ? 1 : 0);
    const recording = await recordingOf('t (s),az (g)\n' + rows(1000, (i) => [(lost(i) / 400).toFixed(4), z(i)]));
    assert.ok(Math.abs(recording.clock.rate - 400) < 1e-9);
    assert.deepEqual(
      recording.clock.stretches.map(({ from, to }) => [from, to]),
      [
        [0, 300],
        [300, 700],
        [700, 1000],
      ],
    );
    assert.ok(Math.abs(recording.clock.stretches[1].start - 1) < 1e-9);
    const gap = findingOf(recording, 'gap');
    assert.equal(gap?.value, 101 / 1101);
    assert.equal(gap.severity, 'warning');
    assert.match(gap.message, /line 302/);
  });

  it('keeps to the step between neighbours where many samples are lost singly', () => {
    const random = dice(11);
    const stamps: number[] = [];
    // As a logger at 100.08 Hz that loses 12 % of its samples, in whole ms.
    for (let i = 0; i < 2000; i++) if (random() >= 0.12) stamps.push(Math.floor((1000 * i) / 100.08) / 1000);
    const clock = clockOf(Float64Array.from(stamps), 1e-3);
    assert.ok(Math.abs((clock?.rate ?? 0) / 100.08 - 1) < 1e-3, String(clock?.rate));
    const lost = stamps.filter((t, i) => i > 0 && t - stamps[i - 1] > 0.015).length;
    assert.equal(clock?.stretches.length, lost + 1);
    assert.equal(clock?.jitter, 0);
  });

  it('keeps to even steps where many samples are lost three at a time', () => {
    const random = dice(19);
    const stamps: number[] = [];
    let losses = 0;
    for (let i = 0; i < 3000; i++) {
      if (i > 0 && random() < 0.03) [i, losses] = [i + 3, losses + 1];
      stamps.push(i / 100);
    }
    const clock = clockOf(Float64Array.from(stamps), 1e-6);
    assert.ok(losses > 60, `${losses} losses`);
    assert.deepEqual([clock?.rate, clock?.stretches.length, clock?.missing], [100, losses + 1, 3 * losses]);
  });

  it('does not take the tail of uneven steps for losses', () => {
    const random = dice(13);
    const t = Float64Array.from({ length: 3000 }, (_, i) => (i + 0.6 * random()) / 100);
    const clock = clockOf(t, 1e-9);
    assert.equal(clock?.stretches.length, 1);
    assert.ok(Math.abs((clock?.rate ?? 0) / 100 - 1) < 1e-3);
  });

  it('warns where stamps as coarse as the step hide what is lost', async () => {
    const random = dice(17);
    const kept = Array.from({ length: 3000 }, (_, i) => i).filter(() => random() >= 0.1);
    const stamp = (i: number): string => (Math.floor((1000 * i) / 752) / 1000).toFixed(3);
    const recording = await recordingOf('t (s),az (g)\n' + rows(kept.length, (k) => [stamp(kept[k]), z(k)]));
    const told = findingOf(recording, 'rate-uncertain');
    assert.equal(told?.severity, 'warning');
    assert.match(told?.message ?? '', /steps of 0\.001 s/);
    const whole = await recordingOf('t (s),az (g)\n' + rows(3000, (i) => [stamp(i), z(i)]));
    assert.equal(findingOf(whole, 'rate-uncertain'), undefined);
    assert.equal(
      findingOf(
        await recordingOf('t (s),az (g)\n' + rows(kept.length, (k) => [stamp(kept[k]), z(k)]), { rate: 752 }),
        'rate-uncertain',
      ),
      undefined,
    );
  });

  it('finds every gap of three samples and more at its place, whatever the rate, the rounding and the start', () => {
    const law = fc.property(
      fc.double({ min: 50, max: 3000, noNaN: true }),
      fc.constantFrom(1e-6, 1e-5, 1e-4, 1e-3),
      fc.array(fc.tuple(fc.integer({ min: 20, max: 200 }), fc.integer({ min: 3, max: 400 })), {
        minLength: 1,
        maxLength: 5,
      }),
      (rate, quantum, runs) => {
        fc.pre(quantum * rate < 1);
        const stamps: number[] = [];
        let index = 0;
        for (const [length, lost] of runs) {
          for (let i = 0; i < length; i++) stamps.push(Math.floor((index + i) / rate / quantum + 1e-9) * quantum);
          index += length + lost;
        }
        const clock = clockOf(Float64Array.from(stamps), quantum);
        assert.ok(clock);
        let from = 0;
        const starts = runs.map(([length]) => (from += length) - length);
        assert.deepEqual(
          clock.stretches.map((one) => one.from),
          starts,
        );
        assert.ok(clock.jitter < 0.01);
        const steps = runs.reduce((sum, [length]) => sum + length - 1, 0);
        assert.ok(Math.abs(clock.rate / rate - 1) <= (2 * runs.length * quantum * rate) / steps + 1e-9);
      },
    );
    fc.assert(law, { numRuns: 200 });
  });

  it('tells rounding from unevenness', async () => {
    const random = dice(7);
    const uneven = await recordingOf(
      't (s),az (g)\n' + rows(3000, (i) => [((i + 0.3 * random()) / 100).toFixed(5), z(i)]),
    );
    // Two even errors of width 0.3 of a step: standard deviation 0.3 / sqrt(6) of it.
    assert.ok(Math.abs(uneven.clock.jitter - 0.3 / Math.sqrt(6)) < 0.005, String(uneven.clock.jitter));
    assert.equal(uneven.clock.times?.length, 3000);
    assert.equal(findingOf(uneven, 'uneven')?.severity, 'warning');
    const wild = await recordingOf(
      't (s),az (g)\n' + rows(3000, (i) => [((i + 0.9 * random()) / 100).toFixed(5), z(i)]),
    );
    assert.equal(findingOf(wild, 'uneven')?.severity, 'fault');
    const rounded = await recordingOf('t (s),az (g)\n' + rows(3000, (i) => [(i / 700).toFixed(3), z(i)]));
    assert.equal(rounded.clock.jitter, 0);
    assert.equal(rounded.clock.times, undefined);
    assert.equal(rounded.clock.stretches.length, 1);
  });

  it('takes a single late stamp for what it is, and no gap', async () => {
    const recording = await recordingOf(
      't (s),az (g)\n' + rows(1000, (i) => [((i + (i === 500 ? 0.7 : 0)) / 100).toFixed(4), z(i)]),
    );
    assert.equal(recording.clock.stretches.length, 1);
  });

  it('counts seconds shared by many rows from edge to edge', async () => {
    const clockText = (i: number): string => {
      const s = Math.floor(0.37 + i / 103.7);
      return `12:0${Math.floor(s / 60)}:${String(s % 60).padStart(2, '0')}`;
    };
    const recording = await recordingOf('Time;az (g)\n' + rows(3000, (i) => [clockText(i), z(i)], ';'));
    assert.ok(Math.abs(recording.clock.rate / 103.7 - 1) < 1e-3, String(recording.clock.rate));
    assert.ok(findingOf(recording, 'coarse-stamps'));
  });

  it('takes samples delivered in bursts as even, at the slope of their stamps', async () => {
    const random = dice(3);
    // Ten samples arrive together, late by up to 0.1 s; some stamps run backwards.
    let delay = 0;
    const text =
      't_ms,x,y,z\n' +
      rows(5000, (i) => {
        if (i % 10 === 0) delay = 100 * random();
        return [
          Math.round(Math.floor(i / 10) * 100 + 100 + delay - (i % 10 === 5 ? 140 : 0)),
          (i % 7) / 100,
          (i % 11) / 100,
          z(i),
        ];
      });
    const recording = await recordingOf(text);
    assert.ok(Math.abs(recording.clock.rate - 100) < 0.1, String(recording.clock.rate));
    assert.equal(recording.clock.stretches.length, 1);
    assert.equal(recording.clock.times, undefined);
    assert.equal(findingOf(recording, 'bursts')?.severity, 'warning');
  });

  it('takes the slope of bursts on both sides of a gap by itself', async () => {
    const random = dice(5);
    let delay = 0;
    const text =
      't_ms,x,y,z\n' +
      rows(4000, (i) => {
        if (i % 10 === 0) delay = 100 * random();
        const at = Math.floor(i / 10) * 100 + delay + (i >= 1500 ? 60_000 : 0);
        return [Math.round(at), (i % 7) / 100, (i % 11) / 100, z(i)];
      });
    const { clock } = await recordingOf(text);
    assert.ok(Math.abs(clock.rate - 100) < 0.1, String(clock.rate));
    assert.deepEqual(
      clock.stretches.map(({ from, to }) => [from, to]),
      [
        [0, 1500],
        [1500, 4000],
      ],
    );
  });

  it('follows a counter where there is no time, and finds what it skips', async () => {
    const text =
      '# rate: 200 Hz\nsample,x,y,z\n' + rows(500, (i) => [i + (i >= 250 ? 20 : 0), (i % 5) / 10, (i % 7) / 10, z(i)]);
    const recording = await recordingOf(text);
    assert.equal(recording.clock.rate, 200);
    assert.equal(recording.clock.rateFrom, 'preamble');
    assert.deepEqual(recording.clock.stretches, [
      { from: 0, to: 250, start: 0 },
      { from: 250, to: 500, start: 1.35 },
    ]);
    assert.equal((await recordingOf(text, { rate: 400 })).clock.rate, 400);
  });

  it('goes on over midnight and over the end of a 32-bit counter', async () => {
    const clockText = (i: number): string => new Date(86_399_000 + i * 10).toISOString().slice(11, 23);
    const night = await recordingOf('time,az (g)\n' + rows(300, (i) => [clockText(i), z(i)]));
    assert.ok(Math.abs(night.clock.rate - 100) < 1e-9);
    assert.equal(night.clock.stretches.length, 1);
    assert.equal(night.clock.epoch, 86_399);
    const wrap = await recordingOf(
      't_us,az (g)\n' + rows(3000, (i) => [(4_294_000_000 + i * 1000) % 4_294_967_296, z(i)]),
    );
    assert.equal(wrap.clock.rate, 1000);
    assert.equal(wrap.clock.stretches.length, 1);
  });

  it('counts rows without a reading as lost samples', async () => {
    const text =
      't (s),x (g),y (g),z (g)\n' +
      rows(400, (i) => [(i / 100).toFixed(2), 0.01, i >= 100 && i < 103 ? 'NaN' : 0.02, z(i)]);
    const recording = await recordingOf(text);
    assert.equal(samplesOf(recording, 'y').length, 397);
    assert.ok(samplesOf(recording, 'y').every(Number.isFinite));
    assert.deepEqual(
      recording.clock.stretches.map(({ from, to }) => [from, to]),
      [
        [0, 100],
        [100, 397],
      ],
    );
    assert.match(findingOf(recording, 'empty-cells')?.message ?? '', /^3 rows of 400 .*line 102/);
  });

  it('leaves the rate to the option where stamps give another, and warns', async () => {
    const recording = await recordingOf('t (s),az (g)\n' + rows(400, (i) => [(i / 100).toFixed(2), z(i)]), {
      rate: 120,
    });
    assert.equal(recording.clock.rate, 120);
    assert.equal(recording.clock.rateFrom, 'option');
    assert.equal(findingOf(recording, 'rate-differs')?.severity, 'warning');
  });

  it('refuses a file without stamps and without a rate, naming the option', async () => {
    assert.match((await refusalOf('x,y,z\n' + rows(50, (i) => [i % 7, i % 5, 1]))).message, /rate 400 Hz/);
    assert.match((await refusalOf('n,x,y,z\n' + rows(50, (i) => [i, i % 7, i % 5, 1]))).message, /counts rows.*rate/);
    assert.match(
      (await refusalOf('time,x,y,z\n' + rows(50, (i) => [7, i % 7, i % 5, 1]))).message,
      /time that does not run forward.*rate/,
    );
  });

  it('reads seconds, milliseconds, microseconds and times since 1970 by name or by size', async () => {
    const cases: [string, (i: number) => string | number, string, number][] = [
      ['time', (i) => (i / 400).toFixed(4), 's', 400],
      ['time', (i) => i * 5, 'ms', 200],
      ['time', (i) => i * 2500, 'us', 400],
      ['t [s]', (i) => i, 's', 1],
      ['elapsed_ms', (i) => i * 20, 'ms', 50],
      ['micros', (i) => i * 20, 'us', 50_000],
      ['timestamp', (i) => 1_714_557_600_000 + i * 4, 'epoch ms', 250],
      ['timestamp', (i) => (1_714_557_600 + i / 200).toFixed(3), 'epoch s', 200],
      ['timestamp', (i) => String(1_714_557_600_000_000 + i * 312), 'epoch us', 1e6 / 312],
      ['a', (i) => (i / 400).toFixed(4), 's', 400],
    ];
    for (const [name, at, style, rate] of cases) {
      const recording = await recordingOf(`${name},ax (g),ay (g),az (g)\n` + rows(200, (i) => [at(i), 0.1, 0.2, z(i)]));
      assert.equal(recording.layout.time?.style, style, name);
      assert.ok(Math.abs(recording.clock.rate / rate - 1) < 1e-9, `${name}: ${recording.clock.rate}`);
    }
  });

  it('asks for the rate where a time without a unit could be two', async () => {
    const text = (step: number): string => 'time,x,y,z\n' + rows(100, (i) => [(i * step).toFixed(1), 0.1, 0.2, z(i)]);
    assert.match((await refusalOf(text(100))).message, /ms \(10 Hz\) and as us \(10000 Hz\).*rate/);
    assert.equal((await recordingOf(text(100), { rate: 10 })).layout.time?.style, 'ms');
    assert.match((await refusalOf('t,x,y,z\n' + rows(100, (i) => [i, 0.1, 0.2, z(i)]))).message, /count of rows.*rate/);
  });

  it('asks where a slow sensor in ms and a fast one in us are both plausible, and lets days settle it', async () => {
    const text = (step: number, count: number): string =>
      'time,x,y,z\n' + rows(count, (i) => [i * step, 0.1, 0.2, z(i)]);
    assert.match((await refusalOf(text(510, 235))).message, /ms \(1\.9608 Hz\) and as us \(1960\.8 Hz\).*rate/);
    // As ms these would be three days and a half.
    assert.equal((await recordingOf(text(2000, 150_000))).layout.time?.style, 'us');
  });

  it('warns of a unit of time that plausibility alone settles, and names the other reading', async () => {
    const text = (name: string): string => `${name},x,y,z\n` + rows(200, (i) => [i * 5, 0.1, 0.2, z(i)]);
    const told = findingOf(await recordingOf(text('time')), 'time-unit-assumed');
    assert.equal(told?.severity, 'warning');
    assert.match(told?.message ?? '', /ms \(200 Hz, 0\.995 s\).* s \(0\.2 Hz, 995 s\)/);
    assert.equal(findingOf(await recordingOf(text('time (ms)')), 'time-unit-assumed'), undefined);
    assert.equal(findingOf(await recordingOf(text('time'), { rate: 200 }), 'time-unit-assumed'), undefined);
  });

  it('names minutes beside seconds, takes hours and parts of a day with a warning, and asks of a rate that a fast converter has', async () => {
    const text = (step: number): string => 'time,x,y,z\n' + rows(600, (i) => [(i * step).toFixed(12), 0.1, 0.2, z(i)]);
    const told = async (step: number): Promise<string | undefined> =>
      findingOf(await recordingOf(text(step)), 'time-unit-assumed')?.message;
    // 100 Hz in minutes, hours and days.
    assert.match((await told(1 / 6000)) ?? '', /read as s \(6000 Hz, 0\.0998\d* s\).* than min \(100 Hz, 5\.99 s\)/);
    assert.match((await told(1 / 360_000)) ?? '', /read as h \(100 Hz, 5\.99 s\).* than days \(4\.1667 Hz/);
    assert.match((await told(1 / 8_640_000)) ?? '', /read as days \(100 Hz, 5\.99 s\).* than h \(2400 Hz/);
    assert.equal(await told(1 / 5000), undefined);
    assert.match((await refusalOf(text(1 / 51_200))).message, /s \(51200 Hz\) and as min \(853\.33 Hz\).*rate/);
    assert.ok(Math.abs((await recordingOf(text(1 / 6000), { rate: 100 })).clock.rate - 100) < 1e-6);
  });

  it('tells samples lost at random from the rounding of a slower rate, though every step is a whole unit of the stamps', async () => {
    for (const share of [0.02, 0.1]) {
      const random = dice(5);
      let index = 0;
      const lost = Array.from({ length: 6000 }, () => {
        do index++;
        while (random() < share);
        return index;
      });
      const recording = await recordingOf('t (s),az (g)\n' + rows(6000, (i) => [(lost[i] / 100).toFixed(2), z(i)]));
      assert.ok(Math.abs(recording.clock.rate - 100) < 1e-6, String(recording.clock.rate));
      const gaps = lost.filter((at, i) => i > 0 && at - lost[i - 1] > 1).length;
      assert.equal(recording.clock.stretches.length, gaps + 1);
    }
    const slower = await recordingOf(
      't (s),az (g)\n' + rows(6000, (i) => [(Math.floor(i / 0.98) / 100).toFixed(2), z(i)]),
    );
    assert.ok(Math.abs(slower.clock.rate - 98) < 0.01);
    assert.equal(slower.clock.stretches.length, 1);
  });

  it('goes on where a counter of one byte begins anew', async () => {
    const text = 'seq,x,y,z\n' + rows(1000, (i) => [(i + (i > 600 ? 3 : 0)) % 256, (i % 5) / 10, (i % 7) / 10, z(i)]);
    const recording = await recordingOf(text, { rate: 100 });
    assert.deepEqual(
      recording.clock.stretches.map(({ from, to }) => [from, to]),
      [
        [0, 601],
        [601, 1000],
      ],
    );
    assert.equal(findingOf(recording, 'rate-differs'), undefined);
  });

  it('reads the date with the clock where tabs part the columns and a blank the two', async () => {
    const text =
      'Time\tx\ty\tz\n' + rows(100, (i) => [`2024-5-14 9:30:1${(i / 100).toFixed(3)}`, 0.1, 0.2, z(i)], '\t');
    const recording = await recordingOf(text);
    assert.equal(recording.layout.delimiter, '\t');
    assert.ok(Math.abs(recording.clock.epoch! - Date.UTC(2024, 4, 14, 9, 30, 10) / 1000) < 1e-6);
  });

  it('never lets the times of uneven samples run back where the clock is set back', () => {
    const ms = [621, 636, 652, 667, 683, 1039, 1055, 698, 714, 729, 745, 760, 776, 791, 807, 946, 962, 977, 993, 1008];
    const { times, stretches } = clockOf(
      Float64Array.of(...ms, 1024).map((t) => t / 1000),
      1e-3,
    )!;
    assert.ok(stretches.length > 1);
    assert.ok(
      times!.every((t, i) => i === 0 || t >= times![i - 1]),
      times!.join(' '),
    );
  });
});

describe('a clock whose steps lie so close together that bounds settle it', () => {
  const even = fc.record({
    rate: fc.double({ min: 0.5, max: 5000, noNaN: true }),
    count: fc.integer({ min: 2, max: 400 }),
    first: fc.double({ min: 0, max: 1e5, noNaN: true }),
    digits: fc.integer({ min: 0, max: 7 }),
    uneven: fc.constantFrom(0, 0, 0.01, 0.1, 0.3, 0.6),
    lost: fc.constantFrom(0, 0, 0.01, 0.1),
    seed: fc.integer({ min: 1, max: 1e6 }),
  });

  /** Stamps of a clock that loses some samples, uneven and rounded. */
  function stampsOf({
    rate,
    count,
    first,
    digits,
    uneven,
    lost,
    seed,
  }: typeof even extends fc.Arbitrary<infer Made> ? Made : never): Float64Array {
    const random = dice(seed);
    const scale = 10 ** digits;
    const all = Array.from({ length: count }, (_, i) => first + (i + uneven * (random() - 0.5)) / rate);
    return Float64Array.from(
      all.filter(() => random() >= lost),
      (stamp) => Math.round(stamp * scale) / scale,
    );
  }

  it('is the clock that its medians tell, to the bit', () => {
    let settled = 0;
    const law = fc.property(even, (made) => {
      const [quick, slow] = [stampsOf(made), stampsOf(made)];
      const resolution = 10 ** -made.digits;
      // Without bounds the medians have to tell.
      Object.assign(stepShape(slow), { bounds: undefined });
      assert.deepEqual(clockOf(quick, resolution), clockOf(slow, resolution));
      assert.equal(stampQuantum(quick, resolution), stampQuantum(slow, resolution));
      const { bounds } = stepShape(quick);
      if (bounds === undefined) return;
      settled++;
      const { median, forwardMedian } = stepShape(quick);
      assert.ok(bounds.least <= median && median <= bounds.most && forwardMedian === median, 'between the bounds');
    });
    fc.assert(law, { numRuns: 500 });
    assert.ok(settled > 100, `${settled} settled`);
  });
});

describe('a rate over a duration', () => {
  it('is that of whole units of the stamps, so that it is rounded once', () => {
    const law = fc.property(fc.integer({ min: 1, max: 5000 }), fc.integer({ min: 1, max: 5000 }), (rate, seconds) => {
      // Added up in steps, the seconds are off by some last bits.
      let duration = 0;
      for (let i = 0; i < 10; i++) duration += seconds / 10;
      assert.equal(rateOver(rate * seconds, duration, 1e-3), rate);
    });
    fc.assert(law);
    assert.equal(rateOver(7, 3.00001, 1e-3), 7 / 3.00001);
    assert.equal(rateOver(7, 3, 0), 7 / 3);
  });

  it('is none of no steps and of no time', () => {
    assert.deepEqual([rateOver(0, 1, 1e-3), rateOver(1, 0, 1e-3), rateOver(1, NaN, 1e-3)], Array(3).fill(undefined));
  });
});

describe('a difference of two stamps', () => {
  it('is as their digits have it, where it is within 0.3 of a unit of them', () => {
    const since1970 = 1.7e9;
    assert.notEqual(since1970 + 0.0123 - since1970, 0.0123);
    assert.equal(toDigits(since1970 + 0.0123 - since1970, 1e-4), 0.0123);
    assert.equal(toDigits(0.00029, 1e-3), 0);
    assert.equal(toDigits(0.00031, 1e-3), 0.00031);
    assert.equal(toDigits(0.00071, 1e-3), 0.001);
    assert.equal(toDigits(0.00069, 1e-3), 0.00069);
    assert.equal(toDigits(-0.0102, 1e-3), -0.01);
  });
});

describe('a rate is in doubt', () => {
  const clock = clockOf(
    Float64Array.from({ length: 1001 }, (_, i) => i / 100),
    1e-3,
  )!;
  const offOf = (change: object): number | undefined => unsureBy({ ...clock, ...change })?.off;

  it('where the rows that stand closest say that it is too low, by more than 0.1 % and their rounding', () => {
    assert.equal(offOf({}), undefined);
    // 0.1 % and twice the quantum of 1 ms over 10 s make 0.12 %.
    assert.equal(offOf({ least: 100.119 }), undefined);
    assert.ok(Math.abs(offOf({ least: 100.121 })! - 0.00121) < 1e-9, `${offOf({ least: 100.121 })}`);
    assert.ok(Math.abs(unsureBy({ ...clock, least: 101 })!.threshold - 0.0012) < 1e-9, 'the threshold');
  });

  it('where losses are hidden, whatever those rows say', () => {
    assert.equal(offOf({ hidesLosses: true, least: 100 }), 0);
  });
});

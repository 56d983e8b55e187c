import { strict as assert } from 'node:assert';
import { clipping, mayBeClipped } from '../../../src/readers/checks/clipping.ts';
import type { CheckedRun } from '../../../src/readers/checks/checked.ts';
import type { Finding } from '../../../src/readers/recording.ts';

const rate = 400;

/** Even numbers from 0 to 1 from a seed (Park and Miller 1988), and Gaussian ones of them (Box and Muller 1958). */
function dice(seed: number): { even: () => number; normal: () => number } {
  let state = seed;
  const even = (): number => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
  even();
  return { even, normal: () => Math.sqrt(-2 * Math.log(even())) * Math.cos(2 * Math.PI * even()) };
}
type Dice = ReturnType<typeof dice>;
type Signal = (count: number, dice: Dice) => Float64Array;

const of = (count: number, value: (i: number) => number): Float64Array =>
  Float64Array.from({ length: count }, (_, i) => value(i));

/** Noise through a resonance at a share of the rate, of r.m.s. about 1. */
const resonance =
  (from: number, to: number): Signal =>
  (count, { even, normal }) => {
    const w = 2 * Math.PI * (from + (to - from) * even());
    const r = Math.exp(-(0.01 + 0.09 * even()) * w);
    let [one, two] = [0, 0];
    const made = of(count + 300, () => {
      [one, two] = [2 * r * Math.cos(w) * one - r * r * two + normal(), one];
      return one;
    }).subarray(300);
    const size = Math.sqrt(made.reduce((sum, value) => sum + value * value, 0) / count);
    return made.map((value) => value / size);
  };
const sine: Signal = (count, { even }) => {
  const [w, phase] = [2 * Math.PI * 0.002 * 200 ** even(), 2 * Math.PI * even()];
  return of(count, (i) => Math.SQRT2 * Math.sin(w * i + phase));
};
const smooth: Signal = (count, { even, normal }) => {
  const recent: number[] = Array<number>(2 + Math.floor(12 * even())).fill(0);
  return of(count, (i) => {
    recent[i % recent.length] = normal();
    return recent.reduce((sum, one) => sum + one, 0) / Math.sqrt(recent.length);
  });
};
const bumps: Signal = (count, dice) => {
  const [ride, road] = [resonance(0.02, 0.2)(count, dice), smooth(count, dice)];
  let bump = 0;
  return of(count, (i) => {
    bump = dice.even() < 0.002 ? 3 + 3 * dice.even() : 0.97 * bump;
    return (0.7 * ride[i] + 0.5 * road[i]) * (1 + bump);
  });
};
const signals: Readonly<Record<string, Signal>> = {
  gaussian: (count, { normal }) => of(count, normal),
  laplace: (count, { even }) => of(count, () => (even() < 0.5 ? 1 : -1) * Math.log(1 / even()) * Math.SQRT1_2),
  sine,
  'sine and noise': (count, dice) => sine(count, dice).map((value) => value + 0.1 * dice.normal()),
  smooth,
  'slow resonance': resonance(0.01, 0.1),
  'fast resonance': resonance(0.1, 0.35),
  bumps,
  'at rest, then moving': (count, dice) => smooth(count, dice).map((value, i) => (i < 0.4 * count ? 0 : value)),
  'readings held': (count, dice) => {
    const [ride, times] = [smooth(count, dice), 2 + Math.floor(3 * dice.even())];
    return ride.map((_, i) => ride[i - (i % times)]);
  },
};

const run = (samples: Float64Array, range?: number): CheckedRun => ({
  rate,
  stretches: [{ from: 0, to: samples.length, start: 0 }],
  channels: [{ name: 'z', unit: 'g', axis: true, samples, range }],
});
const inSteps = (samples: Float64Array, steps: number): Float64Array =>
  samples.map((value) => Math.round(value * steps) / 1000);
const found = (samples: Float64Array, range?: number): Finding | undefined => clipping(run(samples, range), {})[0];

describe('clipping', () => {
  it('is not seen in whole recordings: fewer than 0.5 % of 3,200, in steps of 3.3 to 0.00001 times the r.m.s.', () => {
    const counts = Object.entries(signals).map(([name, signal], k) => {
      let wrong = 0;
      [0.3, 1, 3, 10, 30, 100, 1000, 1e5].forEach((steps, s) => {
        for (let n = 0; n < 40; n++)
          if (found(inSteps(signal(2000, dice(1 + n + 100 * s + 10_000 * k)), steps)) !== undefined) wrong++;
      });
      return { name, wrong };
    });
    const wrong = counts.reduce((sum, one) => sum + one.wrong, 0);
    assert.ok(wrong < 0.005 * 3200, counts.map((one) => `${one.name} ${one.wrong}`).join(', '));
  }).timeout(60_000);

  it('is seen at 2 standard deviations in 99 of 100, at 3 in 95, and at 4 in half of those that lose 4 samples or more', () => {
    const seen = (limit: number, signal: Signal, count: number): readonly [number, number] => {
      let [able, hits] = [0, 0];
      for (let n = 0; n < 600_000 / count; n++) {
        const whole = signal(count, dice(77 + n + 1000 * limit));
        const cut = whole.map((value) => Math.max(-limit, Math.min(limit, value)));
        if (cut.filter((value) => Math.abs(value) === limit).length < 4) continue;
        able++;
        if (found(inSteps(cut, 300)) !== undefined) hits++;
      }
      return [able, hits];
    };
    const kinds = [smooth, resonance(0.01, 0.1), resonance(0.1, 0.35), signals['gaussian']];
    const shareOf = (limit: number, count: number): number => {
      const each = kinds.map((signal) => seen(limit, signal, count));
      return each.reduce((sum, [, hits]) => sum + hits, 0) / each.reduce((sum, [able]) => sum + able, 0);
    };
    const shares = [shareOf(2, 12_000), shareOf(3, 12_000), shareOf(4, 60_000)];
    assert.ok(shares[0] > 0.99 && shares[1] > 0.95 && shares[2] > 0.5, shares.join(', '));
  }).timeout(60_000);

  it('is called so in no ride in fine steps for two readings alike at one top, which are told for what they are', () => {
    const rides = Array.from({ length: 4000 }, (_, n) =>
      found(inSteps(resonance(0.05, 0.15)(2000, dice(31 + n)), n % 2 === 0 ? 300 : 1000)),
    ).filter((one) => one !== undefined);
    assert.ok(rides.length > 2, 'some have such a top');
    assert.deepEqual([...new Set(rides.map(({ code, severity }) => `${code}, ${severity}`))], ['extreme-alike, note']);
    assert.match(
      rides[0].message,
      /^z goes no farther than -?[\d.]+ g, where [23] samples are alike, as happens by chance/,
    );
  }).timeout(60_000);

  it('is called so by one plateau that falls too steeply for chance, and by one at both ends', () => {
    const ride = smooth(12_000, dice(3)).map((value) => Math.round(200 * value) / 1000);
    // Two readings alike have a chance of 2 steps over the fall beside them.
    const plateau = (fall: number, ...tops: readonly (readonly [at: number, top: number])[]): Float64Array => {
      const made = ride.slice();
      for (const [at, top] of tops) made.set([top - Math.sign(top) * fall, top, top, top - Math.sign(top) * fall], at);
      return made;
    };
    assert.equal(found(plateau(0.3, [500, 1.7]))?.code, 'extreme-alike');
    assert.equal(found(plateau(0.3, [500, 1.7], [900, -1.7]))?.code, 'clipped');
    assert.equal(found(plateau(0.3, [500, 1.7], [900, 1.7]))?.code, 'clipped');
    assert.equal(found(plateau(20, [500, 21.7]))?.code, 'clipped');
  });

  it('takes pure Gaussian readings in whole mg for what they are', () => {
    const wrong = Array.from({ length: 1000 }, (_, n) => inSteps(of(2000, dice(5 + n).normal), 20)).filter(found);
    assert.ok(wrong.length < 5, `${wrong.length} of 1000`);
  }).timeout(30_000);

  it('is a plateau at the end of a usual range, and not two lone peaks near it', () => {
    const ride = smooth(12_000, dice(3)).map((value) => Math.round(200 * value) / 1000);
    const peaks = (...at: number[]): Float64Array => ride.map((value, i) => (at.includes(i) ? 1.999 : value));
    assert.equal(found(peaks(500, 7000)), undefined);
    assert.deepEqual(
      found(peaks(500, 501, 7000))?.spans?.map(({ from }) => Math.round(from * rate)),
      [500, 7000],
    );
  });

  it('is none of readings that are held, though the last of them is held no longer', () => {
    for (let seed = 1; seed < 11; seed++) {
      const ride = smooth(4000, dice(seed)).map((value) => Math.round(300 * value) / 1000);
      const held = ride.map((_, i) => ride[i - (i % 2)]).slice(0, 3999);
      held[3998] = held.reduce((most, value) => Math.max(most, value));
      assert.equal(found(held), undefined, `seed ${seed}`);
    }
  });

  it('is likelier where a plateau stands at the end of a usual range than elsewhere', () => {
    const ride = smooth(12_000, dice(3)).map((value) => Math.round(200 * value) / 1000);
    // Two readings alike that fall by 100 steps on either side have a chance of 0.02.
    const plateau = (top: number): Float64Array =>
      ride.map((value, i) =>
        i === 500 || i === 501 ? top : i === 499 || i === 502 ? top - 0.1 * Math.sign(top) : value,
      );
    for (const top of [1.999, -1.999, 2.001, 4, 15.9]) assert.ok(found(plateau(top)) !== undefined, `at ${top} g`);
    for (const top of [1.97, 1.7, 2.01, -3]) assert.equal(found(plateau(top)), undefined, `at ${top} g`);
  });

  it('is two readings at the range that the file states, wherever they stand', () => {
    const ride = smooth(12_000, dice(4)).map((value) => Math.round(200 * value) / 1000);
    const peaks = ride.map((value, i) => (i === 500 || i === 7000 ? 3 : value));
    assert.equal(found(peaks), undefined);
    assert.equal(found(peaks, 3)?.value, 2 / 12_000);
    assert.equal(found(peaks, 4), undefined);
  });

  it('is a single reading at the end of the range that the file states, or one step short of it', () => {
    const ride = smooth(12_000, dice(4)).map((value) => Math.round(200 * value) / 1000);
    const peak = (top: number): Float64Array => ride.map((value, i) => (i === 500 ? top : value));
    for (const top of [3, 2.999, -3]) {
      assert.equal(found(peak(top)), undefined);
      assert.equal(found(peak(top), 3)?.value, 1 / 12_000);
      assert.match(found(peak(top), 3)?.message ?? '', /1 sample \(.*\) stands at/);
    }
    for (const top of [2.99, -2.99, 3.01]) assert.equal(found(peak(top), 3), undefined);
  });

  it('is in no recording in whole mg that stays inside of the range that the file states', () => {
    const impacts: Signal = (count, { even, normal }) => {
      const [at, width] = [Math.floor(count * even()), 3 + 20 * even()];
      return of(count, (i) => Math.exp(-(((i - at) / width) ** 2)) + 0.01 * normal());
    };
    const wrong = Object.entries({ ...signals, impacts }).flatMap(([name, signal], k) =>
      [0.3, 0.9, 0.98, 0.992, 0.998].flatMap((share) =>
        Array.from({ length: 20 }, (_, n) => signal(2000, dice(3 + n + 1000 * k)))
          .filter((made) => {
            const within = inSteps(made, (4000 * share) / Math.max(...made.map(Math.abs)));
            return found(within, 4) !== undefined && found(within) === undefined;
          })
          .map(() => `${name} at ${share}`),
      ),
    );
    assert.deepEqual(wrong, []);
  }).timeout(60_000);

  it('is not gravity on an axis at rest, whatever jolts it', () => {
    for (const [rest, jolt] of [
      [1, 0.8],
      [1, 1.3],
      [2, 0.5],
    ])
      assert.equal(found(of(4000, (i) => (i % 900 === 7 ? jolt : rest))), undefined);
  });

  it('is not the rest before and after a shock, whose noise is small beside the pulse', () => {
    const { normal } = dice(5);
    const pulse = (i: number): number => (i > 1200 && i < 1240 ? 12 * Math.sin((Math.PI * (i - 1200)) / 40) : 0);
    assert.equal(found(of(4800, (i) => pulse(i) + 0.01 * normal())), undefined);
    assert.equal(found(of(4800, (i) => 0.01 * normal() - pulse(i))), undefined);
  });

  it('is not a tone in step with the rate, whose every top is the same reading', () => {
    for (const period of [4, 6, 8, 10])
      assert.equal(
        found(of(4000, (i) => Math.round(700 * Math.cos((2 * Math.PI * (i + 0.5)) / period)) / 1000)),
        undefined,
      );
  });

  it('says what was cut off: no less of it than there was, and no more than a few times that', () => {
    for (const [signal, seed] of [
      [resonance(0.02, 0.05), 1],
      [resonance(0.1, 0.3), 2],
      [smooth, 3],
    ] as const)
      for (const limit of [1.5, 2.5]) {
        const whole = signal(24_000, dice(seed));
        const cut = whole.map((value) => Math.max(-limit, Math.min(limit, value)));
        const lost = whole.reduce((sum, value, i) => sum + (value - cut[i]) ** 2, 0) / rate;
        const told = found(inSteps(cut, 1000))?.lost ?? 0;
        assert.ok(told > 0.95 * lost && told < 9 * lost, `${told} for ${lost}`);
      }
  });

  it('is looked for only where more than 0.1 % stand at the ends, or lie in a heap there', () => {
    // From -1 to 1, with whatever stands at an end or near it, and all else in the middle.
    const may = (count: number, ...near: number[]): boolean =>
      mayBeClipped(run(Float64Array.of(...near, ...of(count - near.length, (i) => (i % 7) / 100))).channels[0]);
    assert.ok(may(1999, -1, 1), '2 of 1999 stand at the ends');
    assert.ok(!may(2000, -1, 1), '2 of 2000 do');
    assert.ok(may(2999, -1, 1, 1) && may(2999, -1, -1, 1), '3 of 2999 do, at either end');
    assert.ok(!may(2999, -1, 1, 1 - 1e-6), 'one near the end stands not at it');
    // A heap: 20 within 1 % of the range, and five times those in the step inside of it.
    const heap = (many: number, inside: number): number[] => [
      ...of(many, (i) => 0.999 - i / 2000),
      ...of(inside, (i) => 0.979 - i / 2000),
    ];
    for (const side of [1, -1]) {
      const mayHeap = (many: number, inside: number): boolean =>
        may(5000, ...[-1, 1, ...heap(many, inside)].map((value) => side * value));
      assert.ok(mayHeap(19, 4), 'a heap of 20 and four beside it');
      assert.ok(!mayHeap(18, 0), 'none of 19');
      assert.ok(!mayHeap(19, 5), 'none of 20 with five beside it');
    }
    assert.equal(mayBeClipped(run(of(100, () => 3)).channels[0]), false);
  });

  it('is a fault where more than 0.1 % of the samples are lost, and a warning below', () => {
    const ride = smooth(12_000, dice(4)).map((value) => Math.round(200 * value) / 1000);
    const cut = (count: number): Finding | undefined =>
      found(
        ride.map((value, i) => (i % 5 === 3 && i < 5 * count ? 3 : value)),
        3,
      );
    assert.deepEqual([cut(12)?.severity, cut(12)?.threshold, cut(12)?.value], ['warning', 0, 0.001]);
    assert.deepEqual([cut(13)?.severity, cut(13)?.threshold, cut(13)?.value], ['fault', 0.001, 13 / 12_000]);
  });

  it('counts both sides, in the order of time, and says of the highest where it stands', () => {
    const ride = smooth(12_000, dice(4)).map((value) => Math.round(200 * value) / 1000);
    const tops: Readonly<Record<number, number>> = { 900: 3, 901: 3, 4000: -3, 8000: 3 };
    const cut = found(
      ride.map((value, i) => tops[i] ?? value),
      3,
    );
    assert.deepEqual(
      cut?.spans?.map(({ from, to }) => [Math.round(from * rate), Math.round(to * rate)]),
      [
        [900, 902],
        [4000, 4001],
        [8000, 8001],
      ],
    );
    assert.match(cut?.message ?? '', /4 samples .* at 3 g/);
  });

  it('takes what lies at a stop with noise on it, for as long as it lies there', () => {
    const { normal } = dice(9);
    const ride = smooth(12_000, dice(6)).map((value, i) => {
      const wanted = 1.2 * value + (i % 1000 > 300 && i % 1000 < 306 ? 9 : 0);
      return Math.min(wanted, 4) + 0.005 * normal();
    });
    const cut = found(ride);
    const highest = Math.max(...ride);
    const near = 0.01 * (highest - Math.min(...ride));
    const there = ride.filter((value) => highest - value < near).length;
    assert.ok(there >= 60, `${there} lie there`);
    assert.equal(cut?.value, there / 12_000);
    assert.equal(
      cut.spans?.reduce((sum, { from, to }) => sum + Math.round((to - from) * rate), 0),
      there,
    );
    assert.ok((cut.spans?.length ?? 0) < there / 2, `${cut.spans?.length} spans`);
    // Where it lies for most of the time it is at rest.
    const resting = (share: number): Float64Array =>
      of(12_000, (i) => (i % 1000 < 1000 * share ? 0.005 * normal() : -Math.abs(2 * ride[i]) - 0.2));
    assert.equal(found(resting(0.6)), undefined);
    assert.ok(found(resting(0.4)) !== undefined, 'not for most of the time');
  });

  it('puts a parabola over a plateau, whose slope is twice the fall beside it', () => {
    const ride = of(4000, (i) => Math.round(300 * Math.sin(i / 9)) / 1000);
    // Of four samples, with falls of 1 and of 2: three to a slope, a height of 3 x 4 / 4 and 8/15 of its square times 4 lost.
    const top = (at: number, before: number, after: number): [number, number][] => [
      [at - 1, before],
      ...[0, 1, 2, 3].map((k): [number, number] => [at + k, 5]),
      [at + 4, after],
    ];
    const tops = new Map([...top(500, 4, 3), ...top(2500, 3, 4)]);
    const cut = found(
      ride.map((value, i) => tops.get(i) ?? value),
      5,
    );
    assert.ok(Math.abs((cut?.lost ?? 0) - (2 * (8 / 15) * 9 * 4) / rate) < 1e-12, `${cut?.lost}`);
    // At the end of the recording there is one fall alone.
    const last = found(
      ride.map((value, i) => (i >= 3997 ? 5 : i === 3996 ? 3 : value)),
      5,
    );
    assert.ok(Math.abs((last?.lost ?? 0) - ((8 / 15) * 1.5 ** 2 * 3) / rate) < 1e-12, `${last?.lost}`);
  });
});

import { strict as assert } from 'node:assert';
import { flat, heldReadings } from '../../../src/readers/checks/flat.ts';
import { runOf, samplesOf } from './made.ts';

const told = (values: readonly number[], stretches?: readonly (readonly [number, number])[]): string[] =>
  flat(runOf({ x: values }, { stretches }), {}).map(({ code, severity }) => `${code} ${severity}`);

/** Noise without two alike beside each other, with some samples set to one value. */
const stuckFor = (length: number, value = 0.5): number[] =>
  samplesOf(200, (i) => (i >= 100 && i < 100 + length ? value : Math.sin(1.7 * i)));

describe('values that stand still', () => {
  it('are a fault where nothing moves at all', () => {
    const [finding] = flat(runOf({ x: samplesOf(30, () => 2), y: samplesOf(30, Math.sin) }), {});
    assert.deepEqual(
      [finding.code, finding.severity, finding.channel, finding.value, finding.threshold],
      ['flat', 'fault', 'x', 30, 5],
    );
    assert.deepEqual(told(samplesOf(30, () => 2)), ['flat fault']);
    // What stood at another value on the other side of a gap has moved.
    assert.deepEqual(
      told(
        samplesOf(30, (i) => (i < 15 ? 1 : 2)),
        [
          [0, 15],
          [15, 30],
        ],
      ),
      [],
    );
  });

  it('are stuck from six samples on, and where that is three times the usual', () => {
    assert.deepEqual(told(stuckFor(5)), []);
    assert.deepEqual(told(stuckFor(6)), ['stuck warning']);
    const held = (length: number): number[] =>
      samplesOf(400, (i) => (i >= 200 && i < 200 + length ? 0.5 : Math.sin(1.7 * Math.floor(i / 4))));
    assert.deepEqual(told(held(12)), []);
    assert.deepEqual(told(held(14)), ['stuck warning']);
  });

  it('are told with the longest of them, all places and the time they last', () => {
    const values = stuckFor(8);
    for (let i = 20; i < 27; i++) values[i] = 0.25;
    const [finding, ...rest] = flat(runOf({ x: values }), {});
    assert.equal(rest.length, 0);
    assert.equal(finding.value, 8);
    assert.equal(finding.threshold, 5);
    assert.equal(finding.channel, 'x');
    const spans = finding.spans?.map(({ from, to }) => [from, to].map((time) => Number(time.toFixed(9))));
    assert.deepEqual(spans, [
      [2, 2.7],
      [10, 10.8],
    ]);
    assert.match(finding.message, /0\.8 s/);
    assert.match(finding.message, /8 samples/);
  });

  it('are left to clipping at either extreme', () => {
    assert.deepEqual(told(stuckFor(8, 3)), []);
    assert.deepEqual(told(stuckFor(8, -3)), []);
    assert.deepEqual(told(stuckFor(8, 0.9)), ['stuck warning']);
  });

  it('do not go on across a gap', () => {
    assert.deepEqual(
      told(stuckFor(8), [
        [0, 104],
        [104, 200],
      ]),
      [],
    );
    assert.deepEqual(
      told(stuckFor(12), [
        [0, 104],
        [104, 200],
      ]),
      ['stuck warning'],
    );
  });
});

describe('rows that repeat the one before', () => {
  const held = (share: number): number[] => {
    let last = 0;
    return samplesOf(101, (i) => (last = i % 10 < 10 * share && i > 0 ? last : i));
  };
  const share = (...axes: number[][]): number | undefined =>
    heldReadings(runOf(Object.fromEntries(axes.map((values, k) => ['xyz'[k], values]))), {}).at(0)?.value;

  it('are told with their share from a fifth on, where every axis repeats', () => {
    assert.equal(share(held(0.3), held(0.3)), 0.3);
    assert.equal(share(held(0.2), held(0.2)), undefined);
    assert.equal(
      share(
        held(0.3),
        samplesOf(101, (i) => i),
      ),
      undefined,
    );
    assert.equal(share(held(0.3), held(0.5)), 0.3);
  });

  it('mean nothing on one axis, nor where all stands still', () => {
    assert.equal(share(held(0.3)), undefined);
    const still = samplesOf(101, () => 1);
    assert.equal(share(still, still), undefined);
  });

  it('are not counted across a gap, and tell the rate of the sensor', () => {
    const pairs = samplesOf(40, (i) => Math.floor(i / 2));
    const run = runOf(
      { x: pairs, y: pairs },
      {
        stretches: [
          [0, 21],
          [21, 40],
        ],
      },
    );
    const [finding] = heldReadings(run, {});
    assert.equal(finding.value, 19 / 38);
    assert.equal(finding.threshold, 0.2);
    assert.match(finding.message, /about 5 Hz/);
    assert.deepEqual(heldReadings(runOf({ x: [], y: [] }), {}), []);
  });
});

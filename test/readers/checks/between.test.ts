import { strict as assert } from 'node:assert';
import {
  sameChannels,
  sameGravity,
  sameLength,
  sameRate,
  sameRecording,
  sameStill,
} from '../../../src/readers/checks/between.ts';
import { seen, type NamedRun, type SetCheck } from '../../../src/readers/checks/seen.ts';
import { runOf, samplesOf, type Made } from './made.ts';

const named = (label: string, samples: Parameters<typeof runOf>[0], made?: Made): NamedRun => ({
  ...runOf(samples, made),
  label,
});
const told = (check: SetCheck, ...runs: NamedRun[]): string[] =>
  check(runs.map((run) => seen(run))).map(({ run, finding }) => `${run} ${finding.code} ${finding.severity}`);

describe('runs of a set', () => {
  const wave = samplesOf(40, Math.sin);

  it('have one rate within half a per cent of the median', () => {
    const at = (...rates: number[]): NamedRun[] => rates.map((rate, k) => named(`run ${k}`, { x: wave }, { rate }));
    assert.deepEqual(told(sameRate, ...at(1000, 1000, 1005)), []);
    assert.deepEqual(told(sameRate, ...at(1000, 1000, 1006)), ['2 set-rate warning']);
    assert.deepEqual(told(sameRate, ...at(1000, 1000, 994)), ['2 set-rate warning']);
    const [{ finding }] = sameRate(at(1000, 1000, 1100).map((run) => seen(run)));
    assert.ok(Math.abs(finding.value! - 0.1) < 1e-12);
    assert.equal(finding.threshold, 0.005);
    assert.match(finding.message, /run 2.*1100 Hz.*1000 Hz/);
  });

  it('have one length within a tenth, gaps apart', () => {
    const long = (count: number, made?: Made): NamedRun => named(`${count}`, { x: samplesOf(count, Math.sin) }, made);
    assert.deepEqual(told(sameLength, long(100), long(100), long(110)), []);
    assert.deepEqual(told(sameLength, long(100), long(100), long(111)), ['2 set-length warning']);
    assert.deepEqual(told(sameLength, long(100), long(100), long(91)), []);
    assert.deepEqual(told(sameLength, long(100), long(100), long(90)), ['2 set-length warning']);
    // Ten samples are lost within the last.
    assert.deepEqual(
      told(
        sameLength,
        long(100),
        long(100),
        long(100, {
          stretches: [
            [0, 45],
            [56, 100],
          ],
        }),
      ),
      ['2 set-length warning'],
    );
    const [{ finding }] = sameLength([long(100), long(100), long(50)].map((run) => seen(run)));
    assert.equal(finding.value, 2);
    assert.equal(finding.threshold, 1.1);
    assert.match(finding.message, /5 s.*10 s/);
  });

  const tilted = (degrees: number, label = `${degrees}`, size = 1): NamedRun => {
    const angle = (degrees * Math.PI) / 180;
    const still = (value: number): number[] => [size * value, size * value];
    return named(label, { x: still(Math.sin(angle)), y: still(0), z: still(Math.cos(angle)) });
  };

  it('point the same way within 5 degrees, beyond 15 it is a fault', () => {
    assert.deepEqual(told(sameGravity, tilted(0), tilted(4.9), tilted(-4.9)), []);
    assert.deepEqual(told(sameGravity, tilted(0), tilted(5.1), tilted(14.9)), [
      '1 set-gravity warning',
      '2 set-gravity warning',
    ]);
    assert.deepEqual(told(sameGravity, tilted(0), tilted(15.1)), ['1 set-gravity fault']);
    const [warning, fault] = sameGravity(
      [tilted(0, 'first'), tilted(10, 'second'), tilted(180, 'third')].map((run) => seen(run)),
    );
    assert.ok(Math.abs(warning.finding.value! - 10) < 1e-9);
    assert.deepEqual([warning.finding.threshold, fault.finding.threshold], [5, 15]);
    assert.ok(Math.abs(fault.finding.value! - 180) < 1e-5);
    assert.match(warning.finding.message, /in first: second was mounted/);
  });

  it('are held against the first whose mean vector is no less than a tenth of g', () => {
    assert.deepEqual(told(sameGravity, tilted(90, 'weak', 0.09), tilted(0), tilted(90)), ['2 set-gravity fault']);
    assert.deepEqual(told(sameGravity, tilted(0), tilted(90, 'weak', 0.09)), []);
    assert.deepEqual(told(sameGravity, tilted(0), tilted(90, 'weak', 0.11)), ['1 set-gravity fault']);
    assert.deepEqual(told(sameGravity, named('one axis', { x: wave }), tilted(0), tilted(0)), []);
    assert.deepEqual(told(sameGravity, named('one axis', { x: wave })), []);
  });

  it('are as quiet as each other in their quietest second, within twice', () => {
    // One quiet second of that level, and louder ones.
    const still = (level: number, made?: Made): NamedRun =>
      named(`${level}`, { x: samplesOf(40, (i) => (i < 10 ? level : 9) * (i % 2 === 0 ? 1 : -1)) }, made);
    assert.deepEqual(told(sameStill, still(1), still(1), still(1.99)), []);
    assert.deepEqual(told(sameStill, still(1), still(1), still(2.01)), ['2 set-still note']);
    assert.deepEqual(told(sameStill, still(1), still(1), still(0.49)), ['2 set-still note']);
    const [{ finding }] = sameStill([still(1), still(1), still(3)].map((run) => seen(run)));
    assert.ok(Math.abs(finding.value! - 3) < 1e-9);
    assert.equal(finding.threshold, 2);
    assert.match(finding.message, /3 g r\.m\.s\., 3 times above/);
  });

  it('are not held against each other where a level is nothing, or units differ', () => {
    const still = (level: number, made?: Made): NamedRun =>
      named(`${level}`, { x: samplesOf(40, (i) => (i < 10 ? level : 9) * (i % 2 === 0 ? 1 : -1)) }, made);
    assert.deepEqual(told(sameStill, still(1), still(0)), []);
    assert.deepEqual(told(sameStill, still(1), still(0), still(1), still(5)), ['3 set-still note']);
    assert.deepEqual(told(sameStill, still(1), still(5, { channel: { unit: 'm/s^2' } })), []);
    // One that is too short for a whole second has no level, and the others are held against each other.
    const short = named('short', { x: wave.slice(0, 9) });
    assert.deepEqual(told(sameStill, still(1), still(1), still(5), short), ['2 set-still note']);
  });

  it('have the same channels', () => {
    const all = named('all', { x: wave, y: wave, z: wave });
    assert.deepEqual(told(sameChannels, all, named('two', { x: wave, z: wave }), all), ['1 set-channels warning']);
    assert.deepEqual(told(sameChannels, all, all), []);
    const [{ finding }] = sameChannels([all, named('one', { z: wave })].map((run) => seen(run)));
    assert.equal(finding.value, 2);
    assert.equal(finding.threshold, 0);
    assert.match(finding.message, /one has no channel x, y/);
  });

  it('are no copies of each other', () => {
    const one = named('one', { x: wave, y: samplesOf(40, Math.cos) });
    const other = named('other', { x: samplesOf(40, (i) => Math.sin(i + 1)), y: samplesOf(40, Math.cos) });
    assert.deepEqual(told(sameRecording, one, other, { ...one, label: 'copy' }), ['2 set-copy fault']);
    assert.deepEqual(told(sameRecording, one, other), []);
    assert.match(
      sameRecording([one, { ...one, label: 'copy' }].map((run) => seen(run)))[0].finding.message,
      /copy.*one/,
    );
    assert.equal(sameRecording([one, { ...one, label: 'copy' }].map((run) => seen(run)))[0].finding.value, 1);
    // A part of it, one axis of it, or nothing that moves is no copy.
    assert.deepEqual(told(sameRecording, one, named('part', { x: wave.slice(0, 39), y: samplesOf(39, Math.cos) })), []);
    assert.deepEqual(told(sameRecording, one, named('axis', { x: wave })), []);
    assert.deepEqual(told(sameRecording, named('axis', { x: wave }), one), []);
    const dead = named('dead', { x: [1, 1, 1] });
    assert.deepEqual(told(sameRecording, dead, { ...dead, label: 'dead too' }), []);
    const half = named('half', { x: [1, 1, 1], y: [1, 2, 3] });
    assert.deepEqual(told(sameRecording, half, { ...half, label: 'copy' }), ['1 set-copy fault']);
    const point = named('point', { x: [1], y: [2] });
    assert.deepEqual(told(sameRecording, point, { ...point, label: 'copy' }), []);
  });
});

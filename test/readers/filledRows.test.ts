import { strict as assert } from 'node:assert';
import { findingOf, recordingOf, refusalOf, rows, samplesOf } from './memory.ts';

/** Every fifth row holds an accelerometer, the others a gyroscope, a position or a temperature. */
const mixed =
  'time (s),AccX (g),AccY (g),AccZ (g),Turn,Temp\n' +
  rows(1445, (i) => {
    const t = (0.002 * i).toFixed(3);
    return i % 5 === 2 ? [t, 0.001 * i, 0, 1, '', ''] : i % 5 === 4 ? [t, '', '', '', '', 20] : [t, '', '', '', 3, ''];
  });

describe('rows that sensors fill in turn', () => {
  it('are taken where the axes stand, and the others are no losses', async () => {
    for (const channels of [undefined, { x: 'AccX (g)', y: 'AccY (g)', z: 'AccZ (g)' }]) {
      const recording = await recordingOf(mixed, channels ? { channels } : {});
      assert.deepEqual(samplesOf(recording, 'x').slice(0, 3), [0.002, 0.007, 0.012]);
      assert.equal(recording.clock.rate, 100);
      assert.equal(recording.clock.stretches.length, 1);
      assert.equal(findingOf(recording, 'other-rows')?.value, 1156);
      assert.equal(findingOf(recording, 'empty-cells'), undefined);
    }
  });

  it('are those of the channels that are asked for, where several sensors have axes', async () => {
    const two =
      'time (s),base x (g),top x (g)\n' + rows(200, (i) => (i % 2 === 0 ? [0.005 * i, i, ''] : [0.005 * i, '', -i]));
    assert.match((await refusalOf(two)).message, /base x and top x stand in different rows/);
    const recording = await recordingOf(two, { wanted: ['top x'] });
    assert.deepEqual(samplesOf(recording, 'top x').slice(0, 2), [-1, -3]);
    const named = await recordingOf(two, { channels: { x: 'base x (g)' } });
    assert.deepEqual(samplesOf(named, 'x').slice(0, 2), [0, 2]);
  });

  it('keep a column that is named by hand, however few of its cells are filled', async () => {
    const plain =
      'time (s),p1,p2,p3,p4\n' +
      rows(300, (i) => [0.005 * i, ...[0, 1, 2, 3].map((k) => (i % 4 === k ? Math.sin(i) : ''))]);
    const recording = await recordingOf(plain, { channels: { x: 'p2' }, unit: 'g' });
    assert.equal(samplesOf(recording, 'x').length, 75);
  });
});

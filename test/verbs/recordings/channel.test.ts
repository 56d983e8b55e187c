import { strict as assert } from 'node:assert';
import { axesOf } from '../../../src/values/run.ts';
import { errorOf, recordingOf, resultOf, sine, valueOf } from '../notebook.ts';

const files = {
  'run.csv': recordingOf({ 'acc_X (g)': sine(5), 'acc_Y (g)': sine(7), 'acc_Z (g)': sine(9, 1, 1) }, { seconds: 4 }),
};
const load = 'r = load "run.csv"\n';

describe('channel', () => {
  it('keeps the channels that are named, in their order, with all their samples', async () => {
    const { runs } = await valueOf('runs', `${load}channel r z, x`, files);
    assert.deepEqual(
      runs[0].channels.map((one) => [one.name, axesOf(one)[0].samples.length]),
      [
        ['z', 800],
        ['x', 800],
      ],
    );
  });

  it('takes a header in quotes for the channel that has it', async () => {
    const { runs } = await valueOf('runs', `${load}channel r "acc_Y (g)"`, files);
    assert.deepEqual(
      runs[0].channels.map(({ name }) => name),
      ['y'],
    );
  });

  it('refuses one that is not there, and says which are', async () => {
    const { code, message } = await errorOf(`${load}channel r up`, files);
    assert.equal(code, 'channel.unknown');
    assert.match(message, /^run has no channel up: it has x, y and z\.$/);
  });

  it('leaves the faults of a run to what is made of it', async () => {
    const { warnings } = await resultOf(`${load}channel r x`, files);
    assert.deepEqual(warnings, []);
  });
});

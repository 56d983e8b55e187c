import { strict as assert } from 'node:assert';
import { takenChannels, withSamplesOf } from '../../src/readers/takenChannels.ts';
import { recordingOf, rows } from './memory.ts';

const value = (i: number, k: number): string => (0.1 * Math.sin((1 + k) * i)).toFixed(4);
const table = (headers: string): string =>
  `t (s),${headers}\n${rows(100, (i) => [(i / 100).toFixed(2), ...headers.split(',').map((_, k) => value(i, k))])}`;

describe('the channels that are taken of a recording', () => {
  const names = async (headers: string, asked: readonly string[], beside?: string): Promise<string[]> =>
    takenChannels(await recordingOf(table(headers)), asked, beside).map(({ name }) => name);

  it('are those asked for, in that order', async () => {
    assert.deepEqual(await names('x (g),y (g),z (g)', ['z', 'x']), ['z', 'x']);
  });

  it('are its axes where none is asked for, else all', async () => {
    assert.deepEqual(await names('x (g),z (g),force (N)', []), ['x', 'z']);
    assert.deepEqual(await names('force (N),flow (m/s)', []), ['force', 'flow']);
  });

  it('have another beside them once', async () => {
    assert.deepEqual(await names('x (g),force (N)', [], 'force'), ['x', 'force']);
    assert.deepEqual(await names('x (g),force (N)', ['force'], 'force'), ['force']);
  });

  it('alone keep their samples', async () => {
    const { channels } = withSamplesOf(await recordingOf(table('x (g),z (g)')), ['z']);
    assert.deepEqual(
      channels.map(({ name, samples }) => [name, samples.length]),
      [
        ['x', 0],
        ['z', 100],
      ],
    );
  });
});

import { strict as assert } from 'node:assert';
import { recordingOf, refusalOf, rows } from './memory.ts';

const rising = (header: string, time: boolean): string =>
  `${time ? 'time (s),' : ''}${header},z (g)\n` +
  rows(300, (i) => [...(time ? [(i / 200).toFixed(3)] : []), (20 + i / 100).toFixed(2), 1 + (i % 7) / 100]);

describe('a quantity that is no time', () => {
  it('is none by a unit of time behind its name, however steadily it rises', async () => {
    for (const header of ['temp s', 'temp ms', 'Temp (ms)', 'delay (ms)']) {
      assert.equal((await recordingOf(rising(header, true))).clock.rate, 200, header);
      if (header !== 'delay (ms)') assert.equal((await refusalOf(rising(header, false))).code, 'no-rate', header);
    }
  });

  it('leaves `temps s`, a time in French, one', async () => {
    assert.equal((await recordingOf(rising('temps s', false))).clock.rate, 100);
  });
});

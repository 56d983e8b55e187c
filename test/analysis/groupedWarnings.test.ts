import { strict as assert } from 'node:assert';
import { inFewLines } from '../../src/analysis/groupedWarnings.ts';
import type { Warning } from '../../src/result/result.ts';

const found = (run: string, code: string, facts: object): Warning => ({
  code,
  facts: { ...facts, of: run },
  message: `${run}: so it is.`,
  concerns: { run },
});
const messagesOf = (warnings: readonly Warning[]): readonly string[] =>
  inFewLines(warnings).map(({ message }) => message);

describe('what was found of several runs, line by line', () => {
  it('is told of the first in full, with the names of the others and the range of the figure', () => {
    const all = ['a 1', 'a 2', 'a 3'].map((run, k) => found(run, 'clipped', { channel: 'z', share: 0.01 * (k + 1) }));
    const other: Warning = { code: 'rate.evened', facts: {}, message: 'Evened.' };
    assert.deepEqual(messagesOf([all[0], other, ...all.slice(1)]), [
      'a 1: so it is. Much the same goes for a 2 and a 3 (2 % to 3 %).',
      'Evened.',
    ]);
    const faults = all.map((one) => ({ ...one, code: 'fault.clipped' }));
    assert.deepEqual(messagesOf(faults), ['a 1: so it is. Much the same goes for a 2 and a 3 (2 % to 3 %).']);
  });

  it('stays apart where more than figures differ: the code, the channel, what was done about it', () => {
    const apart = [
      found('a', 'clipped', { channel: 'z', share: 0.1 }),
      found('a', 'clipped', { channel: 'x', share: 0.1 }),
      found('b', 'fault.clipped', { channel: 'z', share: 0.1 }),
      found('a', 'uneven', { jitter: 0.1, treatment: 'resampled' }),
      found('b', 'uneven', { jitter: 0.3, treatment: 'refused' }),
    ];
    assert.deepEqual(inFewLines(apart), apart);
  });

  it('stays apart where it was not found of a run', () => {
    const twice = [1, 2].map((k): Warning => ({ code: 'rate.evened', facts: {}, message: `Evened ${k}.` }));
    assert.deepEqual(inFewLines(twice), twice);
  });

  it('names seven of many others, and counts the rest', () => {
    const many = Array.from({ length: 60 }, (_, k) => found(`r${k}`, 'clock-reset', { resets: k }));
    const [message, ...none] = messagesOf(many);
    assert.deepEqual(none, []);
    assert.equal(message, 'r0: so it is. Much the same goes for r1, r2, r3, r4, r5, r6, r7 and 52 more.');
  });
});

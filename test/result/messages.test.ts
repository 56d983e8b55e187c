import { strict as assert } from 'node:assert';
import { messages } from '../../src/result/messages.ts';

interface Facts {
  'gap.long': { readonly seconds: number };
  'unit.none': { readonly channel: string };
}

const { tell, refuse, tellOf } = messages<Facts>(
  {
    'gap.long': ({ seconds }) => `there is a gap of ${seconds} s.`,
    'unit.none': ({ channel }) => `${channel} has no unit.`,
  },
  { 'unit.none': () => ['unit'] },
);

describe('a room’s messages', () => {
  it('make the sentence of the facts, and name the options that would settle it', () => {
    assert.deepEqual(tell('unit.none', { channel: 'z' }), {
      code: 'unit.none',
      facts: { channel: 'z' },
      message: 'z has no unit.',
      settledBy: ['unit'],
    });
    assert.equal('settledBy' in tell('gap.long', { seconds: 2 }), false);
  });

  it('refuse at the operand that is to blame', () => {
    const { ok, failure } = refuse('gap.long', { seconds: 2 }, 'runs');
    assert.deepEqual([ok, failure.at, failure.message], [false, 'runs', 'there is a gap of 2 s.']);
  });

  it('tell the same of a thing that is named first, whose facts have the name and keep the rest', () => {
    const found = { ...tell('gap.long', { seconds: 2 }), severity: 'fault' };
    assert.deepEqual(tellOf('ride 1', found), {
      code: 'gap.long',
      facts: { seconds: 2, of: 'ride 1' },
      message: 'ride 1: there is a gap of 2 s.',
      severity: 'fault',
    });
  });

  it('are one line, whatever name a file brought', () => {
    assert.equal(tell('unit.none', { channel: 'a\nb' }).message.includes('\n'), false);
    assert.equal(tellOf('a\nb', tell('gap.long', { seconds: 2 })).message.includes('\n'), false);
  });
});

import { strict as assert } from 'node:assert';
import { orderLetters, planOf } from '../../../src/analysis/planning/plan.ts';

const digest = (text: string): string => `#${text.length}`;

describe('a plan', () => {
  it('states its items in one order, and is marked by the digest of them', () => {
    const plan = planOf({ order: 'ABBABA', runs: 3, question: 'Less?', channel: 'z' }, ['no stop', 'no rain'], digest);
    assert.ok(plan.ok);
    const { entries, hash } = plan.value;
    const lines = entries.map(({ word, text }) => `${word}: ${text}\n`);
    assert.deepEqual(lines, [
      'question: Less?\n',
      'channel: z\n',
      'runs of each: 3\n',
      'order: ABBA BA\n',
      'rule 1: no stop\n',
      'rule 2: no rain\n',
    ]);
    assert.equal(hash, digest(lines.join('')));
  });

  it('says which of band, channel and runs it leaves open; a level of the whole signal has no band', () => {
    const open = (settled: object): unknown => {
      const plan = planOf({ question: 'Less?', ...settled }, [], digest);
      return plan.ok ? plan.warnings.map(({ facts }) => facts) : plan.failure;
    };
    assert.deepEqual(open({}), [{ open: ['band', 'channel', 'runs'] }]);
    assert.deepEqual(open({ metric: 'rms', channel: 'z' }), [{ open: ['band', 'runs'] }]);
    assert.deepEqual(open({ metric: 'vdv', channel: 'z', runs: 4 }), []);
    assert.deepEqual(open({ bands: [{ from: 1, to: 2 }], channel: 'z', runs: 4 }), []);
  });

  it('is refused without a question, and where its order holds other runs than it plans', () => {
    const refused = (settled: { question: string; runs?: number; order?: string }): string | undefined => {
      const plan = planOf(settled, [], digest);
      return plan.ok ? undefined : plan.failure.message;
    };
    assert.match(refused({ question: ' ' }) ?? '', /begins with its question/);
    assert.match(
      refused({ question: 'Less?', runs: 3, order: 'ABBA' }) ?? '',
      /2 runs of A and 2 of B, and repeats says 3/,
    );
    assert.match(refused({ question: 'Less?', runs: 2, order: 'ABAA' }) ?? '', /3 runs of A and 1 of B/);
    assert.equal(refused({ question: 'Less?', runs: 2, order: 'ABBA' }), undefined);
  });
});

describe('the letters of an order', () => {
  it('are A and B, however they are written', () => {
    assert.deepEqual(orderLetters('abba, baab'), { ok: true, value: 'ABBABAAB' });
    const refused = orderLetters('FOAM $&');
    assert.ok(!refused.ok);
    assert.match(refused.failure.message, /and not as "FOAM \$&"\.$/);
  });
});

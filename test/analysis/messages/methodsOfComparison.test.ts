import { strict as assert } from 'node:assert';
import { orderText } from '../../../src/analysis/messages/methodsOfComparison.ts';

const told = (letters: string, names = ['foam', 'gel']): string =>
  orderText({ names, hasReference: false, orders: [{ stratum: undefined, letters }], design: undefined }, false);

describe('the order of runs in the paragraph on methods', () => {
  it('is told letter by letter up to 40 runs', () => {
    const letters = 'ABBA'.repeat(10);
    assert.equal(told(letters), `They were made in the order ${[...letters].join(' ')}, A being foam and B gel.`);
  });

  it('is the block that a longer one repeats, and how often', () => {
    assert.equal(told('AB'.repeat(334)), 'They were made in the order A B, 334 times over, A being foam and B gel.');
    assert.equal(
      told('ABCCBA'.repeat(9), ['foam', 'gel', 'air']),
      'They were made in the order A B C C B A, 9 times over, A being foam, B gel and C air.',
    );
  });

  it('is how a longer one begins that repeats no block', () => {
    const letters = `${'ABBA'.repeat(12)}B`;
    assert.equal(
      told(letters),
      'They were made in the order A B B A A B B A A B B A … (the first 12 of 49 runs), A being foam and B gel.',
    );
  });
});

import { strict as assert } from 'node:assert';
import { simulatedSentence } from '../../scripts/reference/simulated.ts';
import { Limits } from '../../scripts/simulate/limits.ts';

const tables = (...broken: readonly string[]): string =>
  `Made (seed 7, 50 experiments a line)\n\nOutside the limits:\n\n${broken.map((line) => `- ${line}\n`).join('')}`;

describe('where the intervals miss their goal', () => {
  it('is told of figures as they are printed, so that none is named as the limit itself', () => {
    const checked = new Limits();
    checked.coverage('even', 97.54);
    checked.coverage('even', 93.46);
    checked.atMost('family', 5.54, 5.5);
    assert.deepEqual(checked.broken, []);
    checked.coverage('even', 97.56);
    checked.coverage('even', 93.44);
    checked.coverage('even', NaN);
    checked.atMost('family', 5.56, 5.5);
    assert.deepEqual(checked.broken, [
      'even: coverage 97.6 %, not within 93.5 to 97.5 %',
      'even: coverage 93.4 %, not within 93.5 to 97.5 %',
      'even: coverage NaN %, not within 93.5 to 97.5 %',
      'family: 5.6 %, more than 5.5 %',
    ]);
  });

  it('stands in one sentence with the seed and the size, whichever goals are missed', () => {
    assert.match(simulatedSentence(tables()), /\(50 experiments a case, seed 7\): every case meets its goal\.$/);
    assert.match(
      simulatedSentence(
        tables('3 + 5 runs, order not known, nothing, spreads 10/2 %: coverage 92.8 %, not within 93.5 to 97.5 %'),
      ),
      /: with 3 runs of one and 5 of the other, whose order is not known, which scatter by 10 and 2 %, 92\.8 % of/,
    );
  });

  it('is never left out for want of words', () => {
    assert.throws(() => simulatedSentence(tables('something new: 9 %')), /no words for "something new: 9 %"/);
    assert.throws(() => simulatedSentence('a table without its seed'), /do not say their seed/);
  });
});
